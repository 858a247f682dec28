/** What is done with a sheet at the bench: lines are ticked off, a hold is timed, the screen stays on. */
import { keep, kept } from "./kept.js";
import { word } from "./words.js";

/** @param {HTMLElement} card @returns {HTMLInputElement[]} */
function boxes(card) {
  return [...card.querySelectorAll("input[type=checkbox]")].map((box) => /** @type {HTMLInputElement} */ (box));
}

/** @param {HTMLElement} card */
export function keepTicks(card) {
  keep(card.id, { ticks: boxes(card).flatMap((box, place) => (box.checked ? [place] : [])) });
}

/** A sheet that was just written: what was ticked is ticked, what is held has its timer.
 * @param {HTMLElement} card */
export function dress(card) {
  const ticks = kept(card.id).ticks ?? [];
  boxes(card).forEach((box, place) => {
    box.checked = ticks.includes(place);
  });
  card.querySelectorAll("li[data-hold]").forEach((line, place) => timer(card, /** @type {HTMLElement} */ (line), place));
}

/** @param {HTMLElement} card */
export function untick(card) {
  for (const box of boxes(card)) box.checked = false;
  keep(card.id, { ticks: [], ends: {} });
}

/** @param {HTMLElement} card @param {HTMLElement} line @param {number} place */
function timer(card, line, place) {
  if (line.querySelector("button")) return;
  const button = word("start");
  const start = button.textContent;
  line.append(button);
  /** @type {number | undefined} */
  let ticking;
  const show = () => {
    const end = kept(card.id).ends?.[place];
    if (end === undefined || !line.isConnected) {
      clearInterval(ticking);
      button.textContent = start;
      return;
    }
    const left = Math.ceil((end - Date.now()) / 1000);
    if (left > 0) {
      button.textContent = `${Math.floor(left / 60)}:${String(left % 60).padStart(2, "0")}`;
      return;
    }
    clearInterval(ticking);
    button.textContent = word("over").textContent;
    button.setAttribute("role", "alert");
    navigator.vibrate?.([400, 200, 400]);
  };
  const run = () => {
    clearInterval(ticking);
    ticking = setInterval(show, 500);
    show();
  };
  button.addEventListener("click", () => {
    const ends = { ...kept(card.id).ends };
    if (ends[place] === undefined) ends[place] = Date.now() + Number(line.dataset.hold) * 60_000;
    else delete ends[place];
    keep(card.id, { ends });
    button.removeAttribute("role");
    run();
  });
  if (kept(card.id).ends?.[place] !== undefined) run();
}

/** Keeps the screen on while the button is pressed. Where the browser cannot, there is no button.
 * @param {HTMLElement} button */
export function awake(button) {
  if (!("wakeLock" in navigator)) {
    button.hidden = true;
    return;
  }
  const wanted = () => button.getAttribute("aria-pressed") === "true";
  const ask = async () => {
    try {
      await navigator.wakeLock.request("screen");
    } catch {
      button.setAttribute("aria-pressed", "false");
    }
  };
  button.addEventListener("click", () => {
    button.setAttribute("aria-pressed", String(!wanted()));
    if (wanted()) ask();
  });
  // a page that was out of sight has lost it
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible" && wanted()) ask();
  });
}
