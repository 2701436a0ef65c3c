// <div data-way="light_way:words light_way:meter">: shown only while one of the named choices is chosen.
function chosen(form, name) {
  return [...form.querySelectorAll(`[name="${CSS.escape(name)}"]`)].filter((field) => field.type !== "radio" || field.checked).map((field) => field.value);
}

function showWays(form) {
  for (const part of form.querySelectorAll("[data-way]")) {
    const fits = part.dataset.way.split(" ").some((rule) => {
      const [name, value] = rule.split(":");
      return chosen(form, name).includes(value);
    });
    part.hidden = !fits;
  }
}

for (const form of new Set([...document.querySelectorAll("[data-way]")].map((part) => part.closest("form")))) {
  form.addEventListener("change", () => showWays(form));
  showWays(form);
}
