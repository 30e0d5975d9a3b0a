/** Bytes as text and back. Written here because this layer has neither a browser's functions for it nor Node's. */

const SIGNS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
const VALUES = new Uint8Array(128).fill(64);
for (let i = 0; i < SIGNS.length; i++) VALUES[SIGNS.charCodeAt(i)] = i;

/** Base64 without line breaks. @source RFC 4648, section 4 */
export function writeBase64(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let at = 0; at < bytes.length; at += 3) {
    const [a = 0, b, c] = [bytes[at], bytes[at + 1], bytes[at + 2]];
    const group = (a << 16) | ((b ?? 0) << 8) | (c ?? 0);
    const sign = (shift: number): string => SIGNS.charAt((group >> shift) & 63);
    parts.push(sign(18) + sign(12) + (b === undefined ? '=' : sign(6)) + (c === undefined ? '=' : sign(0)));
  }
  return parts.join('');
}

/** The bytes of base64 without white space; undefined where it is none. @source RFC 4648, section 4 */
export function readBase64(text: string): Uint8Array | undefined {
  if (text.length % 4 !== 0) return undefined;
  const length = text.endsWith('==') ? text.length - 2 : text.endsWith('=') ? text.length - 1 : text.length;
  const bytes = new Uint8Array(Math.floor((length * 3) / 4));
  let left = 0;
  let bits = 0;
  let to = 0;
  for (let at = 0; at < length; at++) {
    const value = VALUES[text.charCodeAt(at)] ?? 64;
    if (value === 64) return undefined;
    left = ((left << 6) | value) & 0xffff;
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    bytes[to++] = (left >> bits) & 0xff;
  }
  return bytes;
}
