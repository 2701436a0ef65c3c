// Shows the print button where scripts run, and gives a sheet on a roll a page of its own length.
function fitRoll() {
  const roll = document.querySelector(".p-roll");
  if (!roll || !document.adoptedStyleSheets) return;
  const mm = Math.ceil(roll.getBoundingClientRect().height * 25.4 / 96) + 12;
  const page = new CSSStyleSheet();
  page.replaceSync(`@page roll { size: 80mm ${mm}mm; margin: 4mm; }`);
  document.adoptedStyleSheets = [page];
}

fitRoll();
for (const button of document.querySelectorAll("[data-print]")) {
  button.hidden = false;
  button.addEventListener("click", () => window.print());
}
