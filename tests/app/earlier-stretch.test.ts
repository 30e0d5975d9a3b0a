import fc from 'fast-check';
import { expect, test } from 'vitest';
import { beginStretch, readStretch, readStretchKey, sizeOf, statesOf, stretchKey, withState, type EarlierState, type Stretch } from '../../src/app/earlier-stretch.ts';

const ID = stretchKey('0b8f6c1e-6d0f-4c52-9f0e-3a7b5d2c1e90', 7);

/** The states in as few stretches as they make. */
function stretchesOf(states: readonly EarlierState[]): Stretch[] {
  const made: Stretch[] = [];
  for (const state of states) {
    const last = made.at(-1);
    const grown = last === undefined ? undefined : withState(last, state);
    if (grown === undefined) made.push(beginStretch(ID, state));
    else made[made.length - 1] = grown;
  }
  return made;
}

test('every state comes back sign by sign, through the form in which it is stored', () => {
  const text = fc.string({ unit: fc.constantFrom('a', 'b', '\n', '±', '\ud835\udf0e'), maxLength: 30 });
  fc.assert(fc.property(fc.array(text, { minLength: 1, maxLength: 20 }), (texts) => {
    const states = texts.map((one, i) => ({ at: 1000 * i, revision: i + 1, text: one }));
    const stored = stretchesOf(states).map((stretch) => readStretch(structuredClone(stretch)));
    expect(stored.flatMap((stretch) => (stretch === undefined ? [] : statesOf(stretch)))).toEqual(states);
  }));
});

test('typing into a long text takes little room, and a stretch ends after ten minutes', () => {
  const long = 'photograph '.repeat(20_000);
  const stretches = stretchesOf(Array.from({ length: 60 }, (_, i) => ({ at: 30_000 * i, revision: i + 1, text: `${long}F: ${i} N\n` })));
  expect(stretches.length).toBe(3);
  expect(stretches.reduce((sum, stretch) => sum + sizeOf(stretch), 0)).toBeLessThan(3 * (long.length + 1000));
});

test('a record that is damaged, and a key that names no sheet, are none', () => {
  const good = beginStretch(ID, { at: 1, revision: 1, text: 'x' });
  expect(readStretch(good)).toEqual(good);
  for (const bad of [undefined, null, 'x', [], { ...good, base: 5 }, { ...good, states: {} }, { ...good, states: [{ at: 'now' }] }]) expect(readStretch(bad)).toBeUndefined();
  expect(readStretchKey(ID)).toEqual({ sheet: '0b8f6c1e-6d0f-4c52-9f0e-3a7b5d2c1e90', number: 7 });
  for (const bad of ['', 'x', '/0000000001', `${ID}x`]) expect(readStretchKey(bad)).toBeUndefined();
});
