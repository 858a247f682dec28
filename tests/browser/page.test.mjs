// The bench page in a browser, as a person uses it. Numbers are held against the program itself.
import assert from "node:assert/strict";
import fs from "node:fs";
import path from "node:path";
import { createRequire } from "node:module";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { cards, drinks, launch, opened, page, plain, ready, served, sides, solver, stillroom, work } from "./bench.mjs";

const axe = fs.readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const phone = { viewport: { width: 360, height: 640 } };
const MUSCOVADO = "card-rich-muscovado-syrup";
const READ = ["menu", "board", "drink-clove-daiquiri", "drink-honey-old-fashioned", "lot-261123-d1"];
let browser, address, all, read;

before(async () => {
  browser = await launch();
  address = pathToFileURL(page("house.html")).href;
  all = cards();
  read = pathToFileURL(page("read.html", undefined, "--with-lots", "--with-costs")).href;
});
after(() => browser?.close());

async function on(card, options = phone) {
  const context = await browser.newContext(options);
  const tab = await opened(context, address, card);
  await ready(tab);
  const article = tab.locator(`#${card}`);
  return { context, tab, article };
}

async function askSheet(article, fields) {
  if (!(await article.locator("form[data-ask=sheet]").isVisible())) await article.locator("summary").first().click();
  for (const [name, value] of Object.entries(fields)) await article.locator(`form[data-ask=sheet] [name=${name}]`).fill(value);
  await article.getByRole("button", { name: "Work it out" }).click();
  await article.getByText("Worked out on this page").waitFor();
}

/** The words of a sheet on paper, from another verb, that the page does not say. */
function missing(text, ...asked) {
  const words = stillroom("card", "print", ...asked).split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word));
  assert.ok(words.length > 20, asked.join(" "));
  return words.filter((word) => !text.includes(word));
}

test("every card of the house is worked out in the page as it was written", async () => {
  const { context, tab } = await on(MUSCOVADO);
  for (const { place, file } of all) {
    const article = tab.locator(`#${place}`);
    const written = await article.locator(".rest").innerHTML();
    await tab.goto(`${address}#${place}`);
    await article.locator(".tools").waitFor();
    await article.locator("summary").first().click();
    await article.getByRole("button", { name: "As on the card" }).click();
    await tab.waitForFunction((id) => !document.getElementById(id).hasAttribute("aria-busy"), place);
    await tab.waitForTimeout(20);
    const without = (html) => html.replace(/<button[^>]*>.*?<\/button>/g, "");
    assert.equal(without(await article.locator(".rest").innerHTML()).trim(), without(written).trim(), place);
    assert.deepEqual(missing(plain(await article.textContent()), file), [], place);
  }
  assert.deepEqual(tab.faults, []);
  await context.close();
});

test("two litres are what the program weighs for two litres", async () => {
  for (const { place, file, stopped } of all.filter((card) => !card.stopped)) {
    const { context, tab, article } = await on(place);
    await askSheet(article, { make: "2L" });
    assert.deepEqual(missing(plain(await article.textContent()), file, "--make", "2L"), [], `${place} ${stopped}`);
    assert.deepEqual(tab.faults, []);
    await context.close();
  }
});

test("what there is of one part, and another target", async () => {
  const { context, article } = await on("card-plain-syrup");
  await article.locator("summary").first().click();
  await article.locator("select option").nth(0).waitFor({ state: "attached" });
  await article.locator("select").selectOption("white sugar");
  await askSheet(article, { amount: "3 kg", brix: "55" });
  const sheet = JSON.parse(stillroom("solve", "formulas/plain-syrup.toml", "--from", "white sugar=3 kg", "--set", "brix=55", "--json"));
  const text = plain(await article.textContent());
  for (const line of sheet.stages[0].lines) {
    const grams = line.mass_g.toLocaleString("en", { maximumFractionDigits: 0 });
    assert.ok(text.includes(`${grams} g ${line.of}`), `${grams} g ${line.of}: ${text}`);
  }
  await context.close();
});

