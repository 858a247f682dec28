/** Words of the page: they stand in its templates, and none in a script. */

/** @param {string} id @returns {HTMLTemplateElement} */
function template(id) {
  return /** @type {HTMLTemplateElement} */ (document.getElementById(id));
}

/** A copy of what stands under this word.
 * @param {string} name @returns {HTMLElement} */
export function word(name) {
  const found = template("words").content.querySelector(`[data-word="${name}"]`);
  return /** @type {HTMLElement} */ (/** @type {Element} */ (found).cloneNode(true));
}

/** A copy of the tools of a card, or of a drink.
 * @param {string} kind @returns {HTMLElement} */
export function tools(kind) {
  const found = template("tools").content.querySelector(`[data-kind="${kind}"]`);
  return /** @type {HTMLElement} */ (/** @type {Element} */ (found).cloneNode(true));
}

/** Says something above everything else.
 * @param {string} name */
export function above(name) {
  const said = word(name);
  said.setAttribute("role", "alert");
  document.body.prepend(said);
}

/** The day that is today where the page is read.
 * @returns {string} */
export function today() {
  const now = new Date();
  const two = (/** @type {number} */ number) => String(number).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
