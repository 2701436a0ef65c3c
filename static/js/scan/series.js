// Series: a deed chosen once, then done to every tag that is scanned, each with its own way back.
const shared = (globalThis.rackside ??= {});
const form = document.getElementById("series-form");
const { element } = shared;
const done = new Map();

function chosenDeed(rules) {
  const key = form.querySelector("[name=series]:checked")?.value;
  return rules.deeds.find((deed) => deed.key === key);
}

// What must be chosen before the first scan; nothing is taken for granted.
function missing(deed) {
  const asks = Object.values(deed.payload);
  const open = (place, id) => asks.includes(place) && !document.getElementById(id).value;
  if (open("$rack", "series-rack")) return "Choose the rack first, then scan it again.";
  if (open("$dip", "series-dip")) return "Choose what they are dipped in first, then scan it again.";
  return "";
}

function payloadOf(deed, row, list, series) {
  const rack = list.racks.find((one) => one.id === document.getElementById("series-rack").value);
  const slot = () => (document.getElementById("series-slots").checked ? shared.freeSlots(list, rack)[0] || "" : "");
  const values = {
    $tank: () => rack.tank, $rack: () => rack.id, $slot: slot, $series: () => series, $its_tank: () => row.tank_id,
    $its_rack: () => row.rack_id, $dip: () => document.getElementById("series-dip").value,
  };
  return Object.fromEntries(Object.entries(deed.payload).map(([key, value]) => [key, values[value] ? values[value]() : value]));
}

function line(row, label, entries, key, before) {
  const back = element("button", { type: "button", class: "button quiet small" }, "Undo", element("span", { class: "hidden-text" }, ` ${label}`));
  const made = element("li", { class: "item" }, element("span", { class: "name" }, `${row.code || ""} ${row.name}`), element("span", {}, label), back);
  back.addEventListener("click", async () => {
    await shared.undoEntries(entries);
    done.delete(key);
    Object.assign(row, before);
    made.remove();
    tell();
    shared.flush();
  }, { once: true });
  return made;
}

function tell() {
  document.getElementById("series-count").textContent = done.size ? `${done.size} done.` : "Nothing scanned yet.";
}

async function act(row, list, rules, series) {
  const deed = chosenDeed(rules);
  const problem = missing(deed);
  if (problem) return shared.say(problem, true);
  const key = `${deed.key} ${row.id} ${document.getElementById("series-rack").value}`;
  if (done.has(key)) return shared.say(`${row.name} ${row.code || ""} is done already.`);
  if (!deed.states.includes(row.status)) return shared.say(`${row.name} ${row.code || ""} is ${row.status.replace("_", " ")}: left out.`, true);
  done.set(key, row);
  const payload = payloadOf(deed, row, list, series);
  const label = payload.slot ? `${deed.label} ${payload.slot}` : deed.label;
  // At once: the next tag may be scanned before the disk has answered, and takes the next slot.
  const before = { ...row };
  shared.applyTo(list, { kind: deed.kind, subject_id: row.id, payload });
  let entries;
  try {
    entries = await shared.addEvents([{ kind: deed.kind, subject_id: row.id, payload }], shared.newId(), `${label} · ${row.name} ${row.code || ""}`.trim());
  } catch {
    done.delete(key);
    Object.assign(row, before);
    return shared.say("Not kept: the storage of this phone is full. Free some, then scan it again.", true);
  }
  document.querySelector("[data-notice]")?.remove();
  document.getElementById("series-done").prepend(line(row, label, entries, key, before));
  tell();
  navigator.vibrate?.(60);
  return shared.flush();
}

if (form) {
  const series = shared.newId();
  form.addEventListener("submit", (event) => event.preventDefault());
  shared.begun = (list, rules) => {
    document.getElementById("series-rack").append(...list.racks.map((rack) => element("option", { value: rack.id }, rack.name)));
    shared.chosen = (row) => act(row, list, rules, series);
  };
}