test("a reading gives what adjust gives", async () => {
  const { context, article } = await on(MUSCOVADO);
  await article.locator("summary").nth(1).click();
  const form = article.locator("form[data-ask=adjust]");
  await form.locator("[name=have]").fill("1.5L");
  await form.locator("[name=brix]").fill("66");
  await form.getByRole("button").click();
  await form.locator("table").first().waitFor();
  const shown = plain(await form.locator("[data-answer]").innerText());
  const told = stillroom("adjust", "formulas/rich-muscovado-syrup.toml", "--have", "1.5L", "--brix", "66");
  const words = told.split("\n").slice(3).join(" ").split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word));
  assert.ok(words.length > 20);
  assert.deepEqual(words.filter((word) => !shown.includes(word)), [], `${shown}\n${told}`);
  await context.close();
});

// One lot of lime cordial had gas in it: the page ends the others as early as the program does.
test("a day gives the dates that date gives", async () => {
  const { context, article } = await on("card-lime-cordial");
  await article.locator("summary").nth(2).click();
  await article.locator("[name=made]").fill("2026-11-25");
  await article.getByRole("button", { name: "The dates" }).click();
  const shown = article.locator("form[data-ask=dates] [data-answer]");
  await shown.locator("li").first().waitFor();
  const dates = JSON.parse(stillroom("date", "formulas/lime-cordial.toml", "--made", "2026-11-25", "--json"));
  for (const store of dates.stores) assert.ok(plain(await shown.textContent()).includes(plain(store.says)), store.says);
  await context.close();
});

test("a drink is made ahead as serve makes it", async () => {
  const { context, tab, article } = await on("drink-honey-old-fashioned");
  await article.locator("summary").click();
  const form = article.locator("form[data-ask=ahead]");
  const asked = { glasses: "20", bottle: "500 ml", store: "freezer", made: "2026-11-25" };
  for (const [name, value] of Object.entries(asked)) await form.locator(`[name=${name}]`).fill(value);
  await form.getByRole("button").click();
  await form.locator("table").waitFor();
  const shown = plain(await form.locator("[data-answer]").innerText());
  const told = stillroom("serve", "formulas/honey-old-fashioned.toml", "--make", "20", "--bottle", "500 ml", "--store", "freezer", "--made", "2026-11-25");
  // how it is written to a file is of the terminal alone
  const lines = told.slice(0, told.search(/^ +as a card/m)).split("\n").slice(2).join(" ");
  const words = lines.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word) && !/^\(?--/.test(word));
  assert.ok(words.length > 20);
  assert.deepEqual(words.filter((word) => !shown.includes(word)), [], `${shown}\n${told}`);
  await article.screenshot({ path: path.join(work, "seen", "drink-ahead.png") });
  await form.locator("[name=store]").fill("moon");
  await form.getByRole("button").click();
  await form.getByText("its stores are").waitFor();
  assert.deepEqual(tab.faults, []);
  await context.close();
});

test("what is ticked is ticked after a reload, and so is another size", async () => {
  const { context, tab, article } = await on(MUSCOVADO);
  await askSheet(article, { make: "2 L" });
  await article.locator("ol.ticks input").nth(1).check();
  await tab.reload();
  await ready(tab);
  await article.getByText("Worked out on this page").waitFor();
  assert.deepEqual(missing(plain(await article.textContent()), "formulas/rich-muscovado-syrup.toml", "--make", "2L"), []);
  assert.ok(await article.locator(".charts").isHidden(), "what is drawn is the card as it was written");
  const ticked = await article.locator("ol.ticks input").evaluateAll((boxes) => boxes.map((box) => box.checked));
  assert.deepEqual(ticked.flatMap((is, place) => (is ? [place] : [])), [1]);
  // a hold counts on as well
  await article.getByRole("button", { name: "Start the timer" }).first().click();
  await tab.reload();
  await article.getByText(/^[0-4]:[0-5][0-9]$/).waitFor();
  await article.getByRole("button", { name: "Untick all" }).click();
  assert.equal(await article.locator("ol.ticks input:checked").count(), 0);
  await context.close();
});

