/** Against the examples that NIST gives with the standard (FIPS 180-4: "abc", two blocks, a million letters a) and Node's own. */
import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { sha256 } from '../../src/app/sha-256.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

test('the examples of the standard', () => {
  expect(sha256(bytes('abc'))).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  expect(sha256(bytes('abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq'))).toBe('248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1');
  expect(sha256(bytes('a'.repeat(1e6)))).toBe('cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0');
});

test('every length over three blocks, as Node has it', () => {
  for (let length = 0; length <= 192; length++) {
    const some = Uint8Array.from({ length }, (_none, i) => (i * 151 + length * 7) % 256);
    expect(sha256(some)).toBe(createHash('sha256').update(some).digest('hex'));
  }
});
