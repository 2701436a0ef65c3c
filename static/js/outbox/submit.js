// Every deed goes through the outbox: kept on the device first, then sent, then the page goes on. Without signal it waits.
const shared = (globalThis.rackside ??= {});

function labelOf(form, submitter) {
  if (form.dataset.label) return form.dataset.label;
  const about = document.querySelector("main h1")?.textContent.trim() || document.title;
  const deed = (submitter?.textContent || form.querySelector("button")?.textContent || "Sent").trim();
  return `${deed} · ${about}`.slice(0, 120);
}

function goTo(address) {
  const there = new URL(address || location.href, location.href);
  if (there.pathname + there.search !== location.pathname + location.search) location.assign(there);
  else {
    history.replaceState(null, "", there);
    location.reload();
  }
}

// Deeds promised to this device come with codes, so that plugs made without signal can be labelled by hand.
async function promised(form, field, data) {
  const count = Number(data.get(form.dataset.codes) || 1);
  let found;
  await shared.store.change("codes", (kept = {}) => {
    found = Object.entries(kept).find(([, codes]) => codes.length >= count);
    return Object.fromEntries(Object.entries(kept).filter(([deed]) => deed !== found?.[0]));
  });
  if (!found) return [];
  [field.value] = found;
  return found[1].slice(0, count);
}

async function keep(form, submitter) {
  const field = shared.deedField(form);
  if (form.dataset.kept || document.getElementById("outbox")?.dataset.kept) field.value = shared.newId();
  const codes = form.dataset.codes ? await promised(form, field, new FormData(form)) : [];
  const data = new FormData(form, submitter);
  const label = labelOf(form, submitter);
  const target = new URL(submitter?.getAttribute("formaction") || form.getAttribute("action") || location.href, location.href);
  const action = target.pathname + target.search;
  const more = form.dataset.mends ? { mends: JSON.parse(form.dataset.mends) } : {};
  const events = shared.typedEvents(form, data, new Date());
  const fields = [];
  const files = [];
  for (const [name, value] of data) {
    if (typeof value === "string") { if (name !== "csrf_token") fields.push([name, value]); }
    else if (value.size) files.push(await shared.fileItem(name, value));
  }
  if (events && shared.isTyped(form)) more.typed = { action, fields };
  if (events) return { entries: await shared.addEvents(events, field.value, label, more), codes };
  return { entries: await shared.addForm(action, fields, files, field.value, label, more), codes };
}

function directly(form, submitter) {
  form.dataset.direct = "1";
  delete form.dataset.sentAt;
  form.requestSubmit(submitter);
}

async function deal(form, submitter) {
  let kept;
  try {
    kept = await keep(form, submitter);
  } catch {
    // The disk is full or closed to us: nothing is promised. The form goes the plain way, if there is a way.
    if (await shared.inReach()) return directly(form, submitter);
    delete form.dataset.sentAt;
    submitter?.classList.remove("busy");
    return shared.say("Not kept: the storage of this phone is full and the shop is out of reach. What you typed is still here. Free some of it (pictures, other apps), then send it again.", true);
  }
  await shared.dropPhotos(form);
  const { mends } = form.dataset;
  if (mends) await shared.dropDraft();
  const last = kept.entries.at(-1);
  const told = form.dataset.told || "Done.";
  const result = await shared.flush(last.id, told);
  const reply = result.replies[last.id];
  const still = (await shared.store.all()).filter((entry) => kept.entries.some((one) => one.id === entry.id));
  if (!still.length) return goTo(reply?.location);
  form.dataset.kept = "1";
  delete form.dataset.sentAt;
  submitter?.classList.remove("busy");
  if (still.some((entry) => entry.state === "refused") && still.length === kept.entries.length) {
    await shared.store.remove(still.map((entry) => entry.seq));
    // What was to be put right stays in the list until the shop has it.
    if (mends) return shared.say(`Not taken: ${still[0].reason} What you typed is still here.`, true);
    return directly(form, submitter);
  }
  const codes = kept.codes.length ? ` Write on the plugs, in this order: ${kept.codes.join(", ")}.` : "";
  shared.sayKept(kept.entries, result, codes);
  shared.formKept?.(form);
}

// A form that only the shop itself can read: sent when it is in reach, and else nothing of it is lost.
async function needsShop(form, submitter) {
  if (await shared.inReach()) return shared.dropDraft().catch(() => {}).then(() => directly(form, submitter));
  delete form.dataset.sentAt;
  submitter?.classList.remove("busy");
  if (shared.offline?.some((way) => way(form))) return undefined;
  try {
    if (form.dataset.later) return await shared.keepPhoto(form);
    await shared.keepDraft(form);
  } catch {
    // The disk is full: what was typed is still on the page.
  }
  return shared.say("This needs the shop's computer, and it is out of reach. Nothing was sent; what you typed is still here.", true);
}

document.addEventListener("submit", (event) => {
  const form = event.target;
  // getAttribute: a field called 'method' or 'target' would hide the form's own.
  const posts = form.getAttribute("method")?.toLowerCase() === "post" && !form.getAttribute("target");
  const deed = posts && !("online" in form.dataset) && shared.deedField(form);
  const direct = form.dataset.direct;
  delete form.dataset.direct;
  if (event.defaultPrevented || direct || !shared.session() || !globalThis.indexedDB || (!deed && !posts)) return;
  event.preventDefault();
  if (deed) deal(form, event.submitter);
  else needsShop(form, event.submitter);
});
