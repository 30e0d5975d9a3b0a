import { expect, test } from 'vitest';
import { beginningOf } from '../../src/view/long-text.ts';

test('a text is shown whole up to fifty thousand characters, beyond that up to the end of a line, else of a word', () => {
  expect(beginningOf('x'.repeat(50_000))).toEqual({ shown: 'x'.repeat(50_000), left: 0 });
  const lines = beginningOf('a line of a text\n'.repeat(10_000));
  expect([lines.shown.length, lines.shown.endsWith('text'), lines.left]).toEqual([17 * 2941 - 1, true, 170_000 - 17 * 2941 + 1]);
  const words = beginningOf('word '.repeat(20_000));
  expect([words.shown.endsWith('word'), words.shown.length + words.left]).toEqual([true, 100_000]);
  expect(beginningOf(`# Heading\n${'word '.repeat(20_000)}`).shown.length).toBeGreaterThan(49_000);
  expect(beginningOf(`z${'𝜎'.repeat(30_000)}`).shown.length).toBe(49_999);
  expect(beginningOf('y'.repeat(60_000))).toEqual({ shown: 'y'.repeat(50_000), left: 10_000 });
});
