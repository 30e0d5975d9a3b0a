import { expect, it } from 'vitest';
import { readOptions } from '../../src/solve/options.ts';

it('refuses an empty seed, as a shell variable that was never set leaves it, rather than drawing with seed 0', () => {
  expect(() => readOptions(['sheet.md', '--seed', ''])).toThrow('--seed takes a whole number from 0');
  expect(readOptions(['sheet.md', '--seed', '0']).seed).toBe(0);
});
