// The page in headless Chromium, in one session: putts set by touch and by keys, pupils kept apart, a drill kept over a
// reload and beside a second page, a green surveyed and putted on, a demonstration, a coach's page, WebGL and canvas, every mode on
// every screen, the time of a drag on a slowed processor, odds by a worker; and throughout no request and no error.
//   node page_test.mjs PAGE PROGRAM [PICTURES]
import assert from "node:assert/strict";
import {execFileSync} from "node:child_process";
import {mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync} from "node:fs";
import {tmpdir} from "node:os";
import {join} from "node:path";
import {pathToFileURL} from "node:url";
import {gzipSync} from "node:zlib";
import {Browser} from "./browser.mjs";

const [page, program, pictures] = process.argv.slice(2);
const url = pathToFileURL(page).href, modes = ["Read", "Compare", "Practise", "Review", "Green", "Measure"];
const screens = [[390, 844], [360, 640], [844, 390], [768, 1024], [1280, 800]];
const browser = new Browser(), folder = mkdtempSync(join(tmpdir(), "dewtrail-pages-"));

const state = async () => (await browser.state()).state;
async function tap(name) {
  const {at} = await browser.state();
  assert.ok(at[name], `there is ${name} to tap: ${Object.keys(at)}`);
  await browser.tap(at[name].x, at[name].y);
  await browser.settled();
}
async function goTo(mode) {
  await tap("mode" + modes.indexOf(mode));
  await browser.until(`page.program.state().startsWith("mode ${mode}\\n")`);
  await browser.settled();
}
async function keep(name) {
  if (!pictures) return;
  mkdirSync(pictures, {recursive: true});
  writeFileSync(`${pictures}/${name}.png`, await browser.picture());
}
// On the keypad, which a tap on a value opens.
async function keyIn(keys) {
  await browser.until(`document.getElementById("keypad").open`);
  for (const key of [...keys, null])
    await browser.run(key === null ? `document.getElementById("set").click()`
      : `[...document.querySelectorAll("#keys button")].find(b => b.dataset.key === ${JSON.stringify(key)}).click()`);
  await browser.settled();
}
async function answerAPutt() {
  if ((await state()).mode !== "Practise") await goTo("Practise");
  else if (/told|over/.test((await state()).stage)) await tap("button");
  await tap("button");
  await browser.until(`/stage (told|over)/.test(page.program.state())`);
  await browser.settled();
}
const answersKept = () => browser.run("page.program.csv().trim().split('\\n').length - 1");

async function putts() {
  let {at} = await browser.state();
  const before = await browser.run("page.program.account()");
  await browser.drag(at.ball, {x: at.ball.x - 70, y: at.ball.y - 40});
  await browser.settled();
  assert.notEqual(await browser.run("page.program.account()"), before, "a ball that is dragged is another putt");
  await keep("read_390x844");

  await tap("stimp");
  await keep("keypad_390x844");
  await keyIn(["1", "1", ".", "5"]);
  const kept = "page.module.FS.readFile('/keep/.local/state/dewtrail/putt.toml', {encoding: 'utf8'})";  // once it rests
  await browser.until(`${kept}.includes("stimp = 11.5")`);

  await browser.key("Escape");
  const distance = `+${kept}.match(/distance_m = ([0-9.]+)/)[1]`;
  const shorter = await browser.run(distance);
  await browser.run("page.program.key('.'.charCodeAt(0), 0, 0)");  // the distance, by its key
  await browser.until(`${distance} > ${shorter}`);
}

