// UUID version 7 (RFC 9562, 5.7): names that sort by when they were made.
export function uuid7(now: number, bytes: Uint8Array): string {
  const hex = (value: number, digits: number): string => value.toString(16).padStart(digits, '0');
  const b = (at: number): number => bytes[at] ?? 0;
  const time = hex(now, 12);
  const a = hex(0x7000 | (((b(0) << 8) | b(1)) % 0x1000), 4);
  const variant = hex(0x8000 | (((b(2) << 8) | b(3)) & 0x3fff), 4);
  const rest = Array.from(bytes.subarray(4, 10), (byte) => hex(byte, 2)).join('');
  return `${time.slice(0, 8)}-${time.slice(8)}-${a}-${variant}-${rest}`;
}

export function newId(now = Date.now()): string {
  return uuid7(now, crypto.getRandomValues(new Uint8Array(10)));
}
