// What was typed and did not reach the shop is put back into its form: settings typed while it was out of reach, and
// forms that the shop could not take, to be put right.
const shared = (globalThis.rackside ??= {});
const place = document.getElementById("outbox");
const key = `draft ${location.pathname}`;
const CHOSEN = ["radio", "checkbox"];

function pathOf(action) {
  const { pathname, search } = new URL(action || location.href, location.href);
  return pathname + search;
}

const UNTYPED = ["hidden", "password", "file", "submit", "button", "fieldset"];
const typedIn = (form) => [...form.elements].filter((field) => field.name && !UNTYPED.includes(field.type));
shared.isTyped = (form) => typedIn(form).length > 0;

shared.keepDraft = (form) => {
  const fields = typedIn(form).filter((field) => !CHOSEN.includes(field.type) || field.checked).map((field) => [field.name, field.value]);
  return fields.length ? shared.store.keep(key, { at: Date.now(), action: pathOf(form.getAttribute("action")), fields }) : undefined;
};

shared.dropDraft = () => shared.store.keep(key, null);

// What was refused: the page of its form opens with what was typed. What is sent from there takes the place of the one
// refused, and of those it was to mend, once the shop has it.
shared.mend = async (entry) => {
  const { action, fields } = entry.item.form || entry.typed;
  const refused = (await shared.store.all()).filter((one) => one.deed === entry.deed && one.state === "refused");
  const mends = [...new Set(refused.flatMap((one) => [one.seq, ...(one.mends || [])]))];
  await shared.store.keep(`draft ${entry.page}`, { at: new Date(entry.at).getTime(), action, fields, mends, reason: entry.reason });
  location.assign(entry.page);
};

function fill(form, fields) {
  for (const field of typedIn(form)) {
    const values = fields.filter(([name]) => name === field.name).map(([, value]) => value);
    if (CHOSEN.includes(field.type)) field.checked = values.includes(field.value);
    else if (values.length) [field.value] = values;
  }
}

async function putBack() {
  const draft = await shared.store.kept(key);
  const form = draft && [...document.forms].find((one) => pathOf(one.getAttribute("action")) === draft.action && typedIn(one).length);
  if (!form) return;
  fill(form, draft.fields);
  for (let fold = form.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
  if (draft.mends) form.dataset.mends = JSON.stringify(draft.mends);
  const why = draft.mends ? `was not taken: ${draft.reason}` : "did not reach the shop.";
  shared.say(`What you typed here ${shared.ago(draft.at)} ${why} It is back in the form: look, then send it.`);
  const away = shared.element("button", { type: "button", class: "button quiet" }, draft.mends ? "Leave it" : "Forget it");
  away.addEventListener("click", () => shared.dropDraft().then(() => location.reload()));
  document.querySelector("[data-notice]").append(away);
}

if (place?.dataset.session && globalThis.indexedDB) setTimeout(putBack, 0);