// By the name in the corner: nobody's first, a new one's last.
async function choosePupil(row) {
  await tap("pupils");
  await tap("page" + row);
  await leaveSession();
}
// Where putts of a session are answered that is asked first.
async function leaveSession() {
  if ((await browser.state()).at.page1) await tap("page1");
}
async function addPupil(name, row) {
  await choosePupil(row);
  assert.equal(await browser.run("page.program.typing() && document.activeElement.id"), "typed", "a keyboard comes up");
  await browser.send("Input.insertText", {text: name});
  await browser.settled();
}
async function pupils() {
  await tap("pupils");
  await keep("pupils_none_390x844");
  await browser.key("Escape");
  await addPupil("Amy", 1);
  await keep("pupil_typed_390x844");
  await tap("button");
  assert.equal((await state()).pupil, "Amy", "a pupil is added by touch and typing");
  await keep("pupil_390x844");
  assert.equal(await answersKept(), 0);
  await answerAPutt();
  assert.equal(await answersKept(), 1);
  await choosePupil(0);
  assert.equal((await state()).pupil, "");
  assert.equal(await answersKept(), 0, "nobody has answered");
  await choosePupil(1);
  assert.equal(await answersKept(), 1, "she has");
  await browser.go(url);
  assert.equal((await state()).pupil, "Amy", "hers over a reload");
  assert.equal(await answersKept(), 1);
  await browser.run("page.program.key(266, 0, 0)");
  await browser.until("document.getElementById('help').open");
  assert.equal(await browser.run("document.getElementById('whose').textContent"), "Answers of Amy");
  await browser.run("document.getElementById('help').close()");

  // A second page with another pupil: each page takes over what the other keeps, of each pupil by itself.
  const first = browser.session, second = await browser.open(url, {width: 390, height: 844});
  assert.equal((await state()).pupil, "Amy");
  await addPupil("Ben", 2);
  await browser.key("Enter");
  await browser.settled();
  assert.equal((await state()).pupil, "Ben");
  await answerAPutt();
  const other = browser.session;
  await browser.show(first);
  await answerAPutt();
  assert.equal(await answersKept(), 2);
  await browser.show(other);
  await answerAPutt();
  assert.equal(await answersKept(), 2);
  await choosePupil(1);
  assert.equal(await answersKept(), 2, "Amy's answers on the other page");
  await browser.show(first);
  await tap("pupils");
  await keep("pupils_390x844");
  await tap("page2");
  await leaveSession();
  assert.equal((await state()).pupil, "Ben");
  assert.equal(await answersKept(), 2, "Ben's answers on this one");
  await choosePupil(0);
  assert.equal(await answersKept(), 0, "and nobody's are none");
  await browser.send("Target.closeTarget", {targetId: second}, undefined);
  await browser.go(url);
  assert.equal((await state()).pupil, "", "nobody's over a reload");
}

async function practise() {
  await goTo("Practise");
  for (let number = 1; number <= 3; ++number) {
    await tap("not-sure");
    await tap("button");
    await browser.until(`/stage (told|over)/.test(page.program.state())`);
    await browser.settled();
    assert.equal(+(await state()).answers, number);
    if (number === 1) await keep("told_390x844");
    if (number < 3) await tap("button");
  }
  assert.equal(await answersKept(), 3);
  await browser.go(url);
  assert.equal(await answersKept(), 3, "answers are there after a reload");

  // A second page on the same answers: each finds the other's.
  const first = browser.session;
  await browser.open(url, {width: 390, height: 844});
  await goTo("Practise");
  await tap("button");
  await browser.until(`/stage (told|over)/.test(page.program.state())`);
  await browser.settled();
  assert.equal(await answersKept(), 4);
  await browser.show(first);
  await goTo("Practise");
  await tap("button");
  await browser.until(`/stage (told|over)/.test(page.program.state())`);
  await browser.settled();
  assert.equal(await answersKept(), 5, "nothing of the other page is lost");

  // Out as a table, which the program on a computer takes, and in again without doubling.
  const csv = await browser.run("page.program.csv()"), table = join(folder, "answers.csv");
  writeFileSync(table, csv);
  const said = execFileSync(program, ["practise", "--import", table, "--data", join(folder, "memory")]).toString();
  assert.match(said, /^5 answers added/, "practise --import");
  assert.match(await browser.run(`page.keep.add("answers.csv", new TextEncoder().encode(page.program.csv()))`), /^0 /);
  assert.match(await browser.run(`page.keep.add("memory.sqlite", page.keep.memory())`), /^0 /);
  assert.equal(await browser.run("page.program.failed()"), 0);
  await browser.run(`page.keep.add("memory.sqlite", new TextEncoder().encode("SQLite format 3\\0 and no more"))`);
  assert.equal(await browser.run("page.program.failed()"), 1, "a damaged memory is refused");
  assert.equal(await answersKept(), 5);

  // What another page keeps and this one cannot read is not written over.
  const stored = `new Promise(done => page.keep.database.transaction("files").objectStore("files").get("keep").onsuccess = e => done(e.target.result))`;
  const put = what => browser.run(`new Promise(done => {
    const t = page.keep.database.transaction("files", "readwrite");
    t.objectStore("files").put(${what}, "keep");
    t.oncomplete = () => done(1);
  })`);
  await browser.run(`${stored}.then(kept => { globalThis.before = kept; return 1; })`);
  await put(`{generation: before.generation + 1, files: Object.fromEntries(Object.entries(before.files).map(([path, bytes]) =>
    [path, path.endsWith("/memory.sqlite") ? bytes.slice(0, 200) : bytes]))}`);
  await browser.run("page.keep.save().then(() => 1)");
  assert.equal(await browser.run(`${stored}.then(kept => Object.entries(kept.files).find(([path]) => path.endsWith("/memory.sqlite"))[1].length)`), 200);
  assert.equal(await browser.run("page.keep.refused"), true, "and it says so");
  await put("before");
  await browser.go(url);
  assert.equal(await answersKept(), 5);
}

