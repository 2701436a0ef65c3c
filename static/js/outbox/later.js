// Photos that only the shop can read (a rack to be counted, an animal to be measured) wait here without signal. Nothing
// is recorded by them: when the shop is in reach they are read, and a person confirms what was found.
const shared = (globalThis.rackside ??= {});
const { element } = shared;

shared.toConfirm = async () => (await shared.store.all()).filter((entry) => entry.state === "photo");

shared.keepPhoto = async (form) => {
  const fields = [];
  const files = [];
  for (const [name, value] of new FormData(form)) {
    if (typeof value !== "string") { if (value.size) files.push(await shared.fileItem(name, value)); }
    else if (name !== "csrf_token") fields.push([name, value]);
  }
  const label = `${form.dataset.later} · ${document.querySelector("main h1")?.textContent.trim()}`.slice(0, 120);
  const { pathname } = new URL(form.getAttribute("action") || location.href, location.href);
  await shared.addForm(pathname, fields, files, shared.newId(), label, { state: "photo" });
  form.reset();
  shared.say(`Kept on this phone: ${label}. It is read when the shop is in reach; then you confirm what was found.`);
};

async function tokenOf(page) {
  const answer = await fetch(page, { redirect: "error", cache: "no-store", signal: AbortSignal.timeout(8000) });
  const there = new DOMParser().parseFromString(await answer.text(), "text/html");
  const token = there.querySelector("main [name=csrf_token]")?.value;
  if (!answer.ok || !token) throw new Error("not read");
  return token;
}

function fileField({ field, name, type, data }) {
  const carrier = new DataTransfer();
  carrier.items.add(new File([Uint8Array.from(atob(data), (letter) => letter.charCodeAt(0))], name, { type }));
  const made = element("input", { type: "file", name: field });
  made.files = carrier.files;
  return made;
}

// The photo goes to its page as if it were taken now; `more` carries what was found before.
shared.goOn = async (entry, more = {}) => {
  const { action, fields, files } = entry.item.form;
  let token;
  try {
    token = await tokenOf(entry.page);
  } catch {
    return shared.say("The shop is out of reach, or nobody is signed in here. The photo stays on this phone.", true);
  }
  const given = { ...Object.fromEntries(fields), waited: entry.id, taken: entry.at, ...more, csrf_token: token };
  const form = element("form", { method: "post", action, enctype: "multipart/form-data", hidden: "" });
  form.append(...Object.entries(given).map(([name, value]) => element("input", { type: "hidden", name, value })), ...files.map(fileField));
  document.body.append(form);
  return form.submit();
};

// What was read from it is confirmed, and that is on the disk: the photo has done its work.
shared.dropPhotos = async (form) => {
  const done = (form.elements.waited?.value || "").split(",");
  const seqs = (await shared.toConfirm()).filter((entry) => done.includes(entry.id)).map((entry) => entry.seq);
  if (seqs.length) await shared.store.remove(seqs);
};

// Several photos of one rack add up: beside the field for one more stand those that wait.
async function offerNext(form) {
  const { waited, taken, codes, count, place, photos } = Object.fromEntries(new FormData(form));
  const done = (waited || "").split(",");
  const next = (await shared.toConfirm()).filter((entry) => entry.item.form.action === "/count" && !done.includes(entry.id));
  for (const entry of next) {
    const button = element("button", { type: "button", class: "button quiet wide" }, `Add the photo of ${shared.ago(entry.at)}`);
    const more = { codes, count, place, photos, waited: [...done, entry.id].filter(Boolean).join(","), taken: taken || entry.at };
    button.addEventListener("click", () => shared.goOn(entry, more));
    form.after(button);
  }
}

const another = document.querySelector("form[data-adds]");
if (another && globalThis.indexedDB) setTimeout(() => offerNext(another), 0);
