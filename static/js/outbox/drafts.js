// Settings go straight to the shop. What was typed while it was out of reach is kept and put back into the form.
const shared = (globalThis.rackside ??= {});
const place = document.getElementById("outbox");
const key = `draft ${location.pathname}`;

function typedIn(form) {
  return [...form.elements].filter((field) => field.name && !["hidden", "password", "file", "submit"].includes(field.type) && field.type !== "fieldset");
}

shared.keepDraft = (form) => {
  const fields = typedIn(form).map((field) => [field.name, field.value, field.checked === true]);
  return fields.length ? shared.store.keep(key, { at: Date.now(), action: form.getAttribute("action"), fields }) : undefined;
};

shared.dropDraft = () => shared.store.keep(key, null);

async function putBack() {
  const draft = await shared.store.kept(key);
  const form = draft && [...document.forms].find((one) => one.getAttribute("action") === draft.action && typedIn(one).length);
  if (!form) return;
  for (const [name, value, checked] of draft.fields) {
    const field = typedIn(form).find((one) => one.name === name && (!["radio", "checkbox"].includes(one.type) || one.value === value));
    if (!field) continue;
    if (["radio", "checkbox"].includes(field.type)) field.checked = checked;
    else field.value = value;
  }
  shared.say(`What you typed here ${shared.ago(draft.at)} did not reach the shop. It is back in the form: look, then send it.`);
  const away = shared.element("button", { type: "button", class: "button quiet" }, "Forget it");
  away.addEventListener("click", () => shared.dropDraft().then(() => location.reload()));
  document.querySelector("[data-notice]").append(away);
}

if (place?.dataset.session && globalThis.indexedDB) setTimeout(putBack, 0);