// One that stopped far off what was called is asked about first: the button keeps it.
async function ballsKept(count) {
  if (+(await state()).balls < count) await tap("button");
  assert.equal(+(await state()).balls, count);
}

async function measure() {
  await goTo("Measure");
  await tap("stop-words");
  await keyIn(["9", " ft"]);
  await ballsKept(1);
  // A keyboard that composes sends all of the word with every letter.
  await browser.run("document.getElementById('keypad').close(), document.getElementById('typed').focus()");
  assert.equal(await browser.run("page.program.typing()"), 1);
  for (const text of ["1", "11", "11ft"]) await browser.send("Input.imeSetComposition", {text, selectionStart: text.length, selectionEnd: text.length});
  await browser.send("Input.insertText", {text: "11ft"});
  assert.equal((await browser.run("page.program.value()")).split("\n")[1], "11ft", "what is composed is typed once");
  await browser.key("Enter");
  await browser.settled();
  await ballsKept(2);
  await keep("measured_390x844");
  await browser.key("Escape");
  await tap("view1");  // the line, through a gate
  for (const side of ["measured0", "measured1", "measured2", "measured1"]) await tap(side);
  assert.equal(+(await state()).strokes, 4);
  await keep("measured_line_390x844");
}

async function survey() {
  await goTo("Green");
  for (const keys of [["up ", "2", "%", ", left ", "0", "%"], ["up ", "1", "%", ", left ", "2", "%"], ["up ", "2", "%", ", right ", "1", "%"]]) {
    await tap("add");
    await keyIn(keys);
  }
  const green = await state();
  assert.equal(+green.spots, 3);
  assert.equal(green.fitted, "true", "three readings make a green");
  await keep("surveyed_390x844");
  await tap("button");
  await browser.until(`page.program.state().startsWith("mode Read\\n")`);
  await browser.settled();
  assert.ok((await browser.run("Object.keys(page.keep.contents()).join()")).includes("survey.toml"), "the survey is kept");
  assert.match(await browser.run("page.program.account()"), /level|straight|out|inside/i);
  await keep("putted_390x844");
}

async function compare() {
  await goTo("Compare");
  await tap("button");  // show me
  assert.notEqual((await state()).say, "", "the demonstration says what it shows");
  await browser.until(`/time_s (0.[1-9]|[1-9])/.test(page.program.state())`);
  await keep("compared_390x844");
}