test("millilitres or ounces", async () => {
  const { context, article } = await on(MUSCOVADO);
  const water = article.locator(".volume").first();
  assert.match(await water.innerText(), /ml/);
  await article.getByRole("button", { name: "Ounces" }).click();
  // 701.9 ml of water over 29.5735 ml
  assert.match(await water.innerText(), /23\.7 US fl oz/);
  await context.close();
});

test("a page that was served opens with the network cut", async () => {
  const { host, address } = await served();
  const context = await browser.newContext(phone);
  const tab = await opened(context, address, MUSCOVADO);
  await ready(tab);
  await tab.getByText("it opens with no signal").first().waitFor();
  await tab.evaluate(() => navigator.serviceWorker.ready);
  await tab.waitForFunction(async () => (await caches.keys()).length === 1 && navigator.serviceWorker.controller);
  await new Promise((closed) => { host.close(closed); host.closeAllConnections(); });
  await context.setOffline(true);
  await tab.reload();
  await ready(tab);
  await askSheet(tab.locator(`#${MUSCOVADO}`), { make: "2 L" });
  assert.match(plain(await tab.locator(`#${MUSCOVADO}`).textContent()), /2\.00 L/);
  await context.close();
});

test("without a script everything is there", async () => {
  const context = await browser.newContext({ ...phone, javaScriptEnabled: false });
  const tab = await opened(context, address);
  // the cards, the drinks, the menu
  assert.equal(await tab.locator("nav li").count(), all.length + drinks().length + 1);
  for (const { place, file } of all) {
    await tab.goto(`${address}#${place}`);
    const article = tab.locator(`#${place}`);
    assert.ok(await article.isVisible());
    assert.deepEqual(missing(plain(await article.innerText()), file), [], place);
  }
  await context.close();
});

test("drinks, the menu, the board and a lot read without a script", async () => {
  const context = await browser.newContext({ ...phone, javaScriptEnabled: false });
  const tab = await opened(context, read);
  const has = async (place, told) => {
    await tab.goto(`${read}#${place}`);
    const shown = plain(await tab.locator(`#${place}`).innerText());
    const words = told.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word) && !/^\(?--/.test(word));
    assert.ok(words.length > 20, place);
    assert.deepEqual(words.filter((word) => !shown.toLowerCase().includes(word.toLowerCase())), [], `${place}: ${shown}`);
  };
  for (const { place, file } of drinks()) await has(place, stillroom("serve", file));
  await has("menu", stillroom("menu", "formulas").replace(/^.* · menu of .*$/m, "").split(/: stillroom serve|Advice from/)[0]);
  await has("board", stillroom("-C", "formulas", "due"));
  // from the menu to a drink, from the board to a lot, and back
  await tab.goto(`${read}#menu`);
  await tab.getByRole("link", { name: "Clove daiquiri" }).click();
  assert.ok(await tab.locator("#drink-clove-daiquiri").isVisible());
  await tab.goto(`${read}#board`);
  await tab.locator("#board .lots a").first().click();
  await tab.getByRole("link", { name: "All lots" }).click();
  assert.ok(await tab.locator("#board").isVisible());
  await context.close();
});

test("a card is one side of A6, and of A4", async () => {
  const context = await browser.newContext({ javaScriptEnabled: false });
  const tab = await context.newPage();
  for (const { place } of [...all, ...drinks()]) {
    await tab.goto(`${address}#${place}`);
    await tab.reload();
    assert.equal(sides(await tab.pdf({ format: "A6" })), 1, `${place} on A6`);
    if (place === MUSCOVADO) assert.equal(sides(await tab.pdf({ format: "A4" })), 1, `${place} on A4`);
  }
  await context.close();
});

