// <form data-events='[{"kind": ..., "subject": ..., "payload": {key: value or {"from": field, "as": how}}}]'>: a form
// that says which events it stands for. What cannot be read here gives null: then the form goes as it is, for the server.
const shared = (globalThis.rackside ??= {});
const UNREADABLE = Symbol("unreadable");

function numberOf(text) {
  const plain = text.replace(/[\s\u202f]/g, "").replace(",", ".");
  if (plain === "") return null;
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : UNREADABLE;
}

const READ = {
  text: (text) => text.trim(),
  needed: (text) => text.trim() || UNREADABLE,
  flag: (text) => text !== "",
  number: numberOf,
  count: (text) => (text.trim() === "" ? null : /^\+?\d{1,12}$/.test(text.trim()) ? Number(text) : UNREADABLE),
  cents: (text) => {
    const amount = numberOf(text);
    return typeof amount === "number" ? Math.round(amount * 100) : amount;
  },
  hours_from_now: (text, when) => new Date(when.getTime() + Number(text) * 3600e3).toISOString(),
  tank: (text) => text.split(":")[0] || UNREADABLE,
  rack: (text) => text.split(":")[1] || null,
  slot: (text) => text.trim().toUpperCase(),
};

function valueOf(rule, data, when) {
  if (rule === null || typeof rule !== "object" || !("from" in rule)) return rule;
  return READ[rule.as](String(data.get(rule.from) ?? ""), when);
}

shared.typedEvents = (form, data, when) => {
  if (!form.dataset.events) return null;
  const events = [];
  for (const { kind, subject, payload } of JSON.parse(form.dataset.events)) {
    const filled = {};
    for (const [key, rule] of Object.entries(payload)) {
      const value = valueOf(rule, data, when);
      if (value === UNREADABLE) return null;
      filled[key] = value;
    }
    events.push({ id: shared.newId(), kind, subject_id: subject, payload: filled });
  }
  return events;
};
