// After a scan: what it is, and the next deeds by what it is doing now. One tap records; the way back stays at the top.
const shared = (globalThis.rackside ??= {});
const box = document.getElementById("found");
const { element } = shared;
const WORDS = { for_sale: "for sale", mother: "mother colony", kept: "kept by the shop", quarantine: "in quarantine" };

function money(cents, currency) {
  return new Intl.NumberFormat(document.documentElement.lang || "en", { style: "currency", currency }).format(cents / 100);
}

function isHeld(row) {
  return Boolean(row.held) && new Date(row.held) > new Date();
}

function fits(deed, row) {
  return deed.states.includes(row.status) && (!deed.held || (deed.held === "yes") === isHeld(row));
}

async function act(deed, row, list, rules) {
  const payload = Object.fromEntries(Object.entries(deed.payload).map(([key, value]) => [key, value === "$price" ? row.price_cents : value]));
  const label = `${labelOf(deed, row, rules)} · ${row.name} ${row.code || ""}`.trim();
  let entries;
  try {
    entries = await shared.addEvents([{ kind: deed.kind, subject_id: row.id, payload }], shared.newId(), label);
  } catch {
    return shared.say("Not kept: the storage of this phone is full. Free some, then do it again.", true);
  }
  shared.applyTo(list, entries[0].item);
  draw(row, list, rules);
  shared.drawMap?.();
  shared.sayDone(entries, await shared.flush());
}

function labelOf(deed, row, rules) {
  return row.price_cents === null ? deed.label.replace(" for $price", "") : deed.label.replace("$price", money(row.price_cents ?? 0, rules.currency));
}

// What is poisonous is sold at the till, where what to tell the buyer stands; what may not leave is not sold.
function sellable(deed, row, list) {
  return deed.kind !== "sold" || !(list.stops?.[row.id] || list.toxic?.[row.profile]);
}

function tillButton(row, list) {
  if (row.status !== "for_sale" || list.stops?.[row.id]) return [];
  const button = element("button", { type: "button", class: list.toxic?.[row.profile] ? "button" : "button quiet" }, "To the till");
  button.addEventListener("click", () => shared.till.put(row.id).then(() => location.assign("/till")), { once: true });
  return [button];
}

function draw(row, list, rules) {
  const deeds = rules.deeds.filter((deed) => fits(deed, row) && sellable(deed, row, list)).map((deed, at) => {
    const button = element("button", { type: "button", class: at ? "button quiet" : "button" }, labelOf(deed, row, rules));
    button.addEventListener("click", () => act(deed, row, list, rules), { once: true });
    return button;
  });
  const onward = rules.onward.filter(([, , , states]) => states.includes(row.status))
    .map(([, label, path]) => element("a", { class: "button quiet", href: `/s/${row.id}${path}` }, label));
  const stops = (list.stops?.[row.id] || []).map((text) => element("p", { class: "bad" }, text));
  const state = isHeld(row) ? "on hold" : WORDS[row.status] || row.status;
  box.replaceChildren(
    element("h2", { tabindex: "-1" }, row.name),
    element("p", {}, `${row.code || "no tag"} · ${shared.placeOf(list, row)} · ${state}`),
    ...stops,
    element("div", { class: "tiles" }, ...deeds, ...tillButton(row, list), ...onward));
  box.hidden = false;
}

if (box) {
  shared.begun = (list, rules) => {
    shared.chosen = (row) => {
      document.querySelector("[data-notice]")?.remove();
      draw(row, list, rules);
      box.querySelector("h2").focus();
      box.scrollIntoView({ block: "start" });
    };
    shared.undone = async (entries) => {
      Object.assign(list, await shared.loadList());
      const row = [...list.specimens, ...list.gone].find((one) => one.id === entries[0].item.subject_id);
      if (row) draw(row, list, rules);
      shared.drawMap();
    };
  };
}
