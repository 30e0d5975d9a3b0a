import { deflateRawSync } from 'node:zlib';

/** Bytes as digits to the base of 85, as `first-script.ts` reads them. */
function inDigits(bytes: Uint8Array): string {
  const padded = Buffer.concat([bytes, Buffer.alloc(3)]);
  const groups: string[] = [];
  for (let at = 0; at < bytes.length; at += 4) {
    const value = padded.readUInt32BE(at);
    const digits = [85 ** 4, 85 ** 3, 85 ** 2, 85, 1].map((place) => Math.floor(value / place) % 85);
    groups.push(String.fromCharCode(...digits.map((digit) => (digit === 20 ? 33 : digit + 40))));
  }
  return groups.join('').slice(0, Math.ceil(bytes.length * 5 / 4));
}

/** A text deflated and written in digits. */
export function packed(text: string): string {
  return inDigits(deflateRawSync(text, { level: 9 }));
}
