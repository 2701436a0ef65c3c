// The ways to a plug: live camera, photo, typing, slot. Whatever finds it calls shared.chosen(row, list).
const shared = (globalThis.rackside ??= {});
const finder = document.getElementById("finder");
const by = (id) => document.getElementById(id);
const { element } = shared;
const MOST = 8;

function match(list, row) {
  const button = element("button", { type: "button", class: "button quiet" }, `${row.code || "no tag"} · ${row.name} · ${shared.placeOf(list, row)}`);
  button.addEventListener("click", () => { by("code").value = ""; by("matches").replaceChildren(); shared.chosen(row, list); });
  return element("li", {}, button);
}

function typed(list) {
  const text = by("code").value.trim();
  const code = shared.normaliseCode(text);
  const found = !code ? [] : list.specimens.filter((row) => row.code?.startsWith(code) || row.slot === text.toUpperCase() || (text.length > 2 && row.name.toLowerCase().includes(text.toLowerCase())));
  by("matches").replaceChildren(...found.slice(0, MOST).map((row) => match(list, row)));
}

function drawMap(list) {
  const rack = list.racks.find((one) => one.id === by("slot-rack").value);
  if (!rack) return;
  const standing = new Map(list.specimens.filter((row) => row.rack_id === rack.id).map((row) => [row.slot, row]));
  const lines = Array.from({ length: rack.rows }, (_, row) => element("div", { class: "rack-row" }, ...Array.from({ length: rack.columns }, (__, column) => {
    const slot = `${String.fromCharCode(65 + row)}${column + 1}`;
    const here = standing.get(slot);
    if (!here) return element("span", { class: "slot free" }, element("b", {}, slot), element("span", { class: "hidden-text" }, "free"));
    const button = element("button", { type: "button", class: `slot s-${here.status}` }, element("b", {}, slot), element("span", {}, here.name));
    button.addEventListener("click", () => shared.chosen(here, list));
    return button;
  })));
  by("slot-map").replaceChildren(...lines);
}

function scanned(text, list, rules) {
  const code = shared.codeIn(text, [...rules.hosts, location.hostname]);
  if (!code) return shared.say("That symbol is not a tag of this shop, or was misread. Try once more.", true);
  const row = list && [...list.specimens, ...list.gone].find((one) => one.code === code);
  if (row) return shared.chosen(row, list);
  const place = list?.racks.find((one) => one.code === code) || list?.tanks.find((one) => one.code === code);
  if (place) return location.assign(`/${place.rows ? "racks" : "tanks"}/${place.id}`);
  return shared.inReach().then((near) => (near ? location.assign(`/do/find?code=${code}`) : shared.say(`${code} is not in the list kept on this phone.`, true)));
}

async function readPhoto(list, rules) {
  const [file] = by("photo").files;
  if (!file) return;
  shared.say("Reading the photo…");
  const data = new FormData(by("photo-form"));
  const small = await shared.fileItem("photo", file);
  data.set("photo", new Blob([Uint8Array.from(atob(small.data), (letter) => letter.charCodeAt(0))], { type: small.type }), "tag.jpg");
  try {
    const answer = await fetch("/do", { method: "POST", body: data, headers: { Accept: "application/json" } });
    const said = await answer.json();
    by("photo-form").reset();
    if (!said.codes?.length) return shared.say(said.problem || said.error, true);
    document.querySelector("[data-notice]")?.remove();
    for (const code of said.codes) scanned(code, list, rules);
  } catch {
    shared.say("No signal, so the shop cannot read the photo. Type three characters, or tap its slot.", true);
  }
}

async function begin() {
  document.documentElement.classList.add("scripted");
  const rules = JSON.parse(by("work-rules").textContent);
  const list = await shared.loadList();
  by("type-form").addEventListener("submit", (event) => {
    if (!list) return;
    event.preventDefault();
    scanned(by("code").value, list, rules);
  });
  const parts = { line: by("live-line"), live: by("live"), button: by("live-button"), video: by("picture"), aim: by("aim") };
  shared.startCamera(parts, (text) => scanned(text, list, rules));
  by("photo").addEventListener("change", () => readPhoto(list, rules));
  if (!list) {
    by("list-age").textContent = "The list of what stands here is not on this phone yet: open this page once with signal.";
    return;
  }
  by("list-age").textContent = `${list.specimens.length} plugs known, ${shared.ago(list.at)}.`;
  by("code").addEventListener("input", () => typed(list));
  if (by("code").value) typed(list); // a thumb was faster than the list
  by("slots-fold").hidden = !list.racks.length;
  by("slot-rack").append(...list.racks.map((rack) => element("option", { value: rack.id }, rack.name)));
  by("slot-rack").addEventListener("change", () => drawMap(list));
  shared.drawMap = () => drawMap(list);
  drawMap(list);
  shared.begun?.(list, rules);
}

if (finder && globalThis.indexedDB) setTimeout(begin, 0);