// Odds on a curved green: by a worker, while the page goes on drawing; of the newest putt alone; by another worker where
// one has died; and the same figures by the page's own program where there is no worker, or none any more.
async function odds() {
  const curved = join(folder, "curved.html"), address = pathToFileURL(curved).href;
  execFileSync(program, ["pocket", "--green", "meadow", "--hole", "flag", "--ball", "left", "--page", page, "--out", curved]);
  const move = `page.program.key("]".charCodeAt(0), 0, 0), page.wake()`;  // the ball round the hole
  const told = "/odds_awaited false/.test(page.program.state())", putts = async () => (await state()).odds_putts;
  const settledPutts = async () => {
    for (let drawn = -1, now; drawn !== now;) {  // a putt that is let go is solved again, and asked about again
      now = await browser.run("page.drawn");
      await browser.until(told);
      await new Promise(done => setTimeout(done, 400));
      drawn = await browser.run("page.drawn");
    }
    return putts();
  };

  const {identifier} = await browser.send("Page.addScriptToEvaluateOnNewDocument", {source: "delete globalThis.Worker"});
  await browser.go(address);
  const expected = [await settledPutts()];
  for (let n = 0; n < 2; ++n) {
    await browser.run(move);
    expected.push(await settledPutts());
  }
  assert.equal(await browser.run("Boolean(page.beside.worker)"), false);
  assert.equal(new Set(expected).size, 3, `three putts: ${expected}`);
  await browser.send("Page.removeScriptToEvaluateOnNewDocument", {identifier});

  await browser.go(address);
  assert.equal(await browser.run("Boolean(page.beside.worker)"), true, "a worker is asked");
  assert.equal(await settledPutts(), expected[0], "the worker's odds are the program's");
  await browser.run(`(() => {  // how many pictures there were by the time of each answer
    const hear = page.beside.hear;
    page.heard = [];
    page.beside.hear = numbers => { page.heard.push(page.drawn); return hear(numbers); };
  })()`);
  await browser.run(move);
  await browser.until("page.heard.length > 0");
  await browser.run(move);  // while the first is answered
  assert.equal(await settledPutts(), expected[2], "the newest putt's odds are shown");

  const {at} = await browser.state();
  await browser.drag(at.hole, {x: at.hole.x + 25, y: at.hole.y + 15});  // what follows a miss there takes a second
  await browser.run("page.heard.length = 0");
  await settledPutts();
  const drawn = await browser.run("page.heard.at(-1) - page.heard[0]");
  assert.ok(drawn >= 3, `the page draws while the worker works: ${drawn} pictures`);

  await browser.go(address);
  await browser.run("page.beside.worker.terminate(), page.beside.silence_ms = 3000");
  assert.equal(await settledPutts(), expected[0], "a worker that says nothing any more is replaced");
  assert.ok(await browser.run("page.beside.left") < 2);

  await browser.go(address);
  await browser.run("page.beside.left = 0, page.beside.replace(page.beside.worker)");
  assert.equal(await settledPutts(), expected[0], "without another the program does it itself");
}

async function coach() {
  const lesson = join(folder, "lesson.html"), shown = join(folder, "shown.html"), homework = join(folder, "homework.html");
  execFileSync(program, ["pocket", "31ft", "--slope", "1.5%", "--clock", "4", "--stimp", "11", "--page", page, "--out", lesson]);
  await browser.go(pathToFileURL(lesson).href);
  assert.match(await browser.run("page.program.account()"), /./);
  const {at} = await browser.state();
  assert.ok(at.ball);
  assert.match(await browser.run("page.module.FS.readFile('/lesson/putt.toml', {encoding: 'utf8'})"), /stimp = 11\n/);
  execFileSync(program, ["pocket", "--show", "uphill", "--page", page, "--out", shown]);
  await browser.go(pathToFileURL(shown).href);
  assert.equal((await state()).mode, "Compare");
  execFileSync(program, ["lesson", "--theme", "halves", "--data", folder, "--page", page, "--pocket", homework], {stdio: "pipe"});
  await browser.go(pathToFileURL(homework).href);
  assert.equal((await state()).mode, "Practise", "a lesson's putts for home are dealt at once");
  await keep("homework_390x844");
  await tap("button");
  await browser.until(`/stage (told|over)/.test(page.program.state())`);
  await browser.go(url);
}

async function everyScreen() {
  for (const dark of [false, true]) {
    await browser.dark(dark);
    await browser.go(url);
    for (const [w, h] of screens) {
      await browser.resize(w, h);
      await browser.settled();
      for (const mode of modes) {
        await goTo(mode);
        await keep(`${mode.toLowerCase()}_${w}x${h}${dark ? "_dusk" : ""}`);
      }
    }
  }
  await browser.dark(false);
  await browser.resize(390, 844);
  await browser.go(url);
}

