// The picture of a label sheet follows what is typed.
const form = document.querySelector("form[data-live]");
const figure = document.querySelector("[data-picture]");
let waiting = 0;

function redraw() {
  const fields = new URLSearchParams(new FormData(form));
  fields.delete("csrf_token");
  let image = figure.querySelector("img");
  if (!image) {
    image = document.createElement("img");
    image.alt = "The sheet with every label";
    figure.replaceChildren(image);
  }
  image.src = `${figure.dataset.picture}?${fields}`;
}

if (form && figure) {
  form.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(redraw, 300);
  });
}
