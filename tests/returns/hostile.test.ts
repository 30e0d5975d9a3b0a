/** Returned sheets with anything in their texts: nothing throws, nothing that is no number stands in what is said of them, and what came before changes nothing. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { ok } from '../../src/core/problem/index.ts';
import { askedIn, classCsv, createGatherer, DEFAULT_SCHEME, feedbackFor, NONE_BY_HAND, otherFormulas, pooled, poolCsv, sameReadings, spreads, type ReturnedSheet } from '../../src/returns/index.ts';
import { hostileSheet } from '../hostile-sheet.ts';
import { FORMULAS, mutate, SHEETS, VALUES } from '../report/mutants.ts';
import { simulatedTeam } from '../simulated-class.ts';
import { cases } from '../sizes.ts';

const change = fc.record({ cell: fc.nat({ max: 999 }), place: fc.nat({ max: 999 }), text: fc.constantFrom(...VALUES), formula: fc.constantFrom(...FORMULAS) });

function judgedAfter(before: readonly string[], text: string): ReturnedSheet | undefined {
  const { take, explainNext } = createGatherer();
  let all = take({ name: 'x.md', text: ok(text), isAltered: false });
  if (before.length > 0) {
    const behind = createGatherer();
    before.forEach((one, i) => behind.take({ name: `${i}.md`, text: ok(one), isAltered: false }));
    all = behind.take({ name: 'x.md', text: ok(text), isAltered: false });
    for (let next = behind.explainNext(); next !== undefined; next = behind.explainNext()) all = next;
  } else for (let next = explainNext(); next !== undefined; next = explainNext()) all = next;
  return all.sheets.at(-1);
}

/** All that is said of a class. */
function saidOf(sheets: readonly ReturnedSheet[]): string {
  const marking = { scheme: DEFAULT_SCHEME, byHand: NONE_BY_HAND };
  const words = [
    classCsv(sheets, marking), poolCsv(pooled(sheets)), ...[...feedbackFor(sheets, sheets, { ...marking, tellsResults: true })].map(({ html }) => html),
    JSON.stringify([askedIn(sheets), otherFormulas(sheets).map(({ names }) => names), sameReadings(sheets).map(({ symbols }) => symbols)]),
    ...spreads(sheets).map(({ median, scale }) => `${median} ${scale}`),
  ];
  return words.join('\n');
}

const team = simulatedTeam(1).text;

test('sheets with up to three of their texts changed', () => {
  fc.assert(fc.property(fc.constantFrom(team, ...SHEETS), fc.array(change, { minLength: 1, maxLength: 3 }), (sheet, changes) => {
    const text = mutate(sheet, changes);
    const [alone, behind] = [judgedAfter([], text), judgedAfter([team], text)];
    expect({ ...behind, id: '' }).toEqual({ ...alone, id: '' });
    const sheets = [alone, { ...alone, id: '2' }, judgedAfter([], team)].filter((one): one is ReturnedSheet => one !== undefined);
    // What was typed may be any word: it stands there as typed.
    const typed = new Set(sheets.flatMap(({ values, answers }) => [...values.map((one) => one.typed), ...answers.map((one) => one.typed)]));
    const said = [...typed].reduce((all, one) => (one === '' ? all : all.replaceAll(one, '')), saidOf(sheets));
    expect(said.match(/.{0,40}(?:NaN|\bundefined\b|\[object).{0,40}/)).toBeNull();
  }), { numRuns: cases(60), seed: 20261130 });
});

test('words that try to turn what stands beside them, and markup, become text', () => {
  const sheets = [judgedAfter([], hostileSheet(team)), judgedAfter([], team.replaceAll('label: ', 'label: <img src=x onerror=hit()> '))].filter((one): one is ReturnedSheet => one !== undefined);
  expect(sheets.length).toBe(2);
  expect(saidOf(sheets).replace(/&lt;img/g, '').split('\n').filter((line) => line.startsWith('<') && /<img|<script/.test(line))).toEqual([]);
});
