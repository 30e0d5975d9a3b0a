/**
 * SHA-256 of bytes, hexadecimal (FIPS 180-4). The browser's own stands in a secure context alone: over plain http in a laboratory's network no altered sheet would be
 * told.
 */
export function sha256(bytes: Uint8Array): string {
  const state = INITIAL.slice();
  const view = new DataView(padded(bytes).buffer);
  const words = new Uint32Array(64);
  for (let block = 0; block < view.byteLength; block += 64) {
    for (let i = 0; i < 64; i++) words[i] = i < 16 ? view.getUint32(block + 4 * i) : scheduled(words, i);
    compress(state, words);
  }
  return [...state].map((word) => word.toString(16).padStart(8, '0')).join('');
}

const PRIMES = primes(64);
/** The first 32 bits of the fractional parts of roots of the first primes (4.2.2, 5.3.3). */
const fraction = (root: number): number => Math.floor((root - Math.floor(root)) * 2 ** 32);
const INITIAL = Uint32Array.from(PRIMES.slice(0, 8), (prime) => fraction(Math.sqrt(prime)));
const CONSTANTS = Uint32Array.from(PRIMES, (prime) => fraction(Math.cbrt(prime)));

function primes(count: number): number[] {
  const found: number[] = [];
  for (let candidate = 2; found.length < count; candidate++) if (found.every((prime) => candidate % prime !== 0)) found.push(candidate);
  return found;
}

/** A one, zeros, and the length in bits in 64 of them, to whole blocks (5.1.1). */
function padded(bytes: Uint8Array): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(Math.ceil((bytes.length + 9) / 64) * 64);
  whole.set(bytes);
  whole[bytes.length] = 0x80;
  const view = new DataView(whole.buffer);
  view.setUint32(whole.length - 8, Math.floor(bytes.length / 2 ** 29));
  view.setUint32(whole.length - 4, (bytes.length * 8) >>> 0);
  return whole;
}

const turned = (word: number, by: number): number => (word >>> by) | (word << (32 - by));

/** A further word of the schedule (6.2.2, step 1). */
function scheduled(words: Uint32Array, i: number): number {
  const [before, late] = [words[i - 15] ?? 0, words[i - 2] ?? 0];
  const small = turned(before, 7) ^ turned(before, 18) ^ (before >>> 3);
  const large = turned(late, 17) ^ turned(late, 19) ^ (late >>> 10);
  return (words[i - 16] ?? 0) + small + (words[i - 7] ?? 0) + large;
}

/** One block (6.2.2, steps 2 to 4); the letters are those of the standard. */
function compress(state: Uint32Array, words: Uint32Array): void {
  let [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = state;
  for (let i = 0; i < 64; i++) {
    const first = (h + (turned(e, 6) ^ turned(e, 11) ^ turned(e, 25)) + ((e & f) ^ (~e & g)) + (CONSTANTS[i] ?? 0) + (words[i] ?? 0)) | 0;
    const second = ((turned(a, 2) ^ turned(a, 13) ^ turned(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + first) | 0, c, b, a, (first + second) | 0];
  }
  [a, b, c, d, e, f, g, h].forEach((word, i) => (state[i] = (state[i] ?? 0) + word));
}
