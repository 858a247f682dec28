/** What a card is asked: another size, another target, what it reads, when it was made. */
import { awake, dress, keepTicks, untick } from "./bench.js";
import { keep, kept } from "./kept.js";
import { ask } from "./solver.js";
import { above, today, tools, word } from "./words.js";

/** @typedef {Record<string, string>} Fields */

/** @param {HTMLFormElement} form @returns {Fields} */
function fields(form) {
  /** @type {Fields} */
  const all = {};
  for (const [name, value] of new FormData(form)) all[name] = String(value).trim();
  return all;
}

/** A question about the sheet, of what stands in the fields.
 * @param {Fields} asked */
function sheetQuestion(asked) {
  const set = ["brix", "abv", "sugar", "acid", "ph"].filter((of) => asked[of]).map((of) => `${of}=${asked[of]}`);
  const from = asked.amount ? `${asked.part}=${asked.amount}` : "";
  return { ask: "sheet", today: today(), make: asked.make, from, set, measured: asked.measured ? [asked.measured] : [] };
}

/** Whether anything was asked beside what the card says.
 * @param {Fields} asked */
function isAsked(asked) {
  return Object.entries(asked).some(([name, value]) => name !== "part" && value !== "");
}

/** Writes a sheet anew. The markup is the library's: it writes every text of a card as text, here as in the page itself, and
 * the policy of the page runs nothing that stands in it.
 * @param {HTMLElement} card @param {import("./solver.js").Answer} answer @param {boolean} changed */
function show(card, answer, changed) {
  const [top, rest] = [".top", ".rest"].map((part) => /** @type {HTMLElement} */ (card.querySelector(part)));
  top.innerHTML = answer.top;
  rest.innerHTML = answer.rest;
  if (changed) top.append(word("changed"));
  // the drawings are of the card as it was written
  const drawn = /** @type {HTMLElement | null} */ (card.querySelector(".charts"));
  if (drawn) drawn.hidden = changed;
  dress(card);
}

/** @param {HTMLElement} card @param {() => Promise<void>} work */
async function busy(card, work) {
  card.setAttribute("aria-busy", "true");
  card.classList.add("busy");
  try {
    await work();
  } catch (fault) {
    console.error(fault);
    above("broken");
  }
  card.classList.remove("busy");
  card.removeAttribute("aria-busy");
}

/** @param {HTMLElement} card @param {Fields} asked */
async function solve(card, asked) {
  await busy(card, async () => {
    show(card, await ask(card.id, sheetQuestion(asked)), isAsked(asked));
  });
}

/** @param {HTMLElement} card @param {HTMLFormElement} form */
async function answer(card, form) {
  const asked = fields(form);
  if (form.dataset.ask === "sheet") {
    // what was ticked was of another sheet
    keep(card.id, { asked, ticks: [], ends: {} });
    await solve(card, asked);
    // out of the way of what was asked for
    const tools = /** @type {HTMLDetailsElement} */ (form.closest("details"));
    tools.open = false;
    tools.querySelector("summary")?.focus({ preventScroll: true });
    card.querySelector(".top")?.scrollIntoView();
    return;
  }
  const place = /** @type {HTMLElement} */ (form.querySelector("[data-answer]"));
  await busy(card, async () => {
    const targets = sheetQuestion(kept(card.id).asked ?? {}).set;
    const said = await ask(card.id, { ...asked, ask: form.dataset.ask, today: today(), set: targets });
    place.innerHTML = said.rest;
  });
}

/** The parts of a card, of which there may be only so much.
 * @param {HTMLSelectElement} select @param {any} report */
function offerParts(select, report) {
  for (const part of report.parts ?? []) select.add(new Option(part.of));
}

/** Puts the tools between what is seen first of a card and the work.
 * @param {HTMLElement} card @param {string} kind */
export function equip(card, kind) {
  const bar = tools(kind);
  card.querySelector(".top")?.after(bar);
  for (const form of bar.querySelectorAll("form")) {
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      answer(card, form);
    });
  }
  const made = bar.querySelector("input[type=date]");
  if (made) /** @type {HTMLInputElement} */ (made).value = today();
  const screen = bar.querySelector("[data-do=awake]");
  if (screen) awake(/** @type {HTMLElement} */ (screen));
  card.addEventListener("change", (event) => {
    if (/** @type {HTMLElement} */ (event.target).matches("input[type=checkbox]")) keepTicks(card);
  });
  const sheet = bar.querySelector("form[data-ask=sheet]");
  if (sheet) equipSheet(card, bar, /** @type {HTMLFormElement} */ (sheet));
}

/** The tools that write a sheet anew, and what was asked of them before.
 * @param {HTMLElement} card @param {HTMLElement} bar @param {HTMLFormElement} sheet */
function equipSheet(card, bar, sheet) {
  const select = /** @type {HTMLSelectElement} */ (bar.querySelector("select"));
  sheet.closest("details")?.addEventListener("toggle", async () => {
    if (select.length === 0) offerParts(select, (await ask(card.id, sheetQuestion({}))).report);
  }, { once: true });
  bar.addEventListener("click", (event) => {
    const button = /** @type {HTMLElement} */ (event.target);
    if (button.dataset.do === "clear") untick(card);
    if (button.dataset.do === "units") {
      const ounces = document.body.classList.toggle("in-oz");
      button.setAttribute("aria-pressed", String(ounces));
    }
    if (button.dataset.do === "as-written") {
      sheet.reset();
      answer(card, sheet);
    }
  });
  const asked = kept(card.id).asked ?? {};
  for (const [name, value] of Object.entries(asked)) {
    const field = sheet.elements.namedItem(name);
    if (field instanceof HTMLInputElement) field.value = value;
  }
  if (isAsked(asked)) solve(card, asked);
  else dress(card);
}
