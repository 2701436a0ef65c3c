// What is said about a deed that waits, at the top of the page, with the way back.
const shared = (globalThis.rackside ??= {});

shared.element = (name, attributes = {}, ...inside) => {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) if (value !== null) made.setAttribute(key, value);
  made.append(...inside);
  return made;
};

function show(notice) {
  document.querySelector("[data-notice]")?.remove();
  notice.dataset.notice = "";
  document.getElementById("main").prepend(notice);
  notice.scrollIntoView({ block: "nearest" });
}

shared.say = (sentence, bad = false) => show(shared.element("div", { class: bad ? "flash error" : "flash", role: bad ? "alert" : "status" }, shared.element("p", {}, sentence)));

shared.sayDone = (entries, result) => {
  const refused = entries.map((entry) => result.replies[entry.id]).find((reply) => reply?.state === "refused");
  if (refused) return shared.say(`Not taken: ${refused.reason}`, true);
  if (!entries.every((entry) => result.replies[entry.id])) return shared.sayKept(entries, result);
  return withUndo(entries, `Done: ${entries[0].label}.`);
};

shared.sayKept = (entries, result, more = "") => {
  const why = { sign_in: "Sign in, and it is sent.", old: result.sentence }[result.state] || "It is sent when the shop is in reach.";
  withUndo(entries, `Kept on this phone: ${entries[0].label}. ${why}${more}`, result.state === "sign_in");
};

function withUndo(entries, sentence, mustSignIn = false) {
  const text = shared.element("p", { role: "status" }, sentence);
  const back = shared.element("button", { type: "button", class: "button" }, "Undo");
  back.addEventListener("click", async () => {
    back.disabled = true;
    await shared.undoEntries(entries);
    await shared.flush();
    shared.say("Undone.");
    shared.undone?.(entries);
  }, { once: true });
  const inside = [text, back];
  if (mustSignIn) inside.push(shared.element("a", { class: "button", href: `/sign-in?person=&next=${encodeURIComponent(location.pathname + location.search)}` }, "Sign in"));
  show(shared.element("div", { class: "undo" }, ...inside));
}

shared.inReach = async () => {
  try {
    return (await fetch("/healthz", { cache: "no-store", signal: AbortSignal.timeout(3000) })).ok;
  } catch {
    return false;
  }
};

shared.ago = (moment) => {
  const minutes = Math.max(0, Math.round((Date.now() - new Date(moment)) / 60000));
  if (minutes < 1) return "just now";
  if (minutes < 60) return `${minutes} min ago`;
  if (minutes < 2880) return `${Math.round(minutes / 60)} h ago`;
  return `${Math.round(minutes / 1440)} days ago`;
};