// By WebGL: what is kept of it, and what comes back when the context is lost; else on a canvas, the same to the eye.
async function painters() {
  await goTo("Read");
  const painter = () => browser.run("page.painter.constructor.name");
  await browser.run(`globalThis.pixels = () => {
    page.draw();
    const {gl, canvas, seen} = page.painter, {width, height} = canvas;
    if (seen) return seen.getImageData(0, 0, width, height).data;
    const read = new Uint8Array(4 * width * height), rows = new Uint8Array(read.length);
    gl.readPixels(0, 0, width, height, gl.RGBA, gl.UNSIGNED_BYTE, read);
    for (let y = 0; y < height; ++y) rows.set(read.subarray(4 * width * y, 4 * width * (y + 1)), 4 * width * (height - 1 - y));
    return rows;
  };
  // The share of pixels with a colour that is further off than this.
  globalThis.unlike = (a, b, most) => {
    let count = 0;
    for (let i = 0; i < a.length; i += 4) count += [0, 1, 2].some(k => Math.abs(a[i + k] - b[i + k]) > most);
    return count / (a.length / 4);
  };
  globalThis.forget = () => page.program.resize(innerWidth, innerHeight, devicePixelRatio, devicePixelRatio);
  for (let hint = 0; hint < 3; ++hint) page.program.advance(15);  // they are over
  forget();
  globalThis.first = pixels();`);
  assert.equal(await painter(), "GlPainter");
  const unlikeFirst = most => browser.run(`unlike(first, pixels(), ${most})`);
  assert.equal(await unlikeFirst(1), 0, "a ground that is kept is the ground that was painted");

  // Words are there: without them much is missing.
  assert.ok(await browser.run(`(() => {
    page.painter.text = () => {};
    const share = unlike(first, pixels(), 100);
    delete page.painter.text;
    return share;
  })()`) > 0.01, "words");
  assert.equal(await browser.run(`(() => {
    const {atlas} = page.painter;
    atlas.clear();
    atlas.y = atlas.height - 60;  // room for a few of a picture's
    return unlike(first, pixels(), 1);
  })()`), 0, "an atlas that is full in the midst of a picture begins anew");

  const lose = `new Promise(done => {
    page.painter.canvas.addEventListener("webglcontextlost", () => setTimeout(done));
    page.painter.gl.getExtension("WEBGL_lose_context").loseContext();
  })`;
  await browser.run(`globalThis.before = page.painter.gl, ${lose}`);
  assert.equal(await painter(), "GlPainter");
  assert.ok(await browser.run("before.isContextLost() && page.painter.gl !== before"));
  await browser.settled();
  assert.equal(await unlikeFirst(1), 0, "after a context that was lost all is there again");

  await browser.run(`{
    const get = HTMLCanvasElement.prototype.getContext;
    HTMLCanvasElement.prototype.getContext = function (kind, wanted) { return kind === "webgl" ? null : get.call(this, kind, wanted); };
  }`);
  await browser.run(lose);
  await browser.settled();
  assert.equal(await painter(), "CanvasPainter");
  assert.ok(await unlikeFirst(60) < 0.003, "the canvas has the same picture");
  await keep("canvas_390x844");
  await browser.declineGl();
  await browser.go(url);
  assert.equal(await painter(), "CanvasPainter", "what is WebGL in software is declined");
  await browser.allowGl();
  await browser.go(url);
}

// Told, not judged: machines are noisy. The bounds that are judged are a page's size and its first picture.
async function figures() {
  const bytes = readFileSync(page), packed = gzipSync(bytes, {level: 9}).length, megabyte = 1e6;
  console.log(`page ${(bytes.length / megabyte).toFixed(2)} MB, gzip ${(packed / megabyte).toFixed(2)} MB`);
  assert.ok(bytes.length <= 6 * megabyte && packed <= 2.2 * megabyte);
  await browser.go(url);
  console.log(`first picture ${await browser.run("Math.round(page.opened)")} ms after opening`);
  await drags("by WebGL, in software here,");
  await browser.declineGl();
  await browser.go(url);
  await drags("on a canvas");
  await browser.allowGl();
  await browser.go(url);
}
// The time of the page's own thread; what WebGL takes beside it is not in it.
async function drags(how) {
  for (const slowed of [1, 4]) {
    await browser.send("Emulation.setCPUThrottlingRate", {rate: slowed});
    await goTo("Read");
    const {at} = await browser.state();
    await browser.run("page.frames.length = 0");
    await browser.drag(at.ball, {x: at.ball.x + 60, y: at.ball.y - 60}, 60);
    const frames = (await browser.run("page.frames")).sort((a, b) => a - b);
    const share = part => frames[Math.min(frames.length - 1, Math.floor(part * frames.length))].toFixed(1);
    console.log(`a drag's frame ${how} at 390 x 844, processor slowed ${slowed} times: median ${share(0.5)} ms, 95th percentile ${share(0.95)} ms of ${frames.length}`);
  }
  await browser.send("Emulation.setCPUThrottlingRate", {rate: 1});
}

