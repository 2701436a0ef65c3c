// Shares the words of a sheet: the phone's own sharing where there is one, else a copy to paste.
// [data-share] button (hidden until it works), [data-share-text] textarea with the words, [data-share-said] status.
const text = document.querySelector("[data-share-text]");
const said = document.querySelector("[data-share-said]");

function copy(button) {
  text.classList.remove("hidden-text");
  text.select();
  const done = document.execCommand("copy"); // the newer way needs https, which walk-ins do not have
  text.classList.toggle("hidden-text", done);
  button.focus();
  if (done) said.textContent = button.dataset.shareDone;
}

for (const button of document.querySelectorAll("[data-share]")) {
  button.hidden = false;
  button.addEventListener("click", async () => {
    if (!navigator.share) return copy(button);
    try { await navigator.share({ title: document.title, text: text.value }); } catch (error) {
      if (error.name !== "AbortError") copy(button);
    }
  });
}
