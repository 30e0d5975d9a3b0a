/**
 * A seed from a text, the same on every machine: 32 bits of its UTF-8 bytes.
 * @source FNV-1a by Fowler, Noll and Vo, RFC 9923; offset basis and prime from memory.
 */
export function seedOfText(text: string): number {
  let hash = 0x811c9dc5;
  const take = (byte: number): void => {
    hash = Math.imul(hash ^ byte, 0x01000193);
  };
  for (const sign of text) for (const byte of bytesOf(sign.codePointAt(0) ?? 0)) take(byte);
  return hash >>> 0;
}

/** A code point in UTF-8; half a pair is written as one would be. */
function bytesOf(code: number): readonly number[] {
  if (code < 0x80) return [code];
  const last = (shift: number): number => 0x80 | ((code >> shift) & 0x3f);
  if (code < 0x800) return [0xc0 | (code >> 6), last(0)];
  return code < 0x10000 ? [0xe0 | (code >> 12), last(6), last(0)] : [0xf0 | (code >> 18), last(12), last(6), last(0)];
}