// What a printer would get, by the browser itself: as many pages as there are, with nothing of the screen on them.
async function prints() {
  await browser.run("globalThis.print = () => {}");  // no dialog here
  await goTo("Read");
  for (const [row, pages] of [[0, 1], [1, 4]]) {  // the read, and the ladder of four slopes
    await browser.run("page.program.key('p'.charCodeAt(0), 1, 0)");
    await browser.settled();
    await tap("page" + row);
    await browser.until(`document.querySelectorAll("#printed > svg").length === ${pages}`);
    assert.ok(await browser.run(`document.querySelectorAll("#printed text").length`) > 20 * pages);
    const pdf = Buffer.from((await browser.send("Page.printToPDF", {preferCSSPageSize: true, printBackground: true})).data, "base64");
    assert.equal(pdf.toString("latin1").match(/\/Type\s*\/Page\b/g).length, pages, "pages that are printed");
    if (pictures) writeFileSync(`${pictures}/printed${row}.pdf`, pdf);
  }
}

// What the content security policy is for: a page that tries cannot.
async function forbidden() {
  const tries = {
    fetch: `fetch("https://example.invalid/").then(() => "sent", () => "refused")`,
    image: `new Promise(done => { const i = new Image(); i.onload = () => done("sent"); i.onerror = () => done("refused"); i.src = "https://example.invalid/a.png"; })`,
    script: `new Promise(done => { const s = document.createElement("script"); s.onload = () => done("sent"); s.onerror = () => done("refused"); s.src = "https://example.invalid/a.js"; document.body.append(s); })`,
    socket: `new Promise(done => { try { const s = new WebSocket("wss://example.invalid/"); s.onopen = () => done("sent"); s.onerror = () => done("refused"); } catch { done("refused"); } })`,
    worker: `new Promise(done => { const w = new Worker(URL.createObjectURL(new Blob(["addEventListener('securitypolicyviolation', () => postMessage('refused')); fetch('https://example.invalid/').then(() => postMessage('sent'), () => {})"]))); w.onmessage = e => done(e.data); })`,
    inline: `(() => { const s = document.createElement("script"); s.textContent = "globalThis.ran = 1"; document.body.append(s); return globalThis.ran ? "ran" : "refused"; })()`,
  };
  for (const [name, script] of Object.entries(tries)) assert.equal(await browser.run(script), "refused", name);
  assert.ok(browser.told.filter(t => /Content Security Policy/.test(t)).length >= 4, browser.told.join("\n"));
}

async function withoutStorage() {
  await browser.send("Page.addScriptToEvaluateOnNewDocument", {source: "Object.defineProperty(globalThis, 'indexedDB', {value: undefined})"});
  await browser.go(url);
  assert.match(await browser.run("page.program.account()"), /keeps nothing/, "a browser that keeps nothing is told of");
  await goTo("Practise");
  await tap("button");
  await browser.until(`/stage (told|over)/.test(page.program.state())`);
  assert.equal(await answersKept(), 1, "and practice goes on");
}

try {
  await browser.open(url, {width: 390, height: 844});
  await browser.settled();
  for (const part of [putts, pupils, practise, measure, survey, compare, coach, prints, painters, everyScreen, figures, odds]) {
    await part();
    assert.deepEqual(browser.told, [], `${part.name}: nothing on the console, no request`);
    console.log(`${part.name}: as it should be, no error, no request`);
  }
  await forbidden();
  browser.told.length = 0;
  await withoutStorage();
  assert.deepEqual(browser.told, []);
  console.log("forbidden, withoutStorage: as it should be");
} finally {
  await browser.close();
  rmSync(folder, {recursive: true, force: true});
}
