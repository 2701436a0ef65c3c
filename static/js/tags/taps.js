// Taps on the photo are drawn at once and worked out by the shop; without this script each tap is a request of its own.
const form = document.querySelector("form[data-taps]");
const SVG = "http://www.w3.org/2000/svg";
const WIDE = 1100; // CSS pixels of a window in which the largest picture is no effort
let waiting = 0;
let asked = 0;

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
  form.querySelector(".tap-photo svg").replaceChildren(line, ...points.map(([cx, cy]) => made("circle", { cx, cy, r: 7 })));
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
    if (!event.detail) return;
    event.preventDefault();
    const box = image.getBoundingClientRect();
    const scale = Number(form.dataset.taps) * (image.width / box.width);
    const field = document.createElement("input");
    field.type = "hidden";
    field.name = "p";
    field.value = `${((event.clientX - box.left) * scale).toFixed(1)},${((event.clientY - box.top) * scale).toFixed(1)}`;
    form.append(field);
    soon();
  });
  form.addEventListener("change", soon);
  const address = new URL(location.href);
  if (innerWidth >= WIDE && !address.searchParams.has("w")) {
    address.searchParams.set("w", form.dataset.largest);
    location.replace(address);
  }
}
