// Chromium without a screen, spoken to over a pipe.
import {spawn} from "node:child_process";
import {mkdtempSync, rmSync} from "node:fs";
import {tmpdir} from "node:os";
import {join} from "node:path";

export class Browser {
  constructor() {
    this.folder = mkdtempSync(join(tmpdir(), "dewtrail-browser-"));
    this.process = spawn("chromium", [
      "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
      "--disable-component-update", "--disable-sync", "--remote-debugging-pipe", `--user-data-dir=${this.folder}`, "about:blank",
    ], {stdio: ["ignore", "ignore", "ignore", "pipe", "pipe"]});
    this.waiting = new Map();
    this.number = 0;
    this.told = [];  // what the page's console and the network said
    let text = "";
    this.process.stdio[4].setEncoding("utf8").on("data", part => {
      text += part;
      for (let end; (end = text.indexOf("\0")) >= 0; text = text.slice(end + 1)) this.hear(JSON.parse(text.slice(0, end)));
    });
  }

  hear(message) {
    const waiting = this.waiting.get(message.id);
    this.waiting.delete(message.id);
    if (waiting) message.error ? waiting.failed(new Error(message.error.message)) : waiting.done(message.result);
    if (message.method === "Runtime.exceptionThrown") this.told.push("exception: " + (message.params.exceptionDetails.exception?.description ?? message.params.exceptionDetails.text));
    if (message.method === "Runtime.consoleAPICalled" && ["error", "warning", "assert"].includes(message.params.type))
      this.told.push("console: " + message.params.args.map(a => a.value ?? a.description).join(" "));
    if (message.method === "Log.entryAdded" && message.params.entry.level === "error") this.told.push("log: " + message.params.entry.text);
    // The file itself and what lies inside it are no requests to anywhere.
    if (message.method === "Network.requestWillBeSent" && !/^(file|data|blob):/.test(message.params.request.url))
      this.told.push("request: " + message.params.request.url);
    if (message.method === "Page.loadEventFired") this.loaded?.();
  }

  send(method, params = {}, session = this.session) {
    const id = ++this.number;
    this.process.stdio[3].write(JSON.stringify({id, method, params, sessionId: session}) + "\0");
    return new Promise((done, failed) => this.waiting.set(id, {done, failed}));
  }

  async open(url, {width, height, scale = 2, touch = true, dark = false}) {
    const {targetId} = await this.send("Target.createTarget", {url: "about:blank"}, undefined);
    this.session = (await this.send("Target.attachToTarget", {targetId, flatten: true}, undefined)).sessionId;
    for (const part of ["Page", "Runtime", "Log", "Network"]) await this.send(part + ".enable");
    await this.resize(width, height, scale, touch);
    await this.dark(dark);
    await this.allowGl();
    await this.go(url);
    return targetId;
  }
  // Pages from now on may paint by WebGL: here it is one in software, which they decline by themselves.
  async allowGl() {
    this.allowing = (await this.send("Page.addScriptToEvaluateOnNewDocument", {source: `{
      const context = HTMLCanvasElement.prototype.getContext, extension = WebGLRenderingContext.prototype.getExtension;
      HTMLCanvasElement.prototype.getContext = function (kind, wanted) { return context.call(this, kind, {...wanted, failIfMajorPerformanceCaveat: false}); };
      WebGLRenderingContext.prototype.getExtension = function (name) { return name.includes("renderer") ? null : extension.call(this, name); };
    }`})).identifier;
  }
  async declineGl() {
    await this.send("Page.removeScriptToEvaluateOnNewDocument", {identifier: this.allowing});
  }
  async dark(dark) {
    await this.send("Emulation.setEmulatedMedia", {features: [
      {name: "prefers-color-scheme", value: dark ? "dark" : "light"}, {name: "prefers-reduced-motion", value: "reduce"},
    ]});
  }
  // The page of this session, in front: one behind gets no input and draws nothing.
  async show(session) {
    this.session = session;
    await this.send("Page.bringToFront");
  }
  async resize(width, height, scale = 2, touch = true) {
    await this.send("Emulation.setDeviceMetricsOverride", {width, height, deviceScaleFactor: scale, mobile: touch});
    await this.send("Emulation.setTouchEmulationEnabled", {enabled: touch});
  }
  async go(url) {
    const loaded = new Promise(done => this.loaded = done);
    await this.send("Page.navigate", {url});
    await loaded;
    await this.until("globalThis.page && page.program && page.frames.length > 0");
  }

  async run(script) {
    const answer = await this.send("Runtime.evaluate", {expression: script, awaitPromise: true, returnByValue: true});
    if (answer.exceptionDetails) throw new Error(answer.exceptionDetails.exception?.description ?? answer.exceptionDetails.text);
    return answer.result.value;
  }
  async until(condition, seconds = 60) {
    const end = Date.now() + 1000 * seconds;
    while (!await this.run(`Boolean(${condition})`)) {
      if (Date.now() > end) throw new Error("not reached: " + condition + "; " + this.told.join("; "));
      await new Promise(done => setTimeout(done, 50));
    }
  }
  // What was asked for is drawn and stored; hints may still come and go.
  async settled() {
    const drawn = await this.run("page.drawn");
    await this.run("page.wake()");
    await this.until(`page.drawn > ${drawn} && page.stored()`);
  }

  async tap(x, y) {
    await this.send("Input.dispatchTouchEvent", {type: "touchStart", touchPoints: [{x, y}]});
    await this.send("Input.dispatchTouchEvent", {type: "touchEnd", touchPoints: []});
  }
  async drag(from, to, steps = 12) {
    const at = i => ({x: from.x + (to.x - from.x) * i / steps, y: from.y + (to.y - from.y) * i / steps});
    await this.send("Input.dispatchTouchEvent", {type: "touchStart", touchPoints: [at(0)]});
    for (let i = 1; i <= steps; ++i) await this.send("Input.dispatchTouchEvent", {type: "touchMove", touchPoints: [at(i)]});
    await this.send("Input.dispatchTouchEvent", {type: "touchEnd", touchPoints: []});
  }
  async key(key, {text = key.length === 1 ? key : undefined, ctrl = false} = {}) {
    const event = {key, text: ctrl ? undefined : text, modifiers: ctrl ? 2 : 0};
    await this.send("Input.dispatchKeyEvent", {type: "keyDown", ...event});
    await this.send("Input.dispatchKeyEvent", {type: "keyUp", key});
  }
  async picture() {
    return Buffer.from((await this.send("Page.captureScreenshot", {format: "png"})).data, "base64");
  }

  // As the program tells it: its state by name, and where things stand.
  async state() {
    const state = {}, at = {};
    for (const line of (await this.run("page.program.state()")).split("\n")) {
      const [name, ...rest] = line.split(" ");
      if (name === "at") at[rest[0]] = {x: +rest[1], y: +rest[2]};
      else if (name) state[name] = rest.join(" ");
    }
    return {state, at};
  }

  async close() {
    await this.send("Browser.close", {}, undefined).catch(() => {});
    await new Promise(done => this.process.exitCode === null ? this.process.on("exit", done) : done());
    rmSync(this.folder, {recursive: true, force: true, maxRetries: 5});
  }
}
