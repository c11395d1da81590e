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
function listen(stage, typed, program, wake, keypad) {
  const isTyped = () => document.activeElement === typed;
  const letTyped = () => {
    if (!program.typing() && isTyped()) stage.focus();
  };

  addEventListener("keydown", event => {
    if (document.querySelector("dialog[open]")) return;
    const third = event.getModifierState("AltGraph");  // writes a character of its own
    const control = (event.ctrlKey || event.metaKey) && !third;
    if (event.altKey && !third) return;
    const writes = event.key.length === 1 && !control;
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
  // Keyboards on a screen write into a field; all that it gets goes to the program's own line. One that composes a
  // word sends the whole of it with every letter.
  let composed = "";
  typed.addEventListener("beforeinput", event => {
    event.preventDefault();
    if (event.inputType === "insertCompositionText") {
      for (const _ of composed) program.key(namedKeys.Backspace, 0, 0);
      composed = event.data ?? "";
      if (composed) program.enter(composed);
    } else if (event.inputType === "insertLineBreak") program.key(namedKeys.Enter, 0, 0);
    else if (event.inputType.startsWith("delete")) program.key(namedKeys.Backspace, 0, 0);
    else if (event.data) program.enter(event.data);
    letTyped();
    wake();
  });

  typed.addEventListener("compositionend", () => {
    composed = typed.value = "";
  });

  const fingers = new Map();
  let pressed = null, before = {time: -1e9, x: 0, y: 0}, spread = 0;
  const tapWithin = 8, twiceWithin = 400, clickFactor = 1.15, scrolledByClick = 40;
  const isFinger = event => event.pointerType === "touch";
  const held = event => (event.ctrlKey ? 1 : 0) + (event.shiftKey ? 2 : 0) + (isFinger(event) ? 4 : 0);
  const middleButton = 1, tapped = 1, typedAt = 2;  // as dewtrail_touched tells them

  const middleOf = () => {
    const [a, b] = [...fingers.values()];
    return {x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, apart: Math.hypot(a.x - b.x, a.y - b.y)};
  };
  // Two fingers move the green as the middle button does, and zoom it as the wheel does.
  const beginPinch = () => {
    if (!pressed?.waits) program.key(namedKeys.Escape, 0, 0);  // the first did not mean what it took hold of
    pressed = null;
    const now = middleOf();
    program.pressed(now.x, now.y, middleButton, 0, 0);
    spread = now.apart;
  };
  const pinch = () => {
    const now = middleOf();
    program.moved(now.x, now.y, 0);
    program.released(now.x, now.y);
    if (spread > 0 && now.apart > 0) program.wheel(Math.log(now.apart / spread) / Math.log(clickFactor), now.x, now.y, 0);
    spread = now.apart;
    program.pressed(now.x, now.y, middleButton, 0, 0);
  };
  const press = (event, twice) => {
    program.pressed(pressed.x, pressed.y, [0, 1, 2].includes(event.button) ? event.button : 0, held(event), twice ? 1 : 0);
    if (!isTyped() || !program.typing()) stage.focus();
  };

  stage.addEventListener("pointerdown", event => {
    stage.setPointerCapture(event.pointerId);
    if (isFinger(event)) fingers.set(event.pointerId, {x: event.clientX, y: event.clientY});
    if (fingers.size === 2) beginPinch();
    if (fingers.size >= 2) return wake();
    const near = isFinger(event) ? 24 : 6;
    const twice = event.timeStamp - before.time < twiceWithin && Math.hypot(event.clientX - before.x, event.clientY - before.y) < near;
    before = {time: event.timeStamp, x: event.clientX, y: event.clientY};
    pressed = {x: event.clientX, y: event.clientY, last: event.clientY, still: true, waits: false};
    // A finger on what is tapped may be about to scroll: that waits until it is lifted.
    if (isFinger(event)) pressed.kind = program.touched(event.clientX, event.clientY);
    pressed.waits = pressed.kind >= tapped;
    if (!pressed.waits) press(event, twice);
    wake();
  });
  stage.addEventListener("pointermove", event => {
    if (fingers.has(event.pointerId)) fingers.set(event.pointerId, {x: event.clientX, y: event.clientY});
    if (fingers.size >= 2) {
      pinch();
      return wake();
    }
    if (pressed && Math.hypot(event.clientX - pressed.x, event.clientY - pressed.y) > tapWithin) pressed.still = false;
    if (isFinger(event) && pressed && !pressed.still && (pressed.waits || !program.dragging())) {
      program.wheel((event.clientY - pressed.last) / scrolledByClick, pressed.x, pressed.y, 0);
      pressed.last = event.clientY;
    } else if (!pressed?.waits) {
      program.moved(event.clientX, event.clientY, held(event));
    }
    if (!isFinger(event)) stage.style.cursor = program.hand() ? "pointer" : "default";
    wake();
  });
  const modeNow = () => program.state().split("\n", 1)[0];
  const lifted = event => {
    const mode = modeNow();
    fingers.delete(event.pointerId);
    const tap = pressed?.still && isFinger(event) && event.type === "pointerup";
    if (tap && pressed.waits) press(event, pressed.kind === typedAt);  // a tap on a figure is enough to type it
    program.released(event.clientX, event.clientY);
    pressed = null;
    // A mode that begins with typing is looked at first.
    if (isFinger(event) && program.typing() && modeNow() === mode && !keypad.open()) {
      typed.autocapitalize = program.value().startsWith("new-name\n") ? "words" : "off";
      typed.focus();
    }
    if (isFinger(event)) program.moved(-1, -1, 0);  // a finger that is lifted points at nothing
    wake();
  };
  stage.addEventListener("pointerup", lifted);
  stage.addEventListener("pointercancel", lifted);
  // No click follows a touch: it would meet the keypad that the touch has opened.
  stage.addEventListener("touchend", event => event.cancelable && event.preventDefault(), {passive: false});
  stage.addEventListener("contextmenu", event => event.preventDefault());
  stage.addEventListener("wheel", event => {
    event.preventDefault();
    program.wheel(-Math.sign(event.deltaY) * Math.min(3, Math.abs(event.deltaY) / 100), event.clientX, event.clientY, held(event));
    wake();
  }, {passive: false});
}
