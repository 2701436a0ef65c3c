// Ids made on the device: UUID version 4 (RFC 9562, 5.4) as 32 hexadecimal digits. randomUUID is missing over plain http.
const shared = (globalThis.rackside ??= {});

shared.newId = () => {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
};
