// Taps on the photo are drawn at once and sent together; without this script each tap is a request of its own.
const form = document.querySelector("form[data-taps]");

function draw(shape, picture, circles) {
  const scale = Number(form.dataset.taps);
  const points = [...form.querySelectorAll('input[name="p"]')].map((field) => field.value.split(",").map((n) => n / scale));
  shape.setAttribute("points", points.map((point) => point.join(",")).join(" "));
  for (const old of circles()) old.remove();
  for (const [x, y] of points) {
    const mark = document.createElementNS("http://www.w3.org/2000/svg", "circle");
    for (const [name, value] of [["cx", x], ["cy", y], ["r", 7]]) mark.setAttribute(name, value);
    picture.append(mark);
  }
}

if (form) {
  const image = form.querySelector('input[type="image"]');
  const picture = form.querySelector(".tap-photo svg");
  const shape = picture.querySelector("polygon, polyline");
  image.addEventListener("click", (event) => {
    if (!event.detail) return;
    event.preventDefault();
    const box = image.getBoundingClientRect();
    const scale = Number(form.dataset.taps) * (image.width / box.width);
    const field = document.createElement("input");
    field.type = "hidden";
    field.name = "p";
    field.value = `${((event.clientX - box.left) * scale).toFixed(1)},${((event.clientY - box.top) * scale).toFixed(1)}`;
    form.append(field);
    draw(shape, picture, () => picture.querySelectorAll("circle"));
    const least = form.querySelector('input[name="what"][value="area"]').checked ? 3 : 2;
    const count = form.querySelectorAll('input[name="p"]').length;
    document.getElementById("tap-help").textContent = `${count} tapped${count < least ? "" : ": work it out, or tap on"}.`;
  });
}
