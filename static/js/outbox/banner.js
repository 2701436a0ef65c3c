// On every staff page: how much waits on this phone, what was done on this page, how old the page is, a wrong clock.
const shared = (globalThis.rackside ??= {});
const place = document.getElementById("outbox");
const { element } = shared;

function count(number, one, many) {
  return `${number} ${number === 1 ? one : many}`;
}

// Who took over without signal goes on until somebody says otherwise.
function turnLines(turn) {
  const back = element("button", { type: "button", class: "button small" }, "No longer");
  back.addEventListener("click", () => { shared.endTurn(); draw(); });
  const over = shared.turnOver() ? [element("p", { class: "bad" }, element("a", { href: "/switch" }, `The shift of ${turn.name} is over: give the PIN to go on`))] : [];
  return [element("p", {}, `${turn.name} works on this phone, since there was no signal.`), ...over, element("p", {}, back)];
}

async function draw() {
  const all = await shared.store.all();
  const waiting = all.filter((entry) => entry.state === "waiting");
  const mended = new Set(waiting.flatMap((entry) => entry.mends || []));
  const refused = all.filter((entry) => entry.state === "refused" && !mended.has(entry.seq)).length;
  const photos = all.filter((entry) => entry.state === "photo").length;
  const lines = [];
  const kept = Number(place.dataset.kept);
  if (kept) lines.push(element("p", {}, `As kept on this phone ${shared.ago(kept)}. There may be news.`));
  const turn = shared.turn?.();
  if (turn) lines.push(...turnLines(turn));
  const clock = await shared.store.kept("clock");
  if (clock?.sentence) lines.push(element("p", { class: "bad" }, clock.sentence));
  if (waiting.length) {
    const send = element("button", { type: "button", class: "button small" }, "Send now");
    send.addEventListener("click", () => shared.sendNow());
    lines.push(element("p", { class: "bad" }, element("a", { href: "/outbox" }, `${count(waiting.length, "deed", "deeds")} not sent yet, the oldest ${shared.ago(waiting[0].at)}`)), element("p", {}, send));
    const here = waiting.filter((entry) => entry.page === location.pathname);
    if (here.length) lines.push(element("ul", {}, ...here.slice(-5).map((entry) => element("li", {}, `Done, waiting: ${entry.label}`))));
  }
  if (refused) lines.push(element("p", { class: "bad" }, element("a", { href: "/outbox" }, `${count(refused, "deed needs", "deeds need")} you: the shop could not take it`)));
  if (photos) lines.push(element("p", {}, element("a", { href: "/outbox" }, `${count(photos, "photo", "photos")} to be read by the shop and confirmed by you`)));
  place.replaceChildren(...lines);
  place.hidden = !lines.length;
  navigator.setAppBadge?.(all.length).catch(() => {});
}

// What was done on this page has arrived meanwhile: the page may be shown anew, when its reader wants that.
function offerAnew() {
  shared.say("What waited here is in the shop now.");
  const anew = element("button", { type: "button", class: "button small" }, "Show the page anew");
  anew.addEventListener("click", () => location.reload());
  document.querySelector("[data-notice]").append(anew);
}

shared.sendNow = async () => {
  const before = (await shared.store.all()).filter((entry) => entry.page === location.pathname && entry.state === "waiting");
  const result = await shared.flush();
  if (before.some((entry) => ["accepted", "known"].includes(result.replies[entry.id]?.state)) && !document.getElementById("finder")) offerAnew();
  if (result.state === "sign_in" && place.dataset.session) shared.say("Sign in again, and what waits is sent.", true);
  if (result.state === "old") shared.say(result.sentence, true);
  await draw();
  return result;
};

if (place && globalThis.indexedDB) {
  shared.drawBanner = draw;
  shared.changed.addEventListener("message", draw);
  draw();
}
