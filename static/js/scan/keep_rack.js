// A rack that is looked at is a rack one works at: its plugs, their cards, its tank and the scanner are kept for when the
// signal goes.
const shared = (globalThis.rackside ??= {});
const worker = navigator.serviceWorker;

async function keepAround() {
  const registration = await worker.ready;
  const links = [...document.querySelectorAll('main a[href^="/s/"], main a[href^="/tanks/"]')].map((link) => link.pathname);
  const list = await shared.loadList();
  const here = (list?.specimens || []).filter((row) => row.code && links.includes(`/s/${row.id}`)).map((row) => `/${row.code}`);
  registration.active.postMessage({ keep: [...new Set([location.pathname, "/do", "/series", ...links, ...here])] });
}

if (worker && document.querySelector(".rack-map a")) keepAround();
