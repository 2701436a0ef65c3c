// Sends what waits, oldest first, a batch at a time. Nothing leaves the device before the door has said what became of it.
const shared = (globalThis.rackside ??= {});
const MOST = 200;
const MOST_LETTERS = 3e6;

function batchOf(waiting) {
  const batch = [];
  let letters = 0;
  for (const entry of waiting) {
    letters += entry.letters || 500;
    if (batch.length && (batch.length >= MOST || letters > MOST_LETTERS)) break;
    batch.push(entry);
  }
  return batch;
}

// A turn whose PIN was checked, right or wrong, is done with; one that has to wait stays.
async function settleTurns(said) {
  const over = new Set(said.filter((one) => one.state !== "later").map((one) => one.handle));
  await shared.store.change("turns", (kept = []) => kept.filter((one) => !over.has(one.handle)));
  for (const { state, handle } of said) if (state === "refused") shared.tellRefused(handle);
}

async function settle(batch, replies) {
  const byId = new Map(replies.map((reply) => [reply.id, reply]));
  const done = batch.filter((entry) => ["accepted", "known"].includes(byId.get(entry.id)?.state));
  if (done.length) await shared.store.remove(done.flatMap((entry) => [entry.seq, ...(entry.mends || [])]));
  const refused = batch.filter((entry) => byId.get(entry.id)?.state === "refused");
  for (const entry of refused) await shared.store.put({ ...entry, state: "refused", reason: byId.get(entry.id).reason });
  return done.length + refused.length;
}

// An undo of something that was refused has nothing to undo.
async function dropIdleUndos() {
  const all = await shared.store.all();
  const refused = new Set(all.filter((entry) => entry.state === "refused").map((entry) => entry.deed));
  const idle = all.filter((entry) => entry.undoes && refused.has(entry.undoes));
  if (idle.length) await shared.store.remove(idle.map((entry) => entry.seq));
}

async function drain(live, told) {
  const replies = {};
  for (;;) {
    const batch = batchOf((await shared.store.all()).filter((entry) => entry.state === "waiting"));
    if (!batch.length) return { state: "empty", replies };
    let said;
    try {
      said = await shared.send(batch, live, told);
    } catch {
      return { state: "away", replies };
    }
    if (said.status !== 200) {
      const states = { 401: "sign_in", 403: "sign_in", 426: "old" };
      return { state: states[said.status] || "away", sentence: said.error || "", replies };
    }
    for (const reply of said.replies) replies[reply.id] = reply;
    const settled = await settle(batch, said.replies);
    // On a full disk what arrived must still be let go of: whatever else is noted comes after it, and may fail.
    if (said.turns?.length) await settleTurns(said.turns).catch(() => {});
    await shared.store.keep("clock", { sentence: said.clock, skew_s: said.skew_s }).catch(() => {});
    await dropIdleUndos();
    shared.tellOthers();
    if (!settled) return { state: "away", replies };
  }
}

// The browser itself may send it once the network is back, where it can (Background Sync).
function askForSync(result) {
  if (result.state === "away") globalThis.navigator.serviceWorker?.ready.then((one) => one.sync?.register("rackside-outbox")).catch(() => {});
  return result;
}

let turn = Promise.resolve();
// The lock only saves other pages the work: the door takes everything once, however often it is sent.
shared.flush = (live = "", told = "") => {
  const mine = () => (globalThis.navigator.locks ? navigator.locks.request("rackside-outbox", () => drain(live, told)) : drain(live, told));
  turn = turn.then(mine, mine).then(askForSync);
  return turn;
};
