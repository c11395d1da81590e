// The value that is typed, by thumb: a ruler as wide as the screen, and keys that know its unit. What is no number is
// typed with the keyboard of the device.

const unitKeys = {
  distance: [" ft", " in", " m"], slope: ["%", "°", ":"], up: ["%", "°"], "falls-left": ["%", "°"], "ball-at": [":"],
  stimp: [" ft", " m"], finish: [" in", " ft", " cm"], "aim-words": [" in", " cups", " left", " right"],
  "pace-words": [" ft", " m"], "meant-aim": [" in", " cups", " left", " right"],
  "meant-pace": [" ft", " m"], "end-words": [" ft", " in", " past", " short", " left", " right"],
  "stop-words": [" ft", " in", " m", " short", " long"], "from-words": [" ft", " m"], "to-words": [" ft", " m"],
  "line-words": [" ft", " m", "none"], "stimp-words": [" ft", " m"], guess: [" in", " cups", " left", " right"],
  reading: ["%", "up ", ", left ", ", right "], place: [" m", " paces", " left", " right"], "slope-words": ["%", "up ", ", left ", ", right "],
};
const valueWords = {
  distance: "Distance", slope: "Slope", up: "Slope up the line", "falls-left": "Falls left", "ball-at": "Ball at, o'clock",
  stimp: "Stimp", finish: "Finish past the hole", "aim-words": "Your aim", "pace-words": "Your pace, as a level putt",
  "meant-aim": "The aim you meant", "meant-pace": "The pace you meant, as a level putt", "end-words": "Where it stopped",
  "stop-words": "Where it stopped", "from-words": "Shortest length", "to-words": "Longest length",
  "line-words": "The line, this far away", "stimp-words": "Stimp of the floor", guess: "Your guess of the aim", reading: "What it reads", place: "Where it is", "slope-words": "The slope",
};
const fieldNames = /^(spread|ball|half|hole)-/;

class Keypad {
  // `program` has the calls of host.cpp by name, `wake` draws again, `done` is called when it closes.
  constructor(program, wake, done) {
    Object.assign(this, {program, wake, done, dialog: element("keypad"), ruler: element("ruler"), ended: true});
    this.ruler.addEventListener("input", () => this.slide(0));
    this.ruler.addEventListener("change", () => this.slide(1));
    element("keys").addEventListener("click", event => this.press(event.target.dataset.key));
    element("set").addEventListener("click", () => this.set());
    this.dialog.addEventListener("close", () => this.dialog.open || this.end(namedKeys.Escape));  // by the browser, unless set
    this.dialog.addEventListener("keydown", event => {
      if (event.key === "Enter") this.set();
      else if (event.key === "Backspace") this.press("⌫");
      else if (event.key.length === 1 && !event.ctrlKey && !event.metaKey) this.press(event.key);
      else return;
      event.preventDefault();
    });
  }

  // False where the value is no number.
  open() {
    const [name, , ruler] = this.program.value().split("\n");
    const units = unitKeys[name] ?? (fieldNames.test(name) ? ["%", " ft"] : null);
    if (!units) return false;
    this.ended = false;
    element("value-name").textContent = valueWords[name] ?? name.replace("-", " ");
    this.ruler.hidden = ruler !== "ruler";
    this.ruler.value = 0;
    const keys = ["1", "2", "3", "4", "5", "6", "7", "8", "9", ".", "0", "⌫", ...units];
    element("keys").replaceChildren(...keys.map(key => {
      const button = document.createElement("button");
      button.dataset.key = key;
      button.textContent = key.trim();
      return button;
    }));
    this.show();
    this.dialog.showModal();
    return true;
  }

  show() {
    element("value").textContent = this.program.value().split("\n")[1] || " ";
    this.wake();
  }
  press(key) {
    if (!key) return;
    if (key === "⌫") this.program.key(namedKeys.Backspace, 0, 0);
    else this.program.enter(key);
    this.show();
  }
  slide(ended) {
    const across = 0.5;  // the whole of it is half of the value's own, so that a thumb is fine enough
    this.program.slide(across * this.ruler.value / this.ruler.max, ended);
    if (ended) this.ruler.value = 0;
    this.show();
  }
  // At once: the browser tells of a dialog that was closed only later.
  set() {
    this.dialog.close();
    this.end(namedKeys.Enter);
  }
  end(key) {
    if (this.ended) return;
    this.ended = true;
    if (this.program.typing()) this.program.key(key, 0, 0);
    this.wake();
    this.done();
  }
}
