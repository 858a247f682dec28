/** Takes up a page that was already read: without this it stays as it is. */
import { isOfThisPage, kindOf, start } from "./solver.js";
import { equip } from "./tools.js";
import { above, today, word } from "./words.js";

/** Keeps a page that was served for when there is no signal, and says whether it does. */
async function keepForLater() {
  const served = location.protocol === "https:" || ["localhost", "127.0.0.1"].includes(location.hostname);
  let name = "not-kept";
  if (served && navigator.serviceWorker && document.querySelector("link[rel=manifest]")) {
    try {
      await navigator.serviceWorker.register("sw.js");
      name = "kept";
    } catch {
      // the browser was told to keep nothing
    }
  }
  document.querySelector("footer")?.append(word(name));
}

/** The card that is looked at is equipped, when it is looked at. */
function take() {
  const card = document.getElementById(decodeURIComponent(location.hash.slice(1)));
  const all = document.querySelectorAll("article");
  const shown = card ?? (all.length === 1 ? all[0] : undefined);
  if (shown instanceof HTMLElement && shown.matches("article:not([data-equipped])")) {
    const kind = kindOf(shown.id);
    if (!kind) return;
    shown.dataset.equipped = "";
    equip(shown, kind);
  }
}

async function main() {
  if (today() >= (document.documentElement.dataset.old ?? "")) above("old");
  if (!(await isOfThisPage())) return above("foreign");
  try {
    await start();
  } catch (fault) {
    console.error(fault);
    return above("broken");
  }
  take();
  addEventListener("hashchange", take);
  document.documentElement.dataset.ready = "";
  await keepForLater();
}

main();
