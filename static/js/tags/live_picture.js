// The picture of a label sheet follows what is typed, and says what is wrong with it.
const form = document.querySelector("form[data-live]");
const figure = document.querySelector("[data-picture]");
let waiting = 0;

async function redraw() {
  const fields = new URLSearchParams(new FormData(form));
  fields.delete("csrf_token");
  try {
    const answer = await fetch(`${figure.dataset.picture}?${fields}`);
    if (!answer.ok) return;
    const piece = new DOMParser().parseFromString(await answer.text(), "text/html");
    figure.replaceChildren(...piece.body.children);
  } catch {
    // No signal just now: the next letter tries again.
  }
}

if (form && figure) {
  form.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(redraw, 300);
  });
}
