// The till without signal: tags are put on it from the stock kept on the phone, and the sale waits like any other deed.
const shared = (globalThis.rackside ??= {});
const part = document.getElementById("till-phone");
const shop = document.getElementById("till-shop");
const by = (id) => document.getElementById(id);
let list = null;
let rows = [];

async function draw() {
  list = await shared.loadList(false);
  if (!list) return shared.say("The list of what stands here is not on this phone yet: open this page once with signal.", true);
  const till = await shared.till.read();
  rows = till.ids.map((id) => list.specimens.find((row) => row.id === id)).filter(Boolean);
  shop.replaceChildren();
  by("errors")?.remove();
  part.hidden = false;
  part.querySelector("[name=deed]").value = shared.newId();
  shared.drawTill(rows, list, till.typed);
}

// From what was filled in on the shop's own page to the phone's.
async function takeOver() {
  for (const field of shop.querySelectorAll("#sale [name*='-'], #sale [name=talk]:checked")) await shared.till.type(field.name, field.value);
  await draw();
}

async function put(text) {
  const found = [];
  const known = await shared.loadList(false);
  for (const word of text.split(/\s+/).filter(Boolean)) {
    const code = shared.normaliseCode(word);
    const fits = known?.specimens.filter((row) => row.code?.startsWith(code)) || [];
    const left = known?.gone.find((row) => row.code === code);
    if (left) return shared.say(`${left.name} ${code} is ${left.status} already, as far as this phone knows.`, true);
    if (fits.length !== 1) return shared.say(fits.length ? `${fits.length} tags begin with ${code}: type one character more.` : `${code} is not in the list kept on this phone.`, true);
    found.push(fits[0].id);
  }
  for (const id of found) await shared.till.put(id);
  by("code").value = "";
  return takeOver();
}

// From another page, by the code in the form: on the list of this phone, then to the till as it is kept here.
function putFrom(form) {
  const code = new FormData(form).get("code");
  shared.loadList(false).then((known) => {
    const row = known?.specimens.find((one) => one.code === code);
    if (!row) return shared.say(`${code} is not in the list kept on this phone.`, true);
    return shared.till.put(row.id).then(() => location.assign("/till"));
  });
  return true;
}

// For a form without a deed when the shop is out of reach: whether the phone can do it itself.
(shared.offline ??= []).push((form) => {
  const { pathname } = new URL(form.getAttribute("action") || location.href, location.href);
  if (!part && pathname === "/till/add") return putFrom(form);
  if (!part) return false;
  if (pathname === "/till/add") put(new FormData(form).get("code") || "");
  else if (pathname === "/till/drop") shared.till.drop(new FormData(form).get("specimen_id")).then(takeOver);
  else return false;
  return true;
});

// Called when a sale was kept on this phone because the shop is out of reach.
shared.formKept = async (form) => {
  if (new URL(form.action).pathname !== "/till/sell") return;
  const sold = new FormData(form).getAll("specimen_id");
  await shared.till.change(({ ids }) => ({ ids: ids.filter((id) => !sold.includes(id)), typed: {} }));
  await draw();
};

function sell(event) {
  const form = event.target;
  const field = (name) => String(new FormData(form).get(name) || "").trim();
  const problem = shared.tillProblem(rows, list, field);
  form.dataset.label = `Sell ${rows.map((row) => row.name).join(", ")}`.slice(0, 90);
  if (!problem) return;
  event.preventDefault();
  shared.say(problem[1], true);
  by(problem[0]).focus();
}

// What was put on or taken off without signal is told to the shop: its answer is the page with all of it. A telling may be
// cut off on its way, so the same is told up to three times; what the shop does not take then is not on its till.
function triesLeft(news) {
  const before = JSON.parse(sessionStorage.getItem("till told") || "{}");
  return before.told === JSON.stringify(news) ? 3 - before.tries : 3;
}

function tell(news) {
  const form = document.querySelector("form[action$='/till/add']");
  sessionStorage.setItem("till told", JSON.stringify({ told: JSON.stringify(news), tries: 4 - triesLeft(news) }));
  for (const [name, ids] of [["put", news.put], ["gone", news.gone]]) for (const id of ids) form.append(shared.element("input", { type: "hidden", name, value: id }));
  form.submit();
}

async function begin() {
  const here = [...shop.querySelectorAll("#sale [name=specimen_id]")].map((one) => one.value);
  if (by("outbox").dataset.kept) return draw();
  let news;
  await shared.till.change((till) => {
    news = shared.till.news(till, here);
    const mustTell = (news.put.length || news.gone.length) && triesLeft(news);
    if (!mustTell) news = null;
    return mustTell ? {} : { ids: here, base: here, typed: {} };
  });
  if (news) return tell(news);
  sessionStorage.removeItem("till told");
  return shared.loadList();
}

if (part && globalThis.indexedDB) {
  part.addEventListener("input", ({ target }) => shared.till.type(target.name, target.type === "checkbox" && !target.checked ? "" : target.value));
  part.querySelector("form").addEventListener("submit", sell);
  part.addEventListener("click", ({ target }) => {
    if (target.closest("[data-off]")) shared.till.drop(target.closest("[data-id]").dataset.id).then(draw);
  });
  const parts = { line: by("live-line"), live: by("live"), button: by("live-button"), video: by("picture"), aim: by("aim") };
  const rules = JSON.parse(part.dataset.hosts);
  setTimeout(() => {
    begin();
    shared.startCamera(parts, (text) => {
      const code = shared.codeIn(text, [...rules, location.hostname]);
      if (!code) return shared.say("That symbol is not a tag of this shop, or was misread. Try once more.", true);
      by("code").value = code;
      return document.querySelector("form[action$='/till/add']").requestSubmit();
    });
  }, 0);
}
