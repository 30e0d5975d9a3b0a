import { expect, it } from 'vitest';
import { presentWatch, runningTests } from '../../src/report/index.ts';
import { parseSheet } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';
import { contextOf, fenced, given } from './sheet-at.ts';

it('nothing has to be watched on the shipped sheets', async () => {
  for (const name of ['rotating-bending', 'alternating-bending', 'sn-line', 'staircase']) {
    expect(presentWatch(await contextOf(shipped(name)))).toEqual([]);
  }
});

it('a symbol that stands twice is told once, with a way to the first cell', async () => {
  const twice = given('W', '300 N', 'N') + fenced('step', 'symbol: W', 'formula: 2*a', 'unit: N') + given('a', '1 N', 'N');
  expect(presentWatch(await contextOf(twice))).toEqual([{ cellId: 'W', words: 'W stands in more than one cell' }]);
});

it('rows that can not be read are counted, and a test that runs is found', async () => {
  const line = shipped('sn-line').replace(/,fracture$/m, ',fractur');
  expect(presentWatch(await contextOf(line))).toEqual([{ cellId: 'specimens', words: expect.stringMatching(/^1 row left out of “/) }]);
  const begun = (...more: readonly string[]): string => shipped('rotating-bending').replace(/(```record\n)/, `$1${['started: 2026-11-20T09:00:00Z', ...more].join('\n')}\n`);
  const found = (text: string): readonly string[] => runningTests(parseSheet(text)).map(({ id }) => id);
  expect(found(begun())).toEqual(['test']);
  expect(found(begun('pauses:', '  - from: 2026-11-20T09:10:00Z'))).toEqual(['test']);
  expect([found(shipped('rotating-bending')), found(begun('ended: 2026-11-20T10:00:00Z'))]).toEqual([[], []]);
});

it('trial values are told, with the way to the first', async () => {
  const sheet = shipped('rotating-bending').replace('symbol: s_1\n', 'symbol: s_1\ntrial: 105 mm\n');
  expect(presentWatch(await contextOf(sheet))).toEqual([{ cellId: 's_1', words: 'A trial value stands' }]);
});
