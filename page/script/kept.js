/** What is kept on the device, so that a page that is closed and opened again is as it was. A browser that keeps nothing
 * takes nothing else away. */

/** @typedef {{ asked?: Record<string, string>, ticks?: number[], ends?: Record<string, number> }} Kept */

/** @param {string} card */
function key(card) {
  return `stillroom ${document.documentElement.dataset.stamp} ${card}`;
}

/** @param {string} card @returns {Kept} */
export function kept(card) {
  try {
    return JSON.parse(localStorage.getItem(key(card)) ?? "{}");
  } catch {
    return {};
  }
}

/** Keeps more of a card.
 * @param {string} card @param {Kept} more */
export function keep(card, more) {
  try {
    localStorage.setItem(key(card), JSON.stringify({ ...kept(card), ...more }));
  } catch {
    // private windows keep nothing
  }
}
