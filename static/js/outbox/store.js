// What waits on this device, in IndexedDB. An entry is on the disk before anybody is told that it is kept.
// Entry: {seq, id, state: 'waiting' | 'refused' | 'photo', reason, label, page, at, item}. item is what the door is sent;
// undoes: a deed; typed: the form that events were typed in; mends: the refused entries that it takes the place of.
const shared = (globalThis.rackside ??= {});
const LARGE_LETTERS = 100000;
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

// A write that finds no room may leave the browser counting what it refused as if it were there, until something is
// written; to delete is never refused, even what is not there. Then room is made, and the write is tried again.
async function firmly(name, work, makeRoom = shared.makeRoom) {
  for (let tries = 0; ; tries += 1) {
    try {
      return await within(name, "readwrite", work);
    } catch (error) {
      if (error.name !== "QuotaExceededError") throw error;
      await within(name, "readwrite", (store) => store.delete(0));
      if (tries && !(await makeRoom())) throw error;
    }
  }
}

const noRoom = async () => false;

shared.store = {
  // All of them or none; each is given its seq. Nothing is let go of for a picture: it would take the place of all pages.
  add: async (entries) => {
    let requests;
    const large = entries.some((entry) => entry.letters > LARGE_LETTERS);
    await firmly("outbox", (store) => { requests = entries.map((entry) => store.add(entry)); }, large ? noRoom : shared.makeRoom);
    requests.forEach((request, number) => { entries[number].seq = request.result; });
  },
  put: (entry) => firmly("outbox", (store) => store.put(entry)),
  all: () => within("outbox", "readonly", (store) => store.getAll()),
  remove: (seqs) => within("outbox", "readwrite", (store) => { for (const seq of seqs) store.delete(seq); }),
  keep: (key, value) => firmly("kept", (store) => store.put(value, key), noRoom),
  kept: (key) => within("kept", "readonly", (store) => store.get(key)),
  // What is kept under a key becomes what `change` makes of it, in one go, so that neither another change nor leaving the
  // page comes between reading and writing.
  change: async (key, change) => {
    let changed;
    await firmly("kept", (store) => {
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
// The other pages, and this one: a channel brings nobody what he said himself.
shared.tellOthers = () => {
  shared.changed.postMessage("changed");
  shared.drawBanner?.();
  shared.drawWaiting?.();
};
