/** Test vectors of FNV-1a, 32 bits, as its authors publish them; from memory. */
import { expect, test } from 'vitest';
import { seedOfText } from '../../../src/core/numeric/index.ts';

test.each([['', 0x811c9dc5], ['a', 0xe40c292c], ['b', 0xe70c2de5], ['foobar', 0xbf9cf968]])('the seed of “%s”', (text, hash) => {
  expect(seedOfText(text)).toBe(hash);
});

test('bytes are those of UTF-8, as Node writes them', () => {
  const byBytes = (text: string): number => [...Buffer.from(text, 'utf8')].reduce((hash, byte) => Math.imul(hash ^ byte, 0x01000193), 0x811c9dc5) >>> 0;
  for (const text of ['Müller', 'Ωμέγα', '試験班', '🙂 T1', 'a\u0301']) expect(seedOfText(text)).toBe(byBytes(text));
});
