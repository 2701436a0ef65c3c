// <button data-copy="text" data-copied="Copied" hidden>: shown where copying works, also on plain http.
function copy(text) {
  if (navigator.clipboard && window.isSecureContext) return navigator.clipboard.writeText(text).then(() => true, () => false);
  const area = document.createElement("textarea");
  area.value = text;
  area.readOnly = true;
  area.className = "hidden-text";
  document.body.append(area);
  area.select();
  const done = document.execCommand("copy");
  area.remove();
  return Promise.resolve(done);
}

for (const button of document.querySelectorAll("button[data-copy]")) {
  button.hidden = false;
  const words = button.textContent;
  button.setAttribute("aria-live", "polite");
  button.addEventListener("click", async () => {
    if (!(await copy(button.dataset.copy))) return;
    button.textContent = button.dataset.copied;
    button.focus();
    setTimeout(() => { button.textContent = words; }, 3000);
  });
}
