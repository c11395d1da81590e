// The page in headless Chromium: a putt set by touch and by keys, a drill that is still there after a reload and in a
// second page, every mode on every screen, and no request and no error throughout.
import assert from "node:assert/strict";
import {mkdirSync, writeFileSync} from "node:fs";
import {pathToFileURL} from "node:url";
import {Browser} from "./browser.mjs";

const [page, pictures] = process.argv.slice(2);
const url = pathToFileURL(page).href, modes = ["Read", "Compare", "Practise", "Review", "Green"];
const screens = [[390, 844], [360, 640], [844, 390], [768, 1024], [1280, 800]];
const least_finger_px = 44;
const browser = new Browser();

async function goTo(mode) {
  const {at} = await browser.state();
  await browser.tap(at["mode" + modes.indexOf(mode)].x, at["mode" + modes.indexOf(mode)].y);
  await browser.until(`page.program.state().startsWith("mode ${mode}\\n")`);
  await browser.settled();
}

async function keep(name) {
  if (!pictures) return;
  mkdirSync(pictures, {recursive: true});
  writeFileSync(`${pictures}/${name}.png`, await browser.picture());
}

async function practiseOne(number) {
  const {at} = await browser.state();
  await browser.tap(at["not-sure"].x, at["not-sure"].y);
  await browser.tap(at.button.x, at.button.y);
  await browser.until(`/stage (told|over)/.test(page.program.state())`);
  await browser.settled();
  const {state} = await browser.state();
  assert.equal(+state.answers, number);
}

const answersKept = () => browser.run("page.program.csv().trim().split('\\n').length - 1");

try {
  await browser.open(url, {width: 390, height: 844});
  await browser.settled();
  console.log(`first picture after ${await browser.run("Math.round(performance.now())")} ms or less`);

  // By touch: the ball is dragged, and the account is another one.
  let {at} = await browser.state();
  const before = await browser.run("page.program.account()");
  await browser.drag(at.ball, {x: at.ball.x - 70, y: at.ball.y - 40});
  await browser.settled();
  assert.notEqual(await browser.run("page.program.account()"), before, "a ball that is dragged is another putt");
  await keep("read_390x844");

  // By keys, as on a keyboard: a distance is typed.
  ({at} = await browser.state());
  await browser.tap(at.distance.x, at.distance.y);
  assert.equal(await browser.run("page.program.typing()"), 1, "a tap on a figure types it");
  await browser.key("a", {ctrl: true});
  for (const key of ["2", "0", "Enter"]) await browser.key(key);
  await browser.settled();
  assert.match(await browser.run("page.program.account()"), /20 ft|20-foot/, "the distance typed");

  // Three putts are remembered, over a reload.
  await goTo("Practise");
  for (let number = 1; number <= 3; ++number) {
    await practiseOne(number);
    if (number === 1) await keep("told_390x844");
    const {at: places} = await browser.state();
    if (number < 3) await browser.tap(places.button.x, places.button.y);
    await browser.settled();
  }
  assert.equal(await answersKept(), 3);
  await browser.go(url);
  assert.equal(await answersKept(), 3, "answers are there after a reload");
  console.log("three answers kept over a reload");

  // Every mode on every screen.
  for (const [w, h] of screens) {
    await browser.resize(w, h);
    await browser.settled();
    for (const mode of modes) {
      await goTo(mode);
      if (w < 700) {
        const small = await browser.run(`page.program.targets().trim().split("\\n").map(t => t.split(" ").map(Number))
          .filter(t => (t[0] === 0 || t[0] === 1) && (t[3] < ${least_finger_px} - 0.01 || t[4] < ${least_finger_px} - 0.01)).length`);
        assert.equal(small, 0, `modes and views at ${w} x ${h} are large enough for a thumb`);
      }
      await keep(`${mode.toLowerCase()}_${w}x${h}`);
    }
  }
  assert.deepEqual(browser.told, [], "nothing on the console, no request");
  console.log("no error, no request");
} finally {
  await browser.close();
}
