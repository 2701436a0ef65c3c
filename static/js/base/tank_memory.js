// Remembers the buyer's tank on the buyer's own phone and nowhere else.
// <form data-tank-memory> with fields marked data-remember; inside it, all hidden until they can work:
//   [data-memory-offer] with [data-memory-fill] and [data-memory-clear] buttons.
const KEY = "rackside.tank";

const store = {
  read() {
    try { return JSON.parse(localStorage.getItem(KEY)) || null; } catch { return null; }
  },
  write(values) {
    try { localStorage.setItem(KEY, JSON.stringify(values)); } catch { /* full or forbidden: nothing is remembered */ }
  },
  clear() {
    try { localStorage.removeItem(KEY); } catch { /* nothing was kept */ }
  },
};

const fields = (form) => [...form.elements].filter((field) => field.name && field.hasAttribute("data-remember"));
const isChoice = (field) => field.type === "radio" || field.type === "checkbox";

function collect(form) {
  const values = {};
  for (const field of fields(form)) {
    if (isChoice(field) ? !field.checked : field.value === "") continue;
    (values[field.name] ||= []).push(field.value);
  }
  return values;
}

function typed(form) {
  return fields(form).some((field) => (isChoice(field) ? field.checked !== field.defaultChecked : field.tagName === "INPUT" && field.value !== ""));
}

// Whether anything is said of a tank: units and ways of saying have a value before anybody has touched them.
function says(field) {
  if (field.name.endsWith("_unit") || field.name.endsWith("_way") || field.value === "") return false;
  if (isChoice(field)) return field.checked;
  return field.tagName === "INPUT" || field.selectedIndex > 0;
}

function fill(form, values) {
  for (const field of fields(form)) {
    const kept = values[field.name];
    if (!kept) continue;
    if (isChoice(field)) field.checked = kept.includes(field.value);
    else field.value = kept[0];
    if (says(field) && field.closest("details")) field.closest("details").open = true;
    field.dispatchEvent(new Event("change", { bubbles: true }));
  }
}

for (const form of document.querySelectorAll("form[data-tank-memory]")) {
  const offer = form.querySelector("[data-memory-offer]");
  const kept = store.read();
  if (offer && kept && !typed(form)) offer.hidden = false;
  form.addEventListener("submit", () => {
    if (!fields(form).some(says)) return;
    const values = collect(form);
    const before = store.read() || {}; // what a shorter form did not ask stays
    for (const field of fields(form)) delete before[field.name];
    store.write({ ...before, ...values });
  });
  form.addEventListener("click", (event) => {
    if (event.target.closest("[data-memory-fill]")) fill(form, kept);
    else if (event.target.closest("[data-memory-clear]")) store.clear();
    else return;
    offer.hidden = true;
    const first = fields(form)[0];
    if (first) first.focus();
  });
}
