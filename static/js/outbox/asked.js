// A page is kept on the phone as it is without a question in its address. What the question asks for is filled in here.
const shared = (globalThis.rackside ??= {});
const OURS = /(^|-)deed$|^csrf_token$/;

function choose(field, value) {
  if (field.tagName === "SELECT" && ![...field.options].some((option) => option.value === value)) return;
  if (["radio", "checkbox"].includes(field.type)) field.checked = field.value === value;
  else if (field.type !== "file") field.value = value;
}

shared.fillAsked = () => {
  for (const [name, value] of new URLSearchParams(location.search)) {
    const fields = [...document.querySelectorAll("main form")].map((form) => form.elements.namedItem(name));
    for (const field of fields) if (field?.tagName && !OURS.test(name)) choose(field, value);
  }
};

if (document.getElementById("outbox")?.dataset.kept) shared.fillAsked();
