// From a deed to the entries that wait: events, or the form as it was filled in.
const shared = (globalThis.rackside ??= {});
const place = document.getElementById("outbox");

// Whose session what is done here belongs to: of whoever took over without signal, else of the page; a page that was
// kept may be of somebody else's time, so there it is the session that was seen last.
shared.session = () => {
  if (!place || !("session" in place.dataset)) return "";
  const { session, kept } = place.dataset;
  return shared.turn?.()?.handle || ((kept || !session) && localStorage.getItem("session")) || session;
};
shared.deedField = (form) => [...form.elements].find((field) => /(^|-)deed$/.test(field.name) && /^[0-9a-f]{32}$/.test(field.value));

function entry(item, deed, label, more = {}) {
  return { id: item.id, deed, state: "waiting", reason: "", label, page: location.pathname, at: item.occurred_at, item, ...more };
}

// Events of one deed: [{kind, subject_id, payload, id?}]. Resolves with the entries when they are on the disk.
shared.addEvents = async (events, deed, label, more = {}) => {
  const occurred_at = new Date().toISOString();
  const made = events.map((event) => entry(
    { id: event.id || shared.newId(), deed_id: deed, occurred_at, session: shared.session(), ...event }, deed, label, more));
  for (const one of made) one.item.id = one.id;
  await shared.store.add(made);
  shared.tellOthers();
  return made;
};

shared.addForm = async (action, fields, files, deed, label, more = {}) => {
  const item = {
    id: shared.newId(), deed_id: deed, occurred_at: new Date().toISOString(), session: shared.session(), form: { action, fields, files },
  };
  const letters = files.reduce((sum, file) => sum + file.data.length, 1000);
  const made = entry(item, deed, label, { letters, ...more });
  await shared.store.add([made]);
  shared.tellOthers();
  return [made];
};

// The way back from a deed that waits: it waits too, so it is right whether or not the first has arrived.
shared.undoEntries = async (entries) => {
  const [first] = entries;
  const label = `Undo: ${first.label}`;
  const deed = shared.newId();
  const more = { undoes: first.deed };
  if (first.item.form) {
    return shared.addForm(`/undo/${first.deed}`, [["deed", deed], ["back", "/do"]], [], deed, label, more);
  }
  const events = entries.map((one) => ({ kind: "undone", subject_id: "", payload: { event_id: one.id } }));
  return shared.addEvents(events, deed, label, more);
};
