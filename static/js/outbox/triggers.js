// When what waits is tried again: page open, network back, coming back to the page, every ten seconds, and by the browser
// itself where it can (Background Sync). Also: deeds promised to this device, and the worker that opens pages without signal.
const shared = (globalThis.rackside ??= {});
const place = document.getElementById("outbox");
const EVERY_MS = 10000;

async function anyWaiting() {
  return (await shared.store.all()).some((entry) => entry.state === "waiting");
}

async function trySending() {
  if (await anyWaiting()) await shared.sendNow();
}

async function fillPromises() {
  if (!place.dataset.session || Object.keys((await shared.store.kept("codes")) || {}).length > 1) return;
  try {
    const answer = await fetch("/outbox/codes", { headers: { Accept: "application/json" }, redirect: "error" });
    if (answer.ok) await shared.store.keep("codes", await answer.json());
  } catch {
    // Without signal the promises that are left must do.
  }
}

async function register() {
  const worker = navigator.serviceWorker;
  if (!worker) return;
  const registration = await worker.register("/sw.js", { updateViaCache: "none" });
  const offer = () => {
    if (!registration.waiting || !worker.controller) return;
    shared.say("A new version is ready. What waits on this phone stays.");
    const swap = shared.element("button", { type: "button", class: "button" }, "Use it now");
    swap.addEventListener("click", () => registration.waiting.postMessage("swap"));
    document.querySelector("[data-notice]").append(swap);
  };
  registration.addEventListener("updatefound", () => registration.installing?.addEventListener("statechange", offer));
  offer();
  let had = Boolean(worker.controller); // the first worker of all takes over quietly
  worker.addEventListener("controllerchange", () => {
    if (had) location.reload();
    had = true;
  });
  const ready = await worker.ready;
  ready.sync?.register("rackside-outbox").catch(() => {});
  const ruler = /^\/s\/[0-9a-f]{32}$/.test(location.pathname) ? [`${location.pathname}/ruler`] : [];
  ready.active.postMessage({ keep: [location.pathname, ...ruler, "/do", "/series", "/till", "/count", "/switch", "/trouble"] });
}

if (place && globalThis.indexedDB) {
  for (const name of ["online", "focus", "pageshow"]) addEventListener(name, trySending);
  document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") trySending(); });
  setInterval(trySending, EVERY_MS);
  fillPromises();
  register();
  document.addEventListener("submit", (event) => {
    if (event.defaultPrevented || !event.target.matches('[action^="/sign-out"]')) return;
    navigator.serviceWorker?.controller?.postMessage("forget pages");
    localStorage.removeItem("session");
    shared.endTurn();
  });
}
