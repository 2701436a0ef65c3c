// Who works on this phone, also without signal: by name within a shift, else by a PIN that only the shop can read. No PIN
// and nothing to try PINs against is kept here; the shop checks it when the first deed arrives.
const shared = (globalThis.rackside ??= {});
const place = document.getElementById("outbox");
const FRESH_MS = 600000;
const { element } = shared;

const bytes = (text) => new TextEncoder().encode(text);
const letters = (buffer) => btoa(String.fromCharCode(...new Uint8Array(buffer)));

// Who took over without signal: {name, handle, until, base}. until: the end of their shift, when they took over by name;
// base: the session that was open then.
shared.turn = () => JSON.parse(localStorage.getItem("turn") || "null");

shared.turnOver = () => new Date(shared.turn()?.until || Infinity) < new Date();

shared.endTurn = () => localStorage.removeItem("turn");

shared.turnRefused = (handle) => { if (shared.turn()?.handle === handle) shared.endTurn(); };
shared.changed.addEventListener("message", ({ data }) => shared.turnRefused(data.refused));

// The shop checks each turn when the first deed of it arrives: by a PIN, else by the shift of a PIN given here before.
async function begin(person, turn, until = "") {
  const { handle } = turn;
  await shared.store.change("turns", (kept = []) => [...kept, { person_id: person.id, at: new Date().toISOString(), ...turn }]);
  localStorage.setItem("turn", JSON.stringify({ name: person.name, handle, until, base: localStorage.getItem("session") || "" }));
  shared.tellOthers();
  shared.say(`${person.name} works here now. What was done before stays in the name of whoever did it.`);
  return draw();
}

const newHandle = () => shared.newId() + shared.newId();

// RSA-OAEP (RFC 8017, 7.1); the label binds the PIN to this turn and this person.
async function sealed(key, pin, label) {
  const spki = Uint8Array.from(atob(key), (letter) => letter.charCodeAt(0));
  const lock = await crypto.subtle.importKey("spki", spki, { name: "RSA-OAEP", hash: "SHA-256" }, false, ["encrypt"]);
  return letters(await crypto.subtle.encrypt({ name: "RSA-OAEP", label: bytes(label) }, lock, bytes(pin)));
}

async function beginWithPin(person, key, pin) {
  const handle = newHandle();
  await begin(person, { handle, sealed: await sealed(key, pin, `${handle} ${person.id}`) });
}

function askPin(person, key) {
  const field = element("input", { class: "input", type: "password", id: "turn-pin", autocomplete: "off", required: "" });
  const form = element("form", {}, element("div", { class: "field" }, element("label", { for: "turn-pin" }, `PIN or password of ${person.name}`), field), element("button", { class: "button wide" }, `Go on as ${person.name}`));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    beginWithPin(person, key, field.value).catch(() => shared.say("Not kept: this phone could not seal or store the PIN.", true));
  });
  document.getElementById("turn-pin-place").replaceChildren(form);
  field.focus();
}

function choice(person, key) {
  const byName = new Date(person.until) > new Date();
  const button = element("button", { type: "button", class: "button wide" }, byName ? person.name : `${person.name}, with PIN`);
  button.addEventListener("click", () => {
    if (!byName) return askPin(person, key);
    return begin(person, { handle: newHandle() }, person.until).catch(() => shared.say("Not kept: the storage of this phone is full.", true));
  });
  return button;
}

async function draw() {
  const kept = await shared.store.kept("people");
  const part = document.getElementById("turn-phone");
  const now = shared.turn() ? !shared.turnOver() && shared.turn().name : kept?.name;
  const others = (kept?.people || []).filter((one) => one.name !== now);
  document.getElementById("turn-shop").hidden = true;
  // The page may have been kept in the time of somebody else.
  document.querySelector("[data-who]").textContent = shared.turn()?.name || kept?.name || "Nobody";
  part.hidden = false;
  part.querySelector("[data-none]").hidden = others.length > 0;
  part.querySelector(".tiles").replaceChildren(...others.map((one) => choice(one, kept.key)));
  document.getElementById("turn-pin-place").replaceChildren();
}

(shared.offline ??= []).push((form) => {
  if (!document.getElementById("turn-phone") || !form.getAttribute("action").startsWith("/switch")) return false;
  draw();
  return true;
});

async function keepPeople() {
  const kept = await shared.store.kept("people");
  if (kept && kept.session === place.dataset.session && Date.now() - kept.at < FRESH_MS) return;
  try {
    const answer = await fetch("/outbox/people", { headers: { Accept: "application/json" }, redirect: "error" });
    if (answer.ok) await shared.store.keep("people", { ...(await answer.json()), at: Date.now() });
  } catch {
    // Without signal those that are known must do.
  }
}

// A page that the shop has just given says whose session is open; a turn of before another sign-in is over.
function look() {
  const { session, kept } = place.dataset;
  if (!kept && session) {
    if (shared.turn() && shared.turn().base !== session) shared.endTurn();
    localStorage.setItem("session", session);
    keepPeople();
  }
  if (kept && document.getElementById("turn-phone")) draw();
}

if (place && "session" in place.dataset && globalThis.indexedDB && globalThis.crypto.subtle) look();
