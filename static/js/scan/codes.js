// What a scanned or typed text says, as the shop reads it: our host or a bare code, lookalikes read as what they stand
// for, the last of the seven symbols checking the others (Luhn mod N, N = 32).
const shared = (globalThis.rackside ??= {});
const SYMBOLS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

shared.normaliseCode = (text) => text.toUpperCase().replace(/[\s-]/g, "").replace(/[IL]/g, "1").replace(/O/g, "0");

shared.isCode = (code) => {
  if (!/^[0-9A-HJKMNP-TV-Z]{7}$/.test(code)) return false;
  let total = 0;
  [...code.slice(0, 6)].reverse().forEach((symbol, place) => {
    const value = SYMBOLS.indexOf(symbol) * (place % 2 === 0 ? 2 : 1);
    total += Math.floor(value / 32) + (value % 32);
  });
  return SYMBOLS[(32 - (total % 32)) % 32] === code[6];
};

shared.codeIn = (text, hosts) => {
  const address = /^https?:\/\/([^/:]+)(?::\d+)?\/([^?#/]*)\/?(?:[?#].*)?$/i.exec(text.trim());
  if (address && !hosts.some((host) => host && host.toLowerCase() === address[1].toLowerCase())) return "";
  const code = shared.normaliseCode(address ? address[2] : text);
  return shared.isCode(code) ? code : "";
};
