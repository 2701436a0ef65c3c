// The lines of the till as the phone draws them, from the stock that it keeps.
const shared = (globalThis.rackside ??= {});
const part = document.getElementById("till-phone");
const mould = document.getElementById("till-line");

shared.tillMoney = (cents) => new Intl.NumberFormat(document.documentElement.lang || "en", { style: "currency", currency: part.dataset.currency }).format(cents / 100);

function stopsOf(row, list) {
  const gone = row.status === "sold" ? [`${row.name} is sold already. Take it off the till.`] : [];
  return [...gone, ...(list.stops?.[row.id] || [])];
}

function isHeld(row) {
  return Boolean(row.held) && new Date(row.held) > new Date();
}

// A copy of the mould whose fields are this animal's.
function lineOf(row, list, typed) {
  const line = mould.content.cloneNode(true).querySelector("fieldset");
  for (const one of line.querySelectorAll("*")) {
    for (const { name, value } of [...one.attributes]) if (value.includes("THIS")) one.setAttribute(name, value.replaceAll("THIS", row.id));
  }
  line.dataset.id = row.id;
  line.querySelector("[data-name]").textContent = row.name;
  line.querySelector("[data-code]").textContent = row.code || "no tag";
  line.querySelector("[data-stops]").replaceChildren(...stopsOf(row, list).map((text) => shared.element("div", { class: "flash error", role: "alert" }, shared.element("p", {}, text))));
  line.querySelector("[data-held]").hidden = !isHeld(row);
  const price = row.price_cents === null ? "" : (row.price_cents / 100).toFixed(2);
  const fields = { price, reason: "", word: "", sheet: "", asked: row.price_cents ?? "" };
  for (const [name, usual] of Object.entries(fields)) {
    const field = line.querySelector(`[name="${name}-${row.id}"]`);
    field.value = name === "asked" ? usual : typed[field.name] ?? usual;
  }
  return line;
}

shared.drawTill = (rows, list, typed) => {
  part.querySelector("[data-lines]").replaceChildren(...rows.map((row) => lineOf(row, list, typed)));
  const poisons = rows.filter((row) => list.toxic?.[row.profile]);
  part.querySelector("[data-toxic]").hidden = !poisons.length;
  part.querySelector("[data-tell]").replaceChildren(...poisons.map((row) => shared.element("p", {}, `${row.name}: ${list.toxic[row.profile]}.`)));
  part.querySelector("#phone-talk").checked = Boolean(typed.talk);
  const total = rows.reduce((sum, row) => sum + (row.price_cents || 0), 0);
  part.querySelector("[data-total]").textContent = `${rows.length} on the till, ${shared.tillMoney(total)} by their tags`;
  part.querySelector("form").hidden = !rows.length;
  part.querySelector("[data-nothing]").hidden = rows.length > 0;
};

// Why this sale cannot be: [id of the field, sentence], or null.
shared.tillProblem = (rows, list, field) => {
  for (const row of rows) {
    const [stop] = stopsOf(row, list);
    const price = field(`price-${row.id}`).replace(",", ".");
    if (stop) return [`price-${row.id}`, stop];
    if (price && !/^\d{1,5}(\.\d{1,2})?$/.test(price)) return [`price-${row.id}`, `'${price}' is not a price. Type digits, as 12.50.`];
    if (isHeld(row) && !field(`word-${row.id}`)) return [`word-${row.id}`, `${row.name} ${row.code} is on hold. Ask for the claim word.`];
    const differs = row.price_cents !== null && (price === "" || Math.round(Number(price) * 100) !== row.price_cents);
    if (differs && !field(`reason-${row.id}`)) return [`reason-${row.id}`, `${row.name} ${row.code} has another price on its tag. Say why it differs.`];
  }
  const [poison] = rows.filter((row) => list.toxic?.[row.profile]);
  return poison && !field("talk") ? ["phone-talk", `Tell the buyer how to handle ${poison.name} safely, then tick that you did.`] : null;
};
