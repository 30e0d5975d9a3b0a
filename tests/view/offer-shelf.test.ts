/** Whether a line that was taken is still what its source says. */
import { describe, expect, test } from 'vitest';
import { ONE } from '../../src/core/units/index.ts';
import type { LineToTake } from '../../src/graph/index.ts';
import { lineSource, valueSource, type OfferedValues, type SheetWith } from '../../src/view/offer-shelf.ts';

const taken = new Map([['from', 'Class 4'], ['fit', 'line'], ['taken', '2026-11-20'], ['A', '30'], ['data', 'aa']]);
const sheet = (...changes: Readonly<Record<string, string>>[]): SheetWith<LineToTake> => ({
  title: 'Class 4', detail: '', offers: changes.map((change) => ({ fitId: 'line', label: 'A line', snapshot: new Map([...taken, ...Object.entries(change)]) })),
});

describe('the source of a line', () => {
  test.each<[string, readonly SheetWith<LineToTake>[], ReturnType<typeof lineSource>['state'], boolean | undefined]>([
    ['is not here', [], 'not here', undefined],
    ['has another title', [sheet({ from: 'Class 5' })], 'not here', undefined],
    ['has another fit', [sheet({ fit: 'other' })], 'not here', undefined],
    ['has no line at the moment', [{ title: 'Class 4', detail: '', offers: [{ fitId: 'line', label: 'A line', trouble: 'Too few.' }] }], 'not here', undefined],
    ['says the same on another day', [sheet({ taken: '2026-12-01' })], 'same', undefined],
    ['has other tests', [sheet({ data: 'bb', A: '31' })], 'changed', true],
    ['draws the line otherwise', [sheet({ A: '31' })], 'changed', false],
    ['is one of two of that title', [sheet({ data: 'bb' }), sheet({})], 'same', undefined],
  ])('%s', (_what, sheets, state, tests) => {
    const now = lineSource(taken, sheets);
    expect(now.state).toBe(state);
    expect(now.state === 'changed' ? now.news.tests : undefined).toBe(tests);
  });
});

const value = (text: string, { symbol = 'K_t', isInvented = false } = {}) => ({ symbol, label: 'A factor', text, unit: ONE, isInvented, correlated: new Map() });
const offering = (offer: Partial<OfferedValues>): SheetWith<OfferedValues> => ({
  title: 'Specimen', detail: '', offers: [{ from: 'Specimen', specimen: 'PS-11', on: '2026-11-25', values: [value('1.64 ± 0.03')], symbols: new Set(['K_t']), trouble: new Map(), ...offer }],
});

describe('the source of a value', () => {
  const kept = new Map([['from', 'Specimen'], ['specimen', 'PS-11'], ['symbol', 'K_t'], ['on', '2026-11-20'], ['value', '1.64 ± 0.03']]);
  test.each<[string, readonly SheetWith<OfferedValues>[], string]>([
    ['is not here', [], 'not here'],
    ['is that of another specimen', [offering({ specimen: 'PS-12' })], 'not here'],
    ['has no value at the moment', [offering({ values: [] })], 'not here'],
    ['says the same on another day', [offering({})], 'same'],
    ['says something else', [offering({ values: [value('1.70 ± 0.03')] })], 'changed'],
    ['says the same, but of an invented example', [offering({ values: [value('1.64 ± 0.03', { isInvented: true })] })], 'changed'],
    ['is one of two, and one says the same', [offering({ values: [value('1.70 ± 0.03')] }), offering({})], 'same'],
  ])('%s', (_what, sheets, state) => expect(valueSource(kept, sheets).state).toBe(state));
});
