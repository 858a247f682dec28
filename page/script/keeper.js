/** Keeps the page where it was served: what is there is taken fresh, and without a signal as it was kept. */
const FILES = ["./", "index.html", "solver.js", "manifest.webmanifest", "icon.svg"];
const worker = /** @type {any} */ (globalThis);
/** @type {string} */
const STAMP = worker.stillroomStamp;

worker.addEventListener("install", (/** @type {any} */ event) => {
  event.waitUntil(caches.open(STAMP).then((cache) => cache.addAll(FILES)));
  worker.skipWaiting();
});

worker.addEventListener("activate", (/** @type {any} */ event) => {
  const others = caches.keys().then((names) => names.filter((name) => name !== STAMP));
  event.waitUntil(others.then((names) => Promise.all(names.map((name) => caches.delete(name)))));
  event.waitUntil(worker.clients.claim());
});

worker.addEventListener("fetch", (/** @type {any} */ event) => {
  // page and solver of one writing: what is kept together is given together
  event.respondWith(fetch(event.request).catch(() => caches.match(event.request, { ignoreSearch: true })));
});
