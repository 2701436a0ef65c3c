// What is let go of when a deed finds no room on the phone: pages that were read, the oldest first. They come back with
// the signal; a deed does not.
const shared = (globalThis.rackside ??= {});
const PAGES = "rackside-pages";

// Resolves with whether there was anything to let go of.
shared.makeRoom = async () => {
  if (!(await globalThis.caches?.has(PAGES))) return false;
  const pages = await caches.open(PAGES);
  const all = await pages.keys();
  for (const page of all.slice(0, Math.ceil(all.length / 4))) await pages.delete(page);
  return all.length > 0;
};
