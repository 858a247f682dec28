/** The solver: texts in, JSON out. It is started when it is first asked, and anew after a fault. */

/** @typedef {{ house: string | null, cards: { kind: string, id: string, card: string, grew_days: number | null }[], with_costs: boolean, solver: string }} Parts */
/** @typedef {{ top: string, rest: string, report: any }} Answer */
/** @typedef {{ memory: WebAssembly.Memory, still_room(bytes: number): number, still_ask(): number }} Still */

/** @type {Parts | undefined} */
let parts;
/** @type {WebAssembly.Module | undefined} */
let built;
/** @type {Still | undefined} */
let running;

/** @returns {{ stamp: string, parts: string } | undefined} */
function carried() {
  const beside = /** @type {any} */ (globalThis).stillroomCarried;
  const inside = document.getElementById("carried")?.textContent;
  return beside ?? (inside ? JSON.parse(inside) : undefined);
}

/** @param {Uint8Array<ArrayBuffer>} bytes */
function base64(bytes) {
  return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(""));
}

/** Whether what is carried is what the page was written with. Where the browser reckons no hash (a page over plain http)
 * the stamps alone are compared.
 * @returns {Promise<boolean>} */
export async function isOfThisPage() {
  const stamp = document.documentElement.dataset.stamp;
  const found = carried();
  if (!found || found.stamp !== stamp) return false;
  if (globalThis.crypto?.subtle) {
    const hash = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(found.parts));
    if (base64(new Uint8Array(hash)) !== stamp) return false;
  }
  parts = JSON.parse(found.parts);
  return true;
}

/** Unpacks and starts the solver. */
export async function start() {
  if (!parts) throw new Error("nothing is carried");
  if (!built) {
    const letters = atob(parts.solver);
    const packed = new Uint8Array(letters.length);
    // a million times: a function for each letter is what a slow phone waits for
    for (let place = 0; place < letters.length; place += 1) packed[place] = letters.charCodeAt(place);
    const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
    built = await WebAssembly.compile(await new Response(stream).arrayBuffer());
    parts.solver = "";
  }
  const instance = await WebAssembly.instantiate(built);
  running = /** @type {Still} */ (/** @type {unknown} */ (instance.exports));
}

/** @param {string} card */
function partsOf(card) {
  return parts?.cards.find((of) => of.id === card);
}

/** Whether it is a card or a drink; one that cannot be read the solver has not.
 * @param {string} card @returns {string | undefined} */
export function kindOf(card) {
  return partsOf(card)?.kind;
}

/** @param {string} card @param {Record<string, unknown>} question @returns {Promise<Answer>} */
export async function ask(card, question) {
  if (!running) await start();
  const still = /** @type {Still} */ (running);
  const { card: text, grew_days } = partsOf(card) ?? {};
  const of = { house: parts?.house, with_costs: parts?.with_costs, card: text, grew_days };
  const asked = new TextEncoder().encode(JSON.stringify({ ...of, ...question }));
  try {
    const room = still.still_room(asked.length);
    new Uint8Array(still.memory.buffer).set(asked, room);
    const place = still.still_ask();
    // the memory may have grown, and then stands elsewhere
    const length = new DataView(still.memory.buffer).getUint32(place, true);
    return JSON.parse(new TextDecoder().decode(new Uint8Array(still.memory.buffer, place + 4, length)));
  } catch (fault) {
    running = undefined;
    throw fault;
  }
}
