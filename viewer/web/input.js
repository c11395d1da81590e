// Keys, pointer and fingers, as the program names them (viewer/picture/keys.hpp).

const namedKeys = {
  ArrowUp: 256, ArrowDown: 257, ArrowLeft: 258, ArrowRight: 259, Enter: 260, Escape: 261, Tab: 262, " ": 263,
  Home: 264, End: 265, F1: 266, F11: 267, Delete: 268, Backspace: 269,
};
const sameKey = {"=": "+", "_": "-", "{": "[", "}": "]", "<": ",", ">": ".", "?": "/"};

function keyCode(event) {
  if (event.key in namedKeys) return namedKeys[event.key];
  if (event.key.length !== 1) return 0;
  const key = sameKey[event.key] || event.key.toLowerCase();
  return /[a-z0-9[\],./+-]/.test(key) ? key.charCodeAt(0) : 0;
}

// `program` has the calls of host.cpp by name, `wake` draws again.
function listen(canvas, typed, program, wake) {
  const isTyped = () => document.activeElement === typed;
  const letTyped = () => {
    if (!program.typing() && isTyped()) canvas.focus();
  };

  addEventListener("keydown", event => {
    if (document.querySelector("dialog[open]")) return;
    const control = event.ctrlKey || event.metaKey;
    const writes = event.key.length === 1 && !control && !event.altKey;
    if (isTyped() && (writes || event.key === "Backspace" || event.key === "Unidentified")) return;
    if (control && /^[vrtwn]$/i.test(event.key)) return;
    const code = keyCode(event);
    if (!code && !writes) return;
    event.preventDefault();
    if (code) program.key(code, control ? 1 : 0, event.shiftKey ? 1 : 0);
    if (writes) program.enter(event.key);
    letTyped();
    wake();
  });
  addEventListener("paste", event => {
    program.paste(event.clipboardData.getData("text/plain"));
    wake();
  });
  // Keyboards on a screen write into a field; all that it gets goes to the program's own line.
  typed.addEventListener("beforeinput", event => {
    event.preventDefault();
    if (event.inputType === "insertLineBreak") program.key(namedKeys.Enter, 0, 0);
    else if (event.inputType.startsWith("delete")) program.key(namedKeys.Backspace, 0, 0);
    else if (event.data) program.enter(event.data);
    letTyped();
    wake();
  });

  const fingers = new Map();
  let pressed = null, before = {time: -1e9, x: 0, y: 0}, spread = 0;
  const tapWithin = 8, twiceWithin = 400, clickFactor = 1.15;
  const modifiers = event => [event.ctrlKey ? 1 : 0, event.shiftKey ? 1 : 0];

  const middleOf = () => {
    const [a, b] = [...fingers.values()];
    return {x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, apart: Math.hypot(a.x - b.x, a.y - b.y)};
  };
  const pinch = () => {
    const now = middleOf();
    program.moved(now.x, now.y, 0, 0);
    program.released(now.x, now.y);
    if (spread > 0 && now.apart > 0) program.wheel(Math.log(now.apart / spread) / Math.log(clickFactor), now.x, now.y, 0, 0);
    spread = now.apart;
    program.pressed(now.x, now.y, 1, 0, 0, 0);
  };

  canvas.addEventListener("pointerdown", event => {
    canvas.setPointerCapture(event.pointerId);
    if (event.pointerType === "touch") fingers.set(event.pointerId, {x: event.clientX, y: event.clientY});
    if (fingers.size === 2) {  // the first finger did not mean what it took hold of
      program.key(namedKeys.Escape, 0, 0);
      const now = middleOf();
      program.pressed(now.x, now.y, 1, 0, 0, 0);  // two fingers move the green as the middle button does
      spread = now.apart;
      pressed = null;
      return wake();
    }
    if (fingers.size > 2) return;
    const near = event.pointerType === "touch" ? 24 : 6;
    const twice = event.timeStamp - before.time < twiceWithin && Math.hypot(event.clientX - before.x, event.clientY - before.y) < near;
    before = {time: event.timeStamp, x: event.clientX, y: event.clientY};
    pressed = {x: event.clientX, y: event.clientY, still: true};
    program.pressed(event.clientX, event.clientY, event.button === 1 ? 1 : event.button === 2 ? 2 : 0, ...modifiers(event), twice ? 1 : 0);
    if (!isTyped() || !program.typing()) canvas.focus();
    wake();
  });
  canvas.addEventListener("pointermove", event => {
    if (fingers.has(event.pointerId)) fingers.set(event.pointerId, {x: event.clientX, y: event.clientY});
    if (fingers.size >= 2) {
      pinch();
      return wake();
    }
    if (pressed && Math.hypot(event.clientX - pressed.x, event.clientY - pressed.y) > tapWithin) pressed.still = false;
    program.moved(event.clientX, event.clientY, ...modifiers(event));
    canvas.style.cursor = program.hand() ? "pointer" : "default";
    wake();
  });
  const lifted = event => {
    fingers.delete(event.pointerId);
    program.released(event.clientX, event.clientY);
    const tap = pressed && pressed.still && event.pointerType === "touch" && event.type === "pointerup";
    pressed = null;
    if (tap && !program.typing() && program.touched(event.clientX, event.clientY) === 2) {
      program.pressed(event.clientX, event.clientY, 0, 0, 0, 1);  // a tap on a figure is enough to type it
      program.released(event.clientX, event.clientY);
    }
    if (event.pointerType === "touch" && program.typing()) typed.focus();
    if (event.pointerType === "touch") program.moved(-1, -1, 0, 0);  // a finger that is lifted points at nothing
    wake();
  };
  canvas.addEventListener("pointerup", lifted);
  canvas.addEventListener("pointercancel", lifted);
  canvas.addEventListener("contextmenu", event => event.preventDefault());
  canvas.addEventListener("wheel", event => {
    event.preventDefault();
    program.wheel(-Math.sign(event.deltaY) * Math.min(3, Math.abs(event.deltaY) / 100), event.clientX, event.clientY, ...modifiers(event));
    wake();
  }, {passive: false});
}
