// One batch to the door. Resolves with what the door said; rejects when it was not reached, or its answer was lost.
const shared = (globalThis.rackside ??= {});
const SHAPE = 1;
const PATIENCE_MS = 20000;

shared.send = async (entries, live = "", told = "") => {
  const turns = (await shared.store.kept("turns")) || [];
  const body = JSON.stringify({ shape: SHAPE, now: new Date().toISOString(), live, told, turns, items: entries.map((entry) => entry.item) });
  const giveUp = new AbortController();
  const timer = setTimeout(() => giveUp.abort(), PATIENCE_MS);
  try {
    const answer = await fetch("/outbox", {
      method: "POST", body, signal: giveUp.signal, credentials: "same-origin", cache: "no-store", redirect: "error",
      headers: { "Content-Type": "application/json", Accept: "application/json", "X-Rackside": "outbox" },
    });
    const said = await answer.json();
    return { status: answer.status, ...said };
  } finally {
    clearTimeout(timer);
  }
};