test("it is seen on a phone and on a large screen, by day and by night", async () => {
  for (const [width, height] of [[360, 640], [1280, 800]]) {
    for (const colorScheme of ["light", "dark"]) {
      const { context, tab, article } = await on(MUSCOVADO, { viewport: { width, height }, colorScheme });
      await askSheet(article, { make: "2 L" });
      await tab.screenshot({ path: path.join(work, "seen", `${width}-${colorScheme}.png`), fullPage: true });
      assert.ok((await tab.evaluate(() => document.documentElement.scrollWidth)) <= width);
      const small = await tab.evaluate(() =>
        [...document.querySelectorAll("button,summary,input:not([type=checkbox]),select,nav a,.back a,ol.ticks label")]
          .filter((of) => of.checkVisibility()).filter((of) => of.getBoundingClientRect().height < 47.9).map((of) => of.outerHTML));
      assert.deepEqual(small, [], "less than 48 px high");
      await context.close();
    }
  }
});

test("what is only read is seen on a phone and on a large screen, and with letters of twice the size", async () => {
  for (const [width, height] of [[360, 640], [1280, 800]]) {
    for (const colorScheme of ["light", "dark"]) {
      const context = await browser.newContext({ viewport: { width, height }, colorScheme });
      const tab = await opened(context, read);
      for (const place of ["cards", ...READ, "card-lime-and-clove-liqueur"]) {
        await tab.goto(`${read}#${place}`);
        await tab.screenshot({ path: path.join(work, "seen", `${place}-${width}-${colorScheme}.png`), fullPage: true });
        const wide = () => tab.evaluate(() => document.documentElement.scrollWidth);
        assert.ok((await wide()) <= width, `${place} at ${width}`);
        const small = await tab.locator(`#${place} a:visible`).evaluateAll((links) =>
          links.filter((of) => of.getBoundingClientRect().height < 47.9).map((of) => of.outerHTML));
        assert.deepEqual(small, [], "less than 48 px high");
        await tab.evaluate(() => { document.documentElement.style.fontSize = "36px"; });
        assert.ok((await wide()) <= width, `${place} at ${width}, twice the size`);
        if (width === 360 && colorScheme === "light") await tab.screenshot({ path: path.join(work, "seen", `${place}-twice.png`), fullPage: true });
        await tab.evaluate(() => { document.documentElement.style.fontSize = ""; });
      }
      await context.close();
    }
  }
});

test("axe finds nothing", async () => {
  for (const colorScheme of ["light", "dark"]) {
    // the policy would keep the audit out as well
    const context = await browser.newContext({ ...phone, colorScheme, bypassCSP: true });
    const tab = await opened(context, address);
    await ready(tab);
    const audit = async (what) => {
      await tab.evaluate(axe);
      const found = await tab.evaluate(() => globalThis.axe.run());
      assert.deepEqual(found.violations.map((v) => [v.id, v.nodes.map((node) => node.html)]), [], what);
    };
    await audit("the list");
    for (const card of [MUSCOVADO, "card-aromatic-bitters"]) {
      await tab.goto(`${address}#${card}`);
      await tab.locator(`#${card} .tools`).waitFor();
      for (const summary of await tab.locator(`#${card} summary`).all()) await summary.click();
      await audit(card);
    }
    for (const place of READ) {
      await tab.goto(`${read}#${place}`);
      await tab.reload();
      await audit(place);
    }
    await context.close();
  }
});

