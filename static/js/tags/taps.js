// Taps on the photo are drawn at once and worked out by the shop; without this script each tap is a request of its own.
// By keyboard the arrows move a cross, and Enter or the space bar sets a point under it.
const form = document.querySelector("form[data-taps]");
const SVG = "http://www.w3.org/2000/svg";
const WIDE = 1100; // CSS pixels of a window in which the largest picture is no effort
let waiting = 0;
let asked = 0;
let cross = null; // in pixels of the picture, once an arrow was pressed
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

function made(name, values) {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(values)) element.setAttribute(key, value);
  return element;
}

function isArea() {
  return form.querySelector('input[name="what"][value="area"]').checked;
}

function draw() {
  const scale = Number(form.dataset.taps);
  const points = [...form.querySelectorAll('input[name="p"]')].map((field) => field.value.split(",").map((n) => n / scale));
  const line = made(isArea() ? "polygon" : "polyline", { points: points.map((point) => point.join(",")).join(" ") });
  const svg = form.querySelector(".tap-photo svg");
  svg.replaceChildren(line, ...points.map(([cx, cy]) => made("circle", { cx, cy, r: 7 })));
  if (!cross) return;
  svg.append(made("path", { d: `M${cross}m-16 0h12m8 0h12m-16-16v12m0 8v12` }));
  svg.lastChild.scrollIntoView({ block: "nearest", inline: "nearest" });
}

function move(event) {
  const way = ARROWS[event.key];
  if (!way) return;
  event.preventDefault();
  const { width, height } = event.target;
  const far = event.shiftKey ? 1 : 8;
  const [x, y] = cross ?? [width / 2, height / 2];
  cross = [Math.min(Math.max(x + way[0] * far, 0), width), Math.min(Math.max(y + way[1] * far, 0), height)];
  draw();
}

// A point, in pixels of the picture.
function put([x, y]) {
  const scale = Number(form.dataset.taps);
  form.append(Object.assign(document.createElement("input"), {
    type: "hidden", name: "p", value: `${(x * scale).toFixed(1)},${(y * scale).toFixed(1)}`,
  }));
  soon();
}

// What was worked out before does not stand for what is tapped now: it goes at once and comes back new.
async function workOut() {
  const mine = ++asked;
  try {
    const answer = await fetch(`${form.action}?${new URLSearchParams(new FormData(form))}`);
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    if (!answer.ok || mine !== asked) return;
    for (const id of ["measured", "keep", "tap-help"]) {
      document.getElementById(id).replaceChildren(...page.getElementById(id).childNodes);
    }
  } catch {
    document.getElementById("tap-help").textContent = "The shop is out of reach: what is tapped stays. Work it out again later.";
  }
}

function soon() {
  for (const id of ["measured", "keep"]) document.getElementById(id).replaceChildren();
  draw();
  clearTimeout(waiting);
  waiting = setTimeout(workOut, 150);
}

if (form) {
  const image = form.querySelector('input[type="image"]');
  image.addEventListener("click", (event) => {
    event.preventDefault();
    const box = image.getBoundingClientRect();
    const large = image.width / box.width;
    if (event.detail) put([(event.clientX - box.left) * large, (event.clientY - box.top) * large]);
    else if (cross) put(cross);
  });
  image.addEventListener("keydown", move);
  form.addEventListener("change", soon);
  const address = new URL(location.href);
  if (innerWidth >= WIDE && !address.searchParams.has("w")) {
    address.searchParams.set("w", form.dataset.largest);
    location.replace(address);
  }
}
