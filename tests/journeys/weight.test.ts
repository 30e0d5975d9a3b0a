/** What the page weighs, by its parts: each has a budget, so that what grows is seen by whoever lets it grow. `npm run bench -- weight` says by library and folder what is in them. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { builtPage } from './harness.ts';

const served = join(dirname(builtPage), 'served');
const packed = (content: Uint8Array): number => gzipSync(content, { level: 9 }).length / 1000;

/** Most that a part may weigh, deflated, kB: what was reached in November 2026 and 2 % for what is added without a thought. */
const budgets: Readonly<Record<string, number>> = {
  main: 460, charts: 110.5, katex: 71.8, lecture: 10.9, 'teams-desk': 11.2, panels: 25.2, 'start-texts': 83, 'sampling-worker': 23.6, collecting: 14.9, 'take-away': 8.9, archive: 1.1, 'team-files': 0.46,
};

test('no part is heavier than its budget, and each has one', () => {
  const weights = Object.fromEntries(readdirSync(join(served, 'parts')).map((file) => [file.replace(/-[0-9a-f]{10}\.js$/, ''), packed(readFileSync(join(served, 'parts', file)))]));
  expect(Object.keys(weights).toSorted()).toEqual(Object.keys(budgets).toSorted());
  expect(Object.entries(weights).filter(([name, weight]) => weight > (budgets[name] ?? 0))).toEqual([]);
  // A budget far above what is there holds nothing.
  expect(Object.entries(weights).filter(([name, weight]) => weight < 0.9 * (budgets[name] ?? 0))).toEqual([]);
});

test('what a visitor waits for, and the page as one file, stay within theirs', () => {
  const page = readFileSync(join(served, 'index.html'));
  const main = readdirSync(join(served, 'parts')).find((file) => file.startsWith('main-')) ?? '';
  expect(packed(page)).toBeLessThan(106);
  expect(packed(page) + packed(readFileSync(join(served, 'parts', main)))).toBeLessThan(568);
  expect(readFileSync(builtPage).length).toBeLessThan(1_751_000);
});
