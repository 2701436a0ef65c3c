// The till's list on the phone: {ids, base, typed}. base: what the shop had on the till when it was last in reach; ids:
// what is on it now; typed: what was filled in, by field name. What differs is told to the shop when it is in reach again.
const shared = (globalThis.rackside ??= {});
const NOTHING = { ids: [], base: [], typed: {} };

shared.till = { read: async () => ({ ...NOTHING, ...(await shared.store.kept("till")) }) };

shared.till.change = (change) => shared.store.change("till", (kept) => {
  const till = { ...NOTHING, ...kept };
  return { ...till, ...change(till) };
});

shared.till.put = (id) => shared.till.change(({ ids }) => ({ ids: [...new Set([...ids, id])] }));

// Without an id: all of them.
shared.till.drop = (id) => shared.till.change(({ ids }) => ({ ids: ids.filter((one) => id && one !== id) }));

shared.till.type = (name, value) => shared.till.change(({ typed }) => ({ typed: { ...typed, [name]: value } }));

// What the shop does not know yet. `here`: the ids on the page that it just gave.
shared.till.news = ({ ids, base }, here) => ({
  put: ids.filter((id) => !base.includes(id) && !here.includes(id)),
  gone: base.filter((id) => !ids.includes(id) && here.includes(id)),
});
