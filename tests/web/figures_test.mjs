// Random putts read by the page's program in node and by the same program built for this machine.
import assert from "node:assert/strict";
import {execFileSync} from "node:child_process";
import {readFileSync} from "node:fs";
import {createRequire} from "node:module";

const [program, native, greens, count = "1000"] = process.argv.slice(2);

// Another mathematical library and no SSE: not the same bits. What is allowed and, beside it, the most that was seen.
const per_rad = 180 / Math.PI;
const allowed = [
  [/^room\.line_deg/, 1e-8 * per_rad],  // 5.6e-7 degrees: an edge is searched for to so much
  [/^room/, 1e-8],                      // 9.0e-9
  [/^(arrival|entry|check)/, 5e-9],     // 3.2e-9: found along the roll, to its tolerance
  [/^turns/, 1e-5],                     // 3.8e-7: where the bend changes its side, and small steps of the miss
  [/^(start|aim|stand_in)/, 1e-10],     // 3.0e-11 degrees, 7.1e-12 m: what is shot for
  [/./, 1e-9],                          // 5.0e-10
];

let seed = 20261129;
const random = () => (seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0) / 2 ** 32;
const within = (low, high, digits) => (low + (high - low) * random()).toFixed(digits);
const onPlane = () => [
  within(3, 60, 1) + "ft", within(0, 4, 2) + "%", within(1, 12, 2), within(7, 13, 1), within(2, 30, 0) + "in",
];
const onGreen = () => ["meadow", within(6, 20, 2) + "," + within(5, 17, 2), "flag", within(7, 12, 1), within(2, 30, 0) + "in"];
const putts = Array.from({length: +count}, (_, n) => n % 4 ? onPlane() : onGreen());

const {readFigures} = {
  async readFigures() {
    const load = createRequire(import.meta.url)(program);
    const wasm = readFileSync(program.replace(/\.js$/, ".wasm"));
    const module = await load({wasmBinary: wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.length), host: {}});
    const kinds = Array(5).fill("string");
    return putts.map(putt => module.ccall("dewtrail_figures", "string", kinds, putt).trim());
  },
};

const here = execFileSync(native, [greens], {input: putts.map(p => p.join(" ")).join("\n") + "\n", maxBuffer: 1 << 28}).toString().trim().split("\n\n");
const there = await readFigures();
assert.equal(here.length, putts.length);

let figures = 0, worst = {difference: 0};
putts.forEach((putt, n) => {
  const a = here[n].trim().split("\n"), b = there[n].split("\n");
  assert.equal(b.length, a.length, `${putt.join(" ")}: the same figures\n${there[n]}\n---\n${here[n]}`);
  a.forEach((line, i) => {
    const [key, value] = line.split(" "), [otherKey, other] = b[i].split(" ");
    assert.equal(otherKey, key, putt.join(" "));
    const numbers = s => (s ?? "").replace(/[[\]]/g, "").split(",");
    numbers(value).forEach((text, k) => {
      const x = Number(text), y = Number(numbers(other)[k]);
      if (Number.isNaN(x)) return assert.equal(numbers(other)[k], text, `${putt.join(" ")}: ${key}`);
      ++figures;
      const limit = allowed.find(([pattern]) => pattern.test(key))[1], difference = Math.abs(x - y) / Math.max(1, Math.abs(x));
      if (difference > worst.difference) worst = {difference, key, putt: putt.join(" ")};
      assert.ok(difference <= limit, `${putt.join(" ")}: ${key} ${x} and ${y}`);
    });
  });
});
console.log(`${figures} figures of ${putts.length} putts alike; the furthest apart by ${worst.difference}: ${worst.key} of ${worst.putt}`);