test("the keyboard alone does the job", async () => {
  const context = await browser.newContext(phone);
  const tab = await opened(context, address);
  await ready(tab);
  const press = async (key, until) => {
    for (let count = 0; count < 80; count += 1) {
      await tab.keyboard.press(key);
      if (await tab.evaluate((until) => document.activeElement?.matches(until), until)) return;
    }
    assert.fail(`${key} does not come to ${until}`);
  };
  await press("Tab", `a[href='#${MUSCOVADO}']`);
  await tab.keyboard.press("Enter");
  await tab.locator(`#${MUSCOVADO} .tools`).waitFor();
  await press("Tab", "summary");
  await tab.keyboard.press("Enter");
  await press("Tab", "[name=make]");
  await tab.keyboard.type("2 L");
  await tab.keyboard.press("Enter");
  await tab.locator(`#${MUSCOVADO}`).getByText("Worked out on this page").waitFor();
  await press("Tab", "ol.ticks input");
  await tab.keyboard.press("Space");
  assert.equal(await tab.locator(`#${MUSCOVADO} input:checked`).count(), 1);
  // and to a drink over the menu
  await tab.goto(`${address}#cards`);
  await press("Tab", "a[href='#menu']");
  await tab.keyboard.press("Enter");
  await press("Tab", "#menu a[href='#drink-clove-daiquiri']");
  await tab.keyboard.press("Enter");
  assert.ok(await tab.locator("#drink-clove-daiquiri").isVisible());
  await context.close();
});

test("letters of twice the size stay on the page", async () => {
  const { context, tab, article } = await on("card-aromatic-bitters");
  await article.locator("summary").first().click();
  await tab.evaluate(() => { document.documentElement.style.fontSize = "36px"; });
  assert.ok((await tab.evaluate(() => document.documentElement.scrollWidth)) <= 360);
  await tab.screenshot({ path: path.join(work, "seen", "twice.png"), fullPage: true });
  await context.close();
});

test("a page of last week says so above everything", async () => {
  const context = await browser.newContext(phone);
  await context.clock.install({ time: Date.now() + 8 * 86_400_000 });
  const tab = await opened(context, address, MUSCOVADO);
  await tab.locator("body > .stop:first-child").waitFor();
  assert.match(await tab.locator("body > :first-child").innerText(), /Ask for a new page/);
  await context.close();
});

test("a solver of another page, and one that does not start, leave the page as it was written", async () => {
  const written = fs.readFileSync(path.join(work, "house.html"), "utf8");
  const other = (stamp) => (stamp[0] === "A" ? "B" : "A") + stamp.slice(1);
  const attacks = {
    "another stamp": [written.replace(/data-stamp="([^"]+)"/, (_, stamp) => `data-stamp="${other(stamp)}"`), /not of this page/],
    "other texts": [written.replace("dark muscovado sugar\\\\\\\" =", "light muscovado sugar\\\\\\\" ="), /not of this page/],
  };
  const broken = path.join(work, "broken");
  fs.rmSync(broken, { recursive: true, force: true });
  fs.cpSync(solver, broken, { recursive: true, filter: (file) => !file.includes("build") && !file.includes("npm") });
  fs.writeFileSync(path.join(broken, "solver.wasm.gz"), "no wasm");
  stillroom("publish", path.join(work, "broken.html"), "formulas", "--one-file", "--solver", broken);
  attacks["no wasm"] = [fs.readFileSync(path.join(work, "broken.html"), "utf8"), /does not start/];
  for (const [name, [html, says]] of Object.entries(attacks)) {
    assert.notEqual(html, written, name);
    const file = path.join(work, "attacked.html");
    fs.writeFileSync(file, html);
    const context = await browser.newContext(phone);
    const tab = await opened(context, pathToFileURL(file).href, MUSCOVADO);
    await tab.locator("body > .stop").waitFor();
    assert.match(await tab.locator("body > .stop").innerText(), says, name);
    const article = tab.locator(`#${MUSCOVADO}`);
    assert.deepEqual(missing(plain(await article.innerText()), "formulas/rich-muscovado-syrup.toml"), [], name);
    assert.equal(await article.locator(".tools").count(), 0, name);
    await context.close();
  }
});

