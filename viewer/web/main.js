// Opens the program and keeps its picture on the stage.

const element = id => document.getElementById(id);
const stage = element("green");
const measuring = document.createElement("canvas").getContext("2d");

async function compiledProgram() {
  const packed = Uint8Array.from(atob(element("program").textContent), c => c.charCodeAt(0));
  const unpacked = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  return WebAssembly.compile(await new Response(unpacked).arrayBuffer());
}

const calls = {
  open: "number number number number", resize: "number number number number", moved: "number number number",
  pressed: "number number number number number", released: "number number",
  wheel: "number number number number", key: "number number number", enter: "string", paste: "string",
  typing: "", value: "", slide: "number number", dragging: "", hand: "", touched: "number number", advance: "number", frame: "", drawing: "number",
  drawing_size: "number", corners: "number", corners_size: "number", raster: "number number number number number number number", ground_box: "", account: "", state: "", help: "", words: "", press_help: "number",
  say: "string", pupil: "", csv: "", failed: "",
};
const textual = new Set(["open", "account", "state", "help", "words", "pupil", "csv", "value"]);

function callsOf(module) {
  const program = {};
  for (const [name, kinds] of Object.entries(calls))
    program[name] = module.cwrap("dewtrail_" + name, textual.has(name) ? "string" : "number", kinds ? kinds.split(" ") : []);
  return program;
}

function saveFile(name, bytes) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([bytes]));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}

const page = {frames: [], drawn: 0};  // what a test may look at
const sound = {};
// Told to end it swings on to the ball, where it is silent: cut off it would click.
function playSwell(module, swing) {
  if (sound.source) sound.source.loop = swing > 0;
  if (sound.source || !(swing > 0)) return;
  sound.context = sound.context || new AudioContext();
  const rate = 44100, pointer = module.ccall("dewtrail_swell", "number", ["number", "number"], [swing, rate]);
  const count = module.ccall("dewtrail_swell_size", "number", [], []);
  const samples = new Int16Array(module.HEAPU8.buffer, pointer, count);
  const buffer = sound.context.createBuffer(1, count, rate);
  buffer.getChannelData(0).set(Float32Array.from(samples, s => s / 32768));
  const source = sound.source = sound.context.createBufferSource();
  source.buffer = buffer;
  source.loop = true;
  source.onended = () => { sound.source = null; };
  source.connect(sound.context.destination);
  source.start();
}

// The browser prints them, or makes a file of them; nothing else of the page is on paper.
function printPages(text) {
  const [name] = text.split("\n", 1), title = document.title;
  element("printed").innerHTML = text.slice(name.length + 1);
  document.title = name;
  addEventListener("afterprint", () => { document.title = title; }, {once: true});
  print();
}

