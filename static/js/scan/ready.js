// Whether this phone is ready for work without signal: each thing asked of the phone itself, said in words.
const list = document.getElementById("ready");

function say(name, good, words) {
  const line = list.querySelector(`[data-check="${name}"]`);
  line.dataset.good = String(good);
  line.querySelector("[data-said]").textContent = words;
  return good;
}

async function workerIsThere() {
  if (!navigator.serviceWorker) return say("worker", false, "no: this browser gives it only to a trusted https page");
  try {
    await navigator.serviceWorker.register("/sw.js", { updateViaCache: "none" });
    await Promise.race([navigator.serviceWorker.ready, new Promise((_, reject) => setTimeout(reject, 15000))]);
    return say("worker", true, "yes");
  } catch {
    return say("worker", false, "no: the certificate is not trusted yet");
  }
}

async function storageStays() {
  if (!navigator.storage?.persist) return say("storage", false, "no: this browser cannot promise it");
  const stays = (await navigator.storage.persisted()) || (await navigator.storage.persist());
  return say("storage", stays, stays ? "yes" : "not promised yet: add it to the home screen, open it there, look again");
}

async function look() {
  const secure = say("secure", isSecureContext, isSecureContext ? "yes" : "no: this page came over plain http");
  const app = matchMedia("(display-mode: standalone)").matches || navigator.standalone === true;
  say("app", app, app ? "yes" : "no: it works here too, but phones may clear a page that is not kept as an app");
  const worker = await workerIsThere();
  const storage = await storageStays();
  const missing = [!secure && "trust", !worker && "work without signal", !storage && "storage"].filter(Boolean);
  document.getElementById("verdict").textContent = missing.length ? `Not ready yet. Missing: ${missing.join(", ")}.` : "This phone is ready.";
}

if (list) {
  document.getElementById("look-again").addEventListener("click", look);
  look();
}
