// The solver of the page without a page: every number of every card against the program.
import assert from "node:assert/strict";
import fs from "node:fs";
import path from "node:path";
import { test } from "node:test";
import { gunzipSync } from "node:zlib";
import { cards, page, solver, stillroom } from "./bench.mjs";

/** How far a number may be off for being reckoned on another machine: far less than what is printed. */
const NEAR = 1e-8;

/** Whatever differs, by its path. What is found names a file of the one and none of the other. */
function differences(one, other, at = "") {
  if (at.endsWith("/diagnostics")) return [];
  if (typeof one === "number" && typeof other === "number") {
    return Math.abs(one - other) <= NEAR * Math.max(1, Math.abs(one)) ? [] : [`${at}: ${one} ${other}`];
  }
  if (one !== null && other !== null && typeof one === "object" && typeof other === "object") {
    const keys = new Set([...Object.keys(one), ...Object.keys(other)]);
    return [...keys].flatMap((key) => differences(one[key], other[key], `${at}/${key}`));
  }
  return one === other ? [] : [`${at}: ${JSON.stringify(one)} ${JSON.stringify(other)}`];
}

const carried = JSON.parse(fs.readFileSync(page("numbers.html"), "utf8").match(/id="carried">(.*)<\/script>/)[1]);
const { house, cards: texts } = JSON.parse(carried.parts);
const built = await WebAssembly.compile(gunzipSync(fs.readFileSync(path.join(solver, "solver.wasm.gz"))));
const { exports: still } = await WebAssembly.instantiate(built);

function ask(place, question) {
  const { card, grew_days } = texts.find((text) => text.id === place);
  const asked = new TextEncoder().encode(JSON.stringify({ house, card, grew_days, today: "2026-11-25", ...question }));
  const room = still.still_room(asked.length);
  new Uint8Array(still.memory.buffer).set(asked, room);
  const answer = still.still_ask();
  const length = new DataView(still.memory.buffer).getUint32(answer, true);
  return JSON.parse(new TextDecoder().decode(new Uint8Array(still.memory.buffer, answer + 4, length)));
}

test("nothing is asked of the machine", () => {
  assert.deepEqual(WebAssembly.Module.imports(built), []);
});

for (const { place, product, file } of cards()) {
  test(`${product}: two litres, number by number`, () => {
    const told = JSON.parse(stillroom("solve", file, "--make", "2L", "--made", "2026-11-25", "--json"));
    assert.deepEqual(differences(ask(place, { ask: "sheet", make: "2L" }).report, told), []);
  });
}

test("a reading, number by number", () => {
  const told = JSON.parse(stillroom("adjust", "formulas/lime-and-clove-liqueur.toml", "--have", "3L", "--abv", "17.1", "--brix", "31", "--json"));
  const asked = ask("card-lime-and-clove-liqueur", { ask: "adjust", have: "3L", abv: "17.1", brix: "31" });
  assert.deepEqual(differences(asked.report, told), []);
});

test("today's titration, number by number", () => {
  const measured = "lime juice: acid=58 g/L, ph=2.3";
  const told = JSON.parse(stillroom("solve", "formulas/lime-cordial.toml", "--measured", measured, "--made", "2026-11-25", "--json"));
  assert.deepEqual(differences(ask("card-lime-cordial", { ask: "sheet", measured: [measured] }).report, told), []);
});

test("what is no question is answered with words", () => {
  const room = still.still_room(3);
  new Uint8Array(still.memory.buffer).set(new TextEncoder().encode("{ø"), room);
  const answer = still.still_ask();
  const length = new DataView(still.memory.buffer).getUint32(answer, true);
  const said = JSON.parse(new TextDecoder().decode(new Uint8Array(still.memory.buffer, answer + 4, length)));
  assert.match(said.rest, /fault of the page/);
  assert.match(ask("card-plain-syrup", { ask: "sheet", make: "lots" }).rest, /lots/);
});
