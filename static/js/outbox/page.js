// The page of what waits: everything on this device, and what a person may do with what the shop could not take.
const shared = (globalThis.rackside ??= {});
const list = document.getElementById("waiting");
const { element } = shared;

function button(text, act, kind = "quiet") {
  const made = element("button", { type: "button", class: `button wide ${kind}` }, text);
  made.addEventListener("click", () => act(made));
  return made;
}

async function again(entry, changes) {
  await shared.store.put({ ...entry, state: "waiting", reason: "", item: { ...entry.item, ...changes } });
  await shared.sendNow();
  draw();
}

function discard(entry) {
  return button("Throw it away", (made) => {
    if (made.dataset.sure) shared.store.remove([entry.seq]).then(shared.tellOthers);
    made.dataset.sure = "1";
    made.textContent = "Yes, throw it away for good";
    made.classList.add("danger");
  });
}

async function inShopTime(entry) {
  const clock = (await shared.store.kept("clock")) || { skew_s: 0 };
  const when = new Date(new Date(entry.item.occurred_at).getTime() - clock.skew_s * 1000);
  return again(entry, { occurred_at: when.toISOString() });
}

// What was put right already leaves when the shop has it so; whatever else is done to it is no longer needed.
function settling(entry, all) {
  if (all.some((one) => one.state === "waiting" && one.mends?.includes(entry.seq))) {
    return [element("p", {}, "You put it right; that waits, and this goes when the shop has it.")];
  }
  const mine = shared.session();
  const ways = [button("Try again", () => again(entry, {}))];
  const typed = entry.item.form || entry.typed;
  if (typed && !typed.files?.length) ways.unshift(button("Open it and put it right", () => shared.mend(entry)));
  const { subject_id: about = "" } = entry.item;
  if (!typed && about && !/no such/.test(entry.reason)) ways.unshift(element("a", { class: "button wide quiet", href: `/s/${about}` }, "Open its page"));
  if (/signed in|The PIN/.test(entry.reason) && mine) ways.push(button("Send it in my name", () => again(entry, { session: mine })));
  if (/future|clock/.test(entry.reason)) ways.push(button("Send it with the shop's time", () => inShopTime(entry)));
  return [element("p", { class: "bad" }, entry.reason), element("div", { class: "tiles" }, ...ways, discard(entry))];
}

function reading(entry) {
  return [element("div", { class: "tiles" }, button("Let the shop read it now", () => shared.goOn(entry)), discard(entry))];
}

const SAID = { waiting: "done, waiting", refused: "not taken", photo: "to be read and confirmed" };
const MORE = { waiting: () => [], refused: settling, photo: reading };

async function draw() {
  const all = await shared.store.all();
  list.replaceChildren(...all.map((entry) => element("li", { class: "item" },
    element("span", { class: "name" }, entry.label),
    element("span", {}, `${SAID[entry.state]}, ${shared.ago(entry.at)}`), ...MORE[entry.state](entry, all))));
  document.getElementById("nothing").hidden = all.length > 0;
  document.getElementById("send").hidden = !all.some((entry) => entry.state === "waiting");
}

if (list && globalThis.indexedDB) {
  document.getElementById("send").addEventListener("click", () => shared.sendNow().then(draw));
  shared.drawWaiting = draw;
  shared.changed.addEventListener("message", draw);
  draw();
}
