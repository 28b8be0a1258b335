/* Serves the visit without a signal. Version {{ version }}: changes with any file that makes the pages. */

const VERSION = "{{ version }}";
const CACHE = `eavesbook-pages-${VERSION}`;
const FILES = [{% for file in files %}
  "{{ file|escapejs }}",{% endfor %}
];
const PAGES = { {% for section, address in pages.items %}
  "{{ section|escapejs }}": "{{ address|escapejs }}",{% endfor %}
};
const SHEET = "{{ sheet|escapejs }}";
const TABLET = "{{ tablet|escapejs }}";
const PATIENCE_MS = 4000;
const NO_SIGNAL_FOR_MS = 10000;

let noSignalUntil = 0;
let filesAreCurrent = false;

self.addEventListener("install", (event) => {
  self.skipWaiting();
  event.waitUntil(keepAll());
});

self.addEventListener("activate", (event) => {
  event.waitUntil(forgetOlder().then(() => self.clients.claim()));
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== location.origin) return;
  if (request.mode === "navigate") event.respondWith(page(request, pathname));
  else if (FILES.includes(pathname)) event.respondWith(file(request));
});

async function keepAll() {
  const cache = await caches.open(CACHE);
  for (const address of [...FILES, ...Object.values(PAGES), SHEET, TABLET]) {
    const answer = await fetch(address, { cache: "no-cache", credentials: "same-origin" });
    // A page of the log-in in place of ours must not be kept: the older version stays until next time.
    if (!answer.ok || answer.redirected) throw new Error(`${address} answered ${answer.status}`);
    await cache.put(address, answer);
  }
}

async function forgetOlder() {
  for (const name of await caches.keys()) {
    if (name.startsWith("eavesbook-pages-") && name !== CACHE) await caches.delete(name);
  }
}

async function page(request, pathname) {
  const answer = await fromOffice(request, keptPage(pathname) === TABLET);
  if (answer && ![502, 503, 504].includes(answer.status)) {
    filesAreCurrent = answer.headers.get("Pages-Version") === VERSION;
    return answer;
  }
  return (await kept(keptPage(pathname))) ?? answer ?? Response.error();
}

/** A page of the kept version takes the kept files at once: there are many, and each would ask the office. */
async function file(request) {
  const first = filesAreCurrent ? await kept(request) : null;
  return first ?? (await fromOffice(request)) ?? (await kept(request)) ?? Response.error();
}

/** Ask the office, unless it has just not answered and another page will do; null when no answer came in time. */
async function fromOffice(request, alone = false) {
  if (Date.now() < noSignalUntil && !alone) return null;
  let timer;
  const late = new Promise((resolve) => {
    timer = setTimeout(() => resolve(null), PATIENCE_MS);
  });
  const answer = await Promise.race([fetch(request).catch(() => null), late]);
  clearTimeout(timer);
  if (!answer) noSignalUntil = Date.now() + NO_SIGNAL_FOR_MS;
  return answer;
}

async function kept(request) {
  return (await caches.open(CACHE)).match(request);
}

/** Which kept page stands for an address: a section of a survey, its sheet, or the list of all. */
function keptPage(pathname) {
  const [, room, number, section] = pathname.split("/");
  if (room !== "surveys" || !/^S-/.test(number ?? "")) return TABLET;
  return section ? (PAGES[section] ?? TABLET) : SHEET;
}

self.addEventListener("message", (event) => {
  if (event.data === "signal") noSignalUntil = 0;
});
