// Folded parts: a link into one opens it, a field in error inside one opens it, and printing opens all of them.
function unfold(element) {
  for (let fold = element && element.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
}

function followHash() {
  const target = location.hash.length > 1 && document.getElementById(decodeURIComponent(location.hash.slice(1)));
  if (!target) return;
  unfold(target);
  if (target.matches("input, select, textarea")) target.focus();
}

for (const field of document.querySelectorAll('[aria-invalid="true"], .field.wrong')) unfold(field);
window.addEventListener("hashchange", followHash);
followHash();

document.addEventListener("click", (event) => {
  const link = event.target.closest('a[href^="#"]');
  if (link && link.getAttribute("href") === location.hash) followHash();
});

let opened = [];
window.addEventListener("beforeprint", () => {
  opened = [...document.querySelectorAll("details:not([open])")];
  for (const fold of opened) fold.open = true;
});
window.addEventListener("afterprint", () => {
  for (const fold of opened) fold.open = false;
});

const errors = document.getElementById("errors");
if (errors) errors.focus();
