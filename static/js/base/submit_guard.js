// A drop of water taps twice: a form is sent once, and a second tap within the guard time does nothing.
const GUARD_MS = 5000;
const FILE_GUARD_MS = 1500; // a form that answers with a file leaves the page standing: data-file
let lastTap = -Infinity; // the first tap of a page always counts, however early

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (event.defaultPrevented || form.method === "dialog") return;
  const sentAt = Number(form.dataset.sentAt || 0);
  const guard = "file" in form.dataset ? FILE_GUARD_MS : GUARD_MS;
  if (Date.now() - sentAt < guard) {
    event.preventDefault();
    return;
  }
  form.dataset.sentAt = String(Date.now());
  const button = event.submitter;
  button?.classList.add("busy");
  if ("file" in form.dataset) setTimeout(() => button?.classList.remove("busy"), guard);
});

document.addEventListener("click", (event) => {
  if (!event.target.closest("a.button, button[data-once]")) return;
  if (event.timeStamp - lastTap < 600) event.preventDefault();
  lastTap = event.timeStamp;
}, true);

// Back from the next page: the form may be sent again.
window.addEventListener("pageshow", () => {
  for (const form of document.querySelectorAll("form[data-sent-at]")) delete form.dataset.sentAt;
  for (const button of document.querySelectorAll(".button.busy")) button.classList.remove("busy");
});
