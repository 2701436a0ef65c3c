// How the worker answers: pages from the shop when it is in reach, else as they were kept, else the page of what waits.
const shared = (globalThis.rackside ??= {});
const PATIENCE_MS = 2500;

// A page is kept as it is without a question in its address: with one it is kept for nobody else, and the plain one is
// fetched beside it.
async function fresh(request, path, event) {
  const answer = await fetch(request);
  if (!shared.isKept(path)) return answer;
  // A page that finds no room is still shown.
  if (new URL(request.url).search) event.waitUntil(keepAll([path]));
  else await shared.keepPage(path, answer.clone()).catch(() => {});
  return answer;
}

async function page(request, path, event) {
  const kept = path && (await shared.fromPages(path));
  const coming = fresh(request, path, event);
  event.waitUntil(coming.catch(() => {}));
  try {
    if (!kept) return await coming;
    const late = new Promise((resolve) => setTimeout(resolve, PATIENCE_MS, kept));
    const first = await Promise.race([coming, late]);
    return first.status < 500 ? first : kept;
  } catch {
    return kept || (await shared.fromShell("/outbox"));
  }
}

async function asset(request, path) {
  return (await shared.fromShell(path)) || (await shared.fromPages(path)) || fetch(request);
}

addEventListener("install", (event) => event.waitUntil(shared.fillShell()));
addEventListener("activate", (event) => event.waitUntil(shared.dropOldShells().then(() => clients.claim())));

addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== location.origin) return;
  if (request.mode === "navigate") event.respondWith(page(request, shared.keptPath(url), event));
  else if (url.pathname.startsWith("/static/") || url.pathname.startsWith("/icons/")) event.respondWith(asset(request, url.pathname));
});

addEventListener("sync", (event) => {
  // A browser tries a sync that failed again, later.
  if (event.tag === "rackside-outbox") event.waitUntil(shared.flush().then(({ state }) => { if (state === "away") throw new Error("out of reach"); }));
});

// Pages of the rack one works at, fetched two at a time while there is signal.
async function keepAll(paths) {
  const left = paths.filter((path) => shared.isKept(path));
  const fetchNext = async () => {
    for (let path = left.shift(); path; path = left.shift()) {
      const kept = await shared.fromPages(path);
      if (kept && Date.now() - Number(kept.headers.get("X-Kept")) < 600000) continue;
      const answer = await fetch(path).catch(() => null);
      if (answer) await shared.keepPage(path, answer).catch(() => {});
    }
  };
  await Promise.all([fetchNext(), fetchNext()]);
}

addEventListener("message", (event) => {
  if (event.data === "swap") skipWaiting();
  if (event.data === "forget pages") event.waitUntil(shared.forgetPages());
  if (event.data?.keep) event.waitUntil(keepAll(event.data.keep.slice(0, 300)));
});
