// What the worker keeps: the shell (this version's), and pages as they were seen last, stamped with this device's time.
const shared = (globalThis.rackside ??= {});
const SHELL_CACHE = `rackside-shell-${VERSION}`;
const PAGES = "rackside-pages";
const MOST_PAGES = 400;
const ID = "[0-9a-f]{32}";
const CODE = "[0-9A-Za-z]{7}";
const KEPT = [
  "do", "series", "till", "count", "switch", "trouble", CODE, `tag/${CODE}(/new)?`, `s/${ID}(/frag|/ruler)?`, "stock/new",
  `racks/${ID}(/change)?`, `tanks(/new|/${ID}(/readings|/change|/racks/new)?)?`, "sale/\\d+",
  `(shipments|pests)(/new|/${ID}(/lines/${ID})?)?`, "(today|holds|stock|stocktake|sales)",
].map((path) => new RegExp(`^/${path}$`));
// Of lists the whole one is kept; with a question in the address it is another list.
const LISTS = /^\/(today|holds|stock|stocktake|sales|shipments|pests)$/;

shared.keptPath = ({ pathname, search }) => (search && LISTS.test(pathname) ? "" : pathname);
shared.isKept = (path) => KEPT.some((pattern) => pattern.test(path));

shared.fillShell = async () => {
  const cache = await caches.open(SHELL_CACHE);
  await cache.addAll(SHELL.map((path) => new Request(path, { cache: "reload" })));
};

shared.dropOldShells = async () => {
  for (const name of await caches.keys()) if (name.startsWith("rackside-shell-") && name !== SHELL_CACHE) await caches.delete(name);
};

shared.forgetPages = () => caches.delete(PAGES);

shared.fromShell = async (path) => (await caches.open(SHELL_CACHE)).match(path);

shared.fromPages = async (path) => (await caches.open(PAGES)).match(path);

shared.keepPage = async (path, answer) => {
  if (!answer.ok || answer.redirected || !shared.isKept(path)) return;
  const whole = await answer.text();
  const now = new Date();
  const when = now.toLocaleString(undefined, { day: "numeric", month: "short", hour: "2-digit", minute: "2-digit" });
  const stamped = whole.includes('data-kept=""')
    ? whole.replace('data-kept=""', `data-kept="${now.getTime()}"`)
    : whole.replace(/<main[^>]*>/, (main) => `${main}<p class="note">As kept on this phone on ${when}. There may be news.</p>`);
  const text = stamped.replace(/<!--said-->.*?<!--\/said-->/s, "");
  const cache = await caches.open(PAGES);
  await cache.put(path, new Response(text, { headers: { "Content-Type": answer.headers.get("Content-Type"), "X-Kept": String(Date.now()), "Content-Security-Policy": answer.headers.get("Content-Security-Policy") || "" } }));
  const keys = await cache.keys();
  for (const key of keys.slice(0, Math.max(0, keys.length - MOST_PAGES))) await cache.delete(key);
};