test("a browser that cannot run the solver, and a host that lost it, leave the page as it was written", async () => {
  const context = await browser.newContext(phone);
  await context.addInitScript(() => { delete globalThis.WebAssembly; });
  const tab = await opened(context, address, MUSCOVADO);
  await tab.locator("body > .stop").waitFor();
  assert.match(await tab.locator("body > .stop").innerText(), /does not start/);
  assert.deepEqual(missing(plain(await tab.locator(`#${MUSCOVADO}`).innerText()), "formulas/rich-muscovado-syrup.toml"), []);
  await context.close();
  const { host, address: there, folder } = await served();
  fs.rmSync(path.join(folder, "solver.js"));
  const other = await browser.newContext(phone);
  const lost = await opened(other, there, MUSCOVADO);
  await lost.locator("body > .stop").waitFor();
  assert.match(await lost.locator("body > .stop").innerText(), /can only be read/);
  assert.deepEqual(missing(plain(await lost.locator(`#${MUSCOVADO}`).innerText()), "formulas/rich-muscovado-syrup.toml"), []);
  await other.close();
  host.close();
  host.closeAllConnections();
});

test("a drink and a menu that somebody sent run nothing and turn nothing round", async () => {
  const folder = path.join(work, "sent-drink");
  fs.rmSync(folder, { recursive: true, force: true });
  fs.mkdirSync(folder, { recursive: true });
  const name = `<svg onload=alert(1)> \\u202Eruos ${"m".repeat(10_000)}`;
  fs.writeFileSync(path.join(folder, "drink.toml"), `name = "${name}"
how = "shaken"
glass = "<img src=x onerror=alert(2)>"
garnish = "\\u202E\\u2066 peel"
steps = ["<script>alert(3)</script>"]
[parts]
"white rum 40 %" = "50 ml"
"lime juice" = "20 ml"
`);
  fs.writeFileSync(path.join(folder, "menu.toml"), `[drink."${name}"]
sold = 10
`);
  const sent = pathToFileURL(page("sent-drink.html", [folder])).href;
  const context = await browser.newContext(phone);
  const tab = await opened(context, sent);
  await ready(tab);
  for (const place of await tab.locator("article").evaluateAll((all) => all.map((of) => of.id))) {
    await tab.goto(`${sent}#${place}`);
    assert.ok((await tab.evaluate(() => document.documentElement.scrollWidth)) <= 360, place);
  }
  assert.equal(await tab.locator("article").count(), 2);
  assert.deepEqual(tab.faults, []);
  assert.equal(await tab.locator("article img, article script, article svg[onload]").count(), 0);
  assert.ok(!/[\u202a-\u202e\u2066-\u2069]/.test(await tab.content()));
  await context.close();
});

test("a card that somebody sent runs nothing", async () => {
  const folder = path.join(work, "sent");
  fs.mkdirSync(folder, { recursive: true });
  const steps = [`"<img src=x onerror=alert(1)>"`, `"<svg onload=alert(2)>"`, `"${"m".repeat(10_000)}"`, `"stir \\u202Egently"`];
  fs.writeFileSync(path.join(folder, "sent.toml"), `name = "</script><script>alert(3)</script>"
makes = "1 L"
steps = [${steps.join(", ")}]
[target]
brix = 50
[parts]
"white sugar" = "as needed"
water = "as needed"
`);
  const sent = pathToFileURL(page("sent.html", [folder])).href;
  const context = await browser.newContext(phone);
  const tab = await opened(context, sent);
  await ready(tab);
  const article = tab.locator("article");
  await askSheet(article, { make: "<b onclick=alert(4)>2 L</b>" });
  await askSheet(article, { make: "2 L" });
  await tab.waitForTimeout(100);
  assert.deepEqual(tab.faults, []);
  assert.equal(await tab.locator("article img, article svg[onload], article script, article b[onclick]").count(), 0);
  assert.ok((await tab.evaluate(() => document.documentElement.scrollWidth)) <= 360, "ten thousand letters are broken");
  assert.ok(!(await tab.content()).includes("\u202e"));
  await context.close();
});