async function open() {
  const [compiled] = await Promise.all([
    compiledProgram(), ...["400 20px Book", "italic 400 20px Book", "700 20px Book", "400 20px Sans", "700 20px Sans"].map(f => document.fonts.load(f)),
  ]);
  measuring.textRendering = "geometricPrecision";
  const host = {
    width(face, text) {
      setFont(measuring, face, 100);
      return measuring.measureText(text).width;
    },
    ask(what, text, number) {
      if (what === "copy") navigator.clipboard?.writeText(text).catch(() => {});
      if (what === "full-screen") document.fullscreenElement ? document.exitFullscreen() : document.documentElement.requestFullscreen?.();
      if (what === "swell") playSwell(module, number);
      if (what === "help") setTimeout(showHelp);
      if (what === "print") setTimeout(() => printPages(text));
    },
    askWorker: numbers => beside.ask(numbers) ? 1 : 0,
  };
  const module = await startProgram(compiled, {host, preRun: [m => { m.ENV.HOME = keepFolder; }]});
  const beside = new Beside(compiled, numbers => {
    wake();
    return callWithNumbers(module, "dewtrail_answered", numbers) !== 0;
  });
  const program = callsOf(module), [pictureDrawing, groundDrawing] = [0, 1].map(which => new Drawing(module, program, which));
  const keep = new Keep(module, words => { program.say(words); wake(); });
  await keep.open(globalThis.indexedDB);

  let moving = true, drawn = 0, waiting = false, asked = false, accountAt = 0, words = "";
  function wake() {
    if (!asked) requestAnimationFrame(frame);
    asked = true;
  }
  async function frame(now) {
    asked = false;
    const seconds = moving ? Math.min(0.1, (now - drawn) / 1000) : 0;
    drawn = now;
    moving = program.advance(seconds) !== 0;
    if (moving) wake();
    if (waiting) return;
    await keepAll();  // nothing is shown that is not kept
    draw();
  }
  async function keepAll() {
    waiting = true;
    while (keep.changed()) await keep.save();
    waiting = false;
  }
  function draw() {
    const began = performance.now(), groundIsNew = program.frame() !== 0;
    const [x, y, w, h, paper] = new Float64Array(module.HEAPU8.buffer, program.ground_box(), 5);
    page.painter.paint(pictureDrawing, groundDrawing, groundIsNew, [x, y, w, h], paper);
    ++page.drawn;
    page.opened ??= performance.now();
    page.frames.push(performance.now() - began);
    if (page.frames.length > 600) page.frames.shift();
    clearTimeout(accountAt);
    accountAt = setTimeout(tellAccount, 600);
  }
  function tellAccount() {
    const now = program.account();
    if (now !== words) element("account").textContent = words = now;
    const pupil = program.pupil();
    document.title = pupil ? `${pupil} – Dewtrail` : "Dewtrail";
  }
  function resize() {
    const w = innerWidth, h = innerHeight;
    program.resize(w, h, ...page.painter.resize(w, h, devicePixelRatio));
    wake();
  }
  function paintAnew() {
    page.painter = choosePainter(stage, paintAnew);
    resize();
  }
  function showHelp() {
    const list = element("commands");
    list.replaceChildren();
    let number = 0;
    for (const line of program.help().split("\n")) {
      const [text, ...keys] = line.split("\t");
      if (!keys.length) continue;
      const row = document.createElement("li"), label = document.createElement("span");
      label.textContent = text;
      row.append(label);
      for (const key of keys) {
        const button = document.createElement("button"), which = number++;
        button.textContent = key;
        button.setAttribute("aria-label", `${text}: ${key}`);
        button.onclick = () => {
          element("help").close();
          program.press_help(which);
          wake();
        };
        row.append(button);
      }
      list.append(row);
    }
    element("words").replaceChildren(...program.words().trim().split("\n").flatMap(line => {
      const [word, sentence] = line.split("\t"), term = document.createElement("dt"), told = document.createElement("dd");
      term.textContent = word;
      told.textContent = sentence;
      return [term, told];
    }));
    const pupil = program.pupil();
    element("whose").textContent = pupil ? `Answers of ${pupil}` : "Your answers";
    element("help").showModal();
  }
  const ownName = (name, ending) => [name, program.pupil()].filter(Boolean).join("-") + ending;
  element("close").onclick = () => element("help").close();
  element("save-table").onclick = () => {
    const table = program.csv();
    program.failed() ? program.say(table) : saveFile(ownName("answers", ".csv"), table);
    wake();
  };
  element("save-memory").onclick = () => {
    const memory = keep.memory();
    memory ? saveFile(ownName("memory", ".sqlite"), memory) : program.say("There are no answers yet.");
    wake();
  };
  element("bring").onclick = () => element("file").click();
  element("file").onchange = async event => {
    const file = event.target.files[0];
    event.target.value = "";
    if (!file) return;
    element("help").close();
    program.say(keep.add(file.name.endsWith(".sqlite") ? memoryFile : "answers.csv", new Uint8Array(await file.arrayBuffer())));
    wake();
  };

  for (const [name, text] of Object.entries(JSON.parse(element("lesson").textContent || "{}"))) {
    keep.makeFolders("/lesson/" + name);
    module.FS.writeFile("/lesson/" + name, text);
  }
  const dark = matchMedia("(prefers-color-scheme: dark)").matches, still = matchMedia("(prefers-reduced-motion: reduce)").matches;
  const wrong = program.open(innerWidth, innerHeight, dark ? 1 : 0, still ? 1 : 0);
  if (wrong) throw new Error(wrong);
  if (keep.refused) keep.tellRefused();
  addEventListener("resize", resize);
  addEventListener("visibilitychange", () => { if (document.hidden && !waiting) keepAll(); });  // no frame comes then
  paintAnew();
  const keypad = new Keypad(program, wake, () => stage.focus());
  listen(stage, element("typed"), program, wake, keypad);
  stage.focus();
  element("opening").remove();
  globalThis.page = Object.assign(page, {program, module, keep, beside, wake, draw, stored: () => !waiting && !keep.changed()});
}

open().catch(error => {
  element("opening").textContent = "Dewtrail could not open here: " + error.message;
  console.error(error);
});
