// What the tests of the page share: the program, the page as it writes it, a browser, a host of static files.
import { execFileSync, spawnSync } from "node:child_process";
import fs from "node:fs";
import http from "node:http";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");
export const work = path.join(root, "target/browser");
export const solver = path.join(root, "target/page");
const program = path.join(root, "target/debug/stillroom");
const formulas = path.join(root, "formulas");

fs.mkdirSync(path.join(work, "seen"), { recursive: true });

/** What the program prints; a card that cannot be met is an answer too. */
export function stillroom(...asked) {
  const done = spawnSync(program, asked, { encoding: "utf8", cwd: root });
  if (done.status > 1) throw new Error(`${asked.join(" ")}: ${done.stderr}`);
  return done.stdout;
}

/** A page in one file. */
export function page(name, cards = [formulas], ...more) {
  const file = path.join(work, name);
  stillroom("publish", file, ...cards, "--one-file", "--solver", solver, ...more);
  return file;
}

/** The same house as a folder, served as a host of static files does. */
export async function served() {
  const folder = path.join(work, "site");
  stillroom("publish", folder, formulas, "--solver", solver);
  const kinds = { html: "text/html", js: "text/javascript", svg: "image/svg+xml", webmanifest: "application/manifest+json" };
  const host = http.createServer((request, response) => {
    const name = request.url.split("?")[0] === "/" ? "index.html" : path.basename(request.url.split("?")[0]);
    const file = path.join(folder, name);
    if (!fs.existsSync(file)) return response.writeHead(404).end();
    response.writeHead(200, { "content-type": kinds[name.split(".").pop()] }).end(fs.readFileSync(file));
  });
  await new Promise((ready) => host.listen(0, "127.0.0.1", ready));
  return { host, address: `http://localhost:${host.address().port}/`, folder };
}

/** The cards and the drinks of the demo house: their file, and where they stand on the page. */
function pages() {
  const out = path.join(work, "cards.html");
  const told = JSON.parse(stillroom("publish", out, formulas, "--one-file", "--json"));
  const files = fs.readdirSync(formulas).filter((name) => name.endsWith(".toml"));
  const named = files.map((name) => [fs.readFileSync(path.join(formulas, name), "utf8").match(/^name\s*=\s*"(.*)"/m)?.[1], name]);
  const fileOf = new Map(named);
  return told.pages.map((of) => ({ ...of, file: path.join(formulas, fileOf.get(of.product) ?? "menu.toml") }));
}

/** What can be asked of the solver of the page. */
export function cards() {
  return pages().filter((of) => of.kind === "card");
}

/** What is only read. */
export function drinks() {
  return pages().filter((of) => of.kind === "drink");
}

export function launch() {
  const found = ["chromium", "chromium-browser", "google-chrome"].map((name) => {
    try {
      return execFileSync("which", [name], { encoding: "utf8" }).trim();
    } catch {
      return "";
    }
  });
  return chromium.launch({ executablePath: found.find(Boolean), args: ["--no-sandbox"] });
}

/** A page that is open and has taken up its solver; whatever the browser complains of is kept. */
export async function opened(context, address, card) {
  const tab = await context.newPage();
  tab.faults = [];
  tab.on("pageerror", (fault) => tab.faults.push(String(fault)));
  tab.on("console", (said) => said.type() === "error" && tab.faults.push(said.text()));
  tab.on("dialog", (dialog) => {
    tab.faults.push(`dialog: ${dialog.message()}`);
    dialog.dismiss();
  });
  await tab.goto(`${address}${card ? `#${card}` : ""}`);
  return tab;
}

export async function ready(tab) {
  await tab.waitForFunction(() => document.documentElement.dataset.ready !== undefined);
}

/** What is read of a text, without where its lines end. */
export function plain(text) {
  return text.replace(/\s+/g, " ").trim();
}

/** How many sides a PDF has. */
export function sides(pdf) {
  return pdf.toString("latin1").match(/\/Type\s*\/Page\b/g).length;
}
