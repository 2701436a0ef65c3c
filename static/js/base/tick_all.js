// <a data-tick="chosen" data-all data-none>: ticks every box of that name, or none when all are ticked. Without a script the link does.
for (const link of document.querySelectorAll("[data-tick]")) {
  const boxes = [...document.querySelectorAll(`[name="${CSS.escape(link.dataset.tick)}"]`)];
  const whole = () => boxes.every((box) => box.checked);
  const say = () => { link.textContent = whole() ? link.dataset.none : link.dataset.all; };
  link.addEventListener("click", (event) => {
    event.preventDefault();
    const tick = !whole();
    for (const box of boxes) box.checked = tick;
    say();
  });
  for (const box of boxes) box.addEventListener("change", say);
  addEventListener("pageshow", say);
}
