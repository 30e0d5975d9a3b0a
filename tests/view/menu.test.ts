import { describe, expect, test } from 'vitest';
import { NEW_BLOCKS } from '../../src/view/new-blocks.ts';
import { LINE_ACTIONS } from '../../src/view/menu.ts';

type Entry = readonly [name: string, letter: string, words: string];
const actions = Object.entries(LINE_ACTIONS).map(([name, { letter, words }]): Entry => [name, letter, words]);
const blocks = NEW_BLOCKS.map(({ what, letter, words }): Entry => [what, letter, words]);

describe.each([['what can be done with a line', actions], ['what can be added', blocks]] as const)('the menu of %s', (_name, entries) => {
  test.each(entries.map((entry) => [...entry] as [string, string, string]))('%s has a letter of its own words: %s in “%s”', (_what, letter, words) => {
    expect(words.toUpperCase()).toContain(letter);
    expect(letter).toMatch(/^[A-Z]$/);
  });

  test('no letter stands for two that are there together', () => {
    // A line has one light or several, never both.
    const letters = entries.filter(([what]) => what !== 'lights').map(([, letter]) => letter);
    expect(new Set(letters).size).toBe(letters.length);
  });
});
