// Figures of the page, to be read and not asserted: `node figures.mjs`. Its size, and on a processor that is slowed down four
// times how long it takes to start and to work out another size; the same with two hundred cards on it.
import fs from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { launch, opened, page, ready, root, work } from "./bench.mjs";

const formulas = path.join(root, "formulas");
const many = path.join(work, "many");
fs.rmSync(many, { recursive: true, force: true });
fs.mkdirSync(many, { recursive: true });
const demo = fs.readdirSync(formulas).filter((name) => name.endsWith(".toml"));
for (const name of ["house.toml", "larder.toml", "menu.toml"]) fs.copyFileSync(path.join(formulas, name), path.join(many, name));
const cards = demo.filter((name) => !["house.toml", "larder.toml", "plan.toml", "menu.toml"].includes(name));
for (let count = 0; count < 200; count += 1) {
  const name = cards[count % cards.length];
  const text = fs.readFileSync(path.join(formulas, name), "utf8");
  // the first of each keeps its name: other cards are made of it
  const again = Math.floor(count / cards.length);
  const renamed = again ? text.replace(/^(name\s*=\s*".*)"/m, `$1, no. ${again}"`) : text;
  fs.writeFileSync(path.join(many, again ? `${again}-${name}` : name), renamed);
}

const browser = await launch();
for (const [name, folder] of [["house", formulas], ["two hundred", many]]) {
  const file = page(`figures-${name.replace(" ", "-")}.html`, [folder]);
  for (const slowed of [1, 4]) {
    const context = await browser.newContext({ viewport: { width: 360, height: 640 } });
    const tab = await context.newPage();
    await (await context.newCDPSession(tab)).send("Emulation.setCPUThrottlingRate", { rate: slowed });
    await tab.goto(`${pathToFileURL(file).href}#card-rich-muscovado-syrup`);
    await ready(tab);
    const start = await tab.evaluate(() => Math.round(performance.now()));
    const rescales = [];
    for (const litres of [2, 3, 4, 5, 6]) {
      rescales.push(await tab.evaluate(async (litres) => {
        const card = document.querySelector("#card-rich-muscovado-syrup");
        card.querySelector("[name=make]").value = `${litres} L`;
        const from = performance.now();
        card.querySelector("form").requestSubmit();
        while (card.hasAttribute("aria-busy")) await new Promise((next) => setTimeout(next));
        return Math.round(performance.now() - from);
      }, litres));
    }
    console.log(`${name}: ${Math.round(fs.statSync(file).size / 1000)} kB; slowed ${slowed}x: start ${start} ms, sizes ${rescales.join(", ")} ms`);
    await context.close();
  }
}
await browser.close();
