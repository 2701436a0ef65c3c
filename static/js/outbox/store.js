// What waits on this device, in IndexedDB. An entry is on the disk before anybody is told that it is kept.
// Entry: {seq, id, state: 'waiting' | 'refused', reason, label, page, at, undoes, item}. item is what the door is sent.
const shared = (globalThis.rackside ??= {});
let opening = null;

function open() {
  opening ??= new Promise((resolve, reject) => {
    const request = indexedDB.open("rackside", 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore("outbox", { keyPath: "seq", autoIncrement: true });
      request.result.createObjectStore("kept");
    };
    request.onsuccess = () => {
      request.result.onversionchange = () => request.result.close();
      request.result.onclose = () => { opening = null; };
      resolve(request.result);
    };
    request.onerror = () => reject(request.error);
  });
  opening.catch(() => { opening = null; });
  return opening;
}

async function within(name, mode, work) {
  const database = await open();
  return new Promise((resolve, reject) => {
    const deal = database.transaction(name, mode, { durability: "strict" });
    const request = work(deal.objectStore(name));
    deal.oncomplete = () => resolve(request && request.result);
    deal.onabort = () => reject(deal.error || new Error("not kept"));
  });
}

shared.store = {
  // All of them or none; each is given its seq.
  add: async (entries) => {
    const requests = [];
    await within("outbox", "readwrite", (store) => { for (const entry of entries) requests.push(store.add(entry)); });
    requests.forEach((request, number) => { entries[number].seq = request.result; });
  },
  put: (entry) => within("outbox", "readwrite", (store) => store.put(entry)),
  all: () => within("outbox", "readonly", (store) => store.getAll()),
  remove: (seqs) => within("outbox", "readwrite", (store) => { for (const seq of seqs) store.delete(seq); }),
  keep: (key, value) => within("kept", "readwrite", (store) => store.put(value, key)),
  kept: (key) => within("kept", "readonly", (store) => store.get(key)),
  // What is kept under a key becomes what `change` makes of it, in one go, so that neither another change nor leaving the
  // page comes between reading and writing.
  change: async (key, change) => {
    let changed;
    await within("kept", "readwrite", (store) => {
      store.get(key).onsuccess = ({ target }) => {
        changed = change(target.result);
        store.put(changed, key);
        store.transaction.commit?.();
      };
    });
    return changed;
  },
};

shared.changed = new BroadcastChannel("rackside-outbox");
// A turn whose PIN was wrong is over on every page.
shared.tellRefused = (handle) => {
  shared.changed.postMessage({ refused: handle });
  shared.turnRefused?.(handle);
};
shared.tellOthers = () => {
  shared.changed.postMessage("changed");
  shared.drawBanner?.();
};
