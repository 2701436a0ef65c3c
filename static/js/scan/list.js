// Everything that stands in the shop, kept on the phone, with what was done here and still waits put on top of it.
const shared = (globalThis.rackside ??= {});
const PATIENCE_MS = 4000;
const CHANGES = {
  status_set: (row, given) => { row.status = given.status; },
  moved: (row, given) => Object.assign(row, { tank_id: given.tank_id, rack_id: given.rack_id, slot: given.slot || "" }),
  sold: (row) => { row.status = "sold"; },
  lost: (row) => { row.status = "lost"; },
  returned: (row, given) => { row.status = given.status || "quarantine"; },
  released: (row) => { row.held = ""; },
  held: (row, given) => { row.held = given.until; },
  priced: (row, given) => { row.price_cents = given.price_cents; },
  named: (row, given) => { row.name = given.name; },
};

function unpacked(packed) {
  const rows = (all = []) => all.map((values) => Object.fromEntries(packed.columns.map((name, at) => [name, values[at]])));
  return { ...packed, specimens: rows(packed.specimens), gone: rows(packed.gone) };
}

// A sale of the till waits as its form.
function soldIn(entry) {
  const { form } = entry.item;
  return form?.action === "/till/sell" ? form.fields.filter(([name]) => name === "specimen_id").map(([, id]) => id) : [];
}

async function asWaiting(list) {
  const all = (await shared.store.all()).filter((entry) => entry.state === "waiting");
  const back = new Set(all.map((entry) => entry.undoes).filter(Boolean));
  for (const entry of all) if (!back.has(entry.deed)) for (const id of soldIn(entry)) shared.applyTo(list, { kind: "sold", subject_id: id });
  const waiting = all.filter((entry) => entry.item.kind);
  const undone = new Set(waiting.filter((entry) => entry.item.kind === "undone").map((entry) => entry.item.payload.event_id));
  for (const entry of waiting) if (!undone.has(entry.id)) shared.applyTo(list, entry.item);
  return list;
}

shared.applyTo = (list, event) => {
  const row = [...list.specimens, ...list.gone].find((one) => one.id === event.subject_id);
  if (row) CHANGES[event.kind]?.(row, event.payload);
};

// ask: false takes what is kept, at once.
shared.loadList = async (ask = true) => {
  try {
    if (!ask) throw new Error("not asked");
    const answer = await fetch("/do/list", { headers: { Accept: "application/json" }, redirect: "error", signal: AbortSignal.timeout(PATIENCE_MS) });
    if (!answer.ok) throw new Error("not in reach");
    await shared.store.keep("list", { packed: await answer.json(), at: Date.now() });
  } catch {
    // Without signal the list of last time must do; its age is shown.
  }
  const kept = await shared.store.kept("list");
  return kept ? { ...(await asWaiting(unpacked(kept.packed))), at: kept.at } : null;
};

shared.placeOf = (list, row) => {
  const rack = list.racks.find((one) => one.id === row.rack_id);
  const tank = list.tanks.find((one) => one.id === row.tank_id);
  if (["sold", "lost", "merged"].includes(row.status)) return "not here any more";
  return `${rack?.name || tank?.name || "no place"} ${row.slot}`.trim();
};

shared.freeSlots = (list, rack) => {
  const taken = new Set(list.specimens.filter((row) => row.rack_id === rack.id && !["sold", "lost", "merged"].includes(row.status)).map((row) => row.slot));
  const slots = [];
  for (let row = 0; row < rack.rows; row += 1) for (let column = 1; column <= rack.columns; column += 1) slots.push(`${String.fromCharCode(65 + row)}${column}`);
  return slots.filter((slot) => !taken.has(slot));
};
