/** What each team is told: its verdicts, points and hints; a result only where the instructor tells it; nothing of a team's becomes markup. */
import { describe, expect, test } from 'vitest';
import { ok } from '../../src/core/problem/index.ts';
import { classCsv, createGatherer, DEFAULT_SCHEME, feedbackFor, pointsOf, askedIn, readScheme, sheetsShown, unansweredIn, writtenScheme, type Look, type Marking, type MarkingScheme } from '../../src/returns/index.ts';
import { PLANTED, simulatedClass } from '../simulated-class.ts';

const gatherer = createGatherer();
for (const { number, text } of simulatedClass()) gatherer.take({ name: `team-${number}.md`, text: ok(text), isAltered: false });
let { sheets } = gatherer.take({ name: 'team-1 again.md', text: ok(simulatedClass(1)[0]?.text ?? ''), isAltered: false });
for (let next = gatherer.explainNext(); next !== undefined; next = gatherer.explainNext()) ({ sheets } = next);
const team = (number: number): string => `T${String(number).padStart(2, '0')}`;

/** Two for the reaction, one for the moment, three for the stress; what is carried forward counts half. */
const SCHEME: MarkingScheme = { points: new Map([['R_A', 2], ['sigma_a', 3]]), carried: 0.5, fewDigits: 0.25 };
const MARKING: Marking = { scheme: SCHEME, byHand: new Map([['2', new Map([['M_s', 0.25]])]]) };

function told(number: number, tellsResults: boolean): string {
  const html = [...feedbackFor(sheets, sheets, { ...MARKING, tellsResults })][number - 1]?.html ?? '';
  return html.replace(/<(style|head)[\s\S]*?<\/\1>/g, '').replace(/<[^>]*>/g, ' ').replace(/[\s\u200a\u202f\u00a0\u2066-\u2069]+/g, ' ');
}

describe('points', () => {
  test('by the scheme: worked out by hand for each planted mistake', () => {
    const of = (number: number): readonly number[] => {
      const sheet = sheets[number - 1];
      if (sheet === undefined) return [];
      const { bySymbol, total } = pointsOf(sheet, MARKING, askedIn(sheets));
      return [...bySymbol.values(), total];
    };
    expect(of(1)).toEqual([2, 1, 3, 6]);
    // What was given by hand stands before the scheme.
    expect(of(2)).toEqual([2, 0.25, 3, 5.25]);
    expect(of(PLANTED.radius)).toEqual([2, 1, 0, 3]);
    expect(of(PLANTED.carried)).toEqual([0, 0.5, 1.5, 2]);
    expect(of(PLANTED.fewDigits)).toEqual([0.5, 1, 3, 4.5]);
    expect(of(PLANTED.unreadable)).toEqual([2, 0, 3, 5]);
    expect(of(PLANTED.open)).toEqual([0, 0, 0, 0]);
  });

  test('a scheme is kept and comes back; what is none of its numbers is left out', () => {
    expect(readScheme(JSON.parse(JSON.stringify(writtenScheme(SCHEME))))).toEqual(SCHEME);
    for (const damaged of [undefined, null, 5, [], { points: 'many', carried: 7, fewDigits: 'none' }, { points: [['R_A', -1], ['M_s', Number.NaN], [3, 4], 'x'] }]) expect(readScheme(damaged)).toEqual(DEFAULT_SCHEME);
  });
});

test('where all of a sheet is asked, what nobody has answered counts for nothing, and what somebody has counts for all', () => {
  const whole = createGatherer();
  const all = [PLANTED.open, 1].map((number) => whole.take({ name: `${number}.md`, text: ok(simulatedClass(PLANTED.open)[number - 1]?.text.replace('own_working: false', 'own_working: true') ?? ''), isAltered: false })).at(-1)?.sheets ?? [];
  expect([all.length, askedIn(all).map(({ symbol }) => symbol)]).toEqual([2, ['R_A', 'M_s', 'sigma_a']]);
  expect(unansweredIn(all).length).toBeGreaterThan(10);
  expect(all.map((sheet) => pointsOf(sheet, MARKING, askedIn(all))).map(({ total, outOf }) => [total, outOf])).toEqual([[0, 6], [5.25, 6]]);
});

describe('feedback', () => {
  test('tells a wrong result what it comes of, and not what it is, unless that is wanted', () => {
    expect(told(PLANTED.radius, false)).toMatch(/Points: 3 of 6/);
    expect(told(PLANTED.radius, false)).toMatch(/Nominal stress amplitude, .*2976 MPa Wrong\. It comes of: the radius[^<]* 0 of 3/);
    expect(told(PLANTED.radius, false)).not.toMatch(/times the sheet|372\.\d/);
    expect(told(PLANTED.radius, true)).toMatch(/Yours is 8\.00 times the sheet’s\..*The sheet has 372\.\d ± \d\.\d MPa/);
  });

  test('names a value far from the class’s', () => {
    expect(told(PLANTED.wrongDiameter, false)).toMatch(/Minimum diameter, read around the bar: yours is 9\.5\d* mm, the class’s median 7\.52\d? mm\./);
    expect(told(1, false)).not.toMatch(/the class’s median/);
  });

  test('a hostile name stays text', () => {
    const html = [...feedbackFor(sheets, sheets, { ...MARKING, tellsResults: true })][PLANTED.hostile - 1]?.html ?? '';
    expect(html).toContain('&lt;img');
    expect(html).not.toMatch(/<img|<script/);
  });
});

describe('the table', () => {
  const look = (change: Partial<Look>): readonly string[] =>
    sheetsShown(sheets, { find: '', only: 'all', by: 'team', isDown: false, ...change }, MARKING).map(({ head }) => head.team);

  test('is put in order, what has none last whichever way, and looked through', () => {
    expect(look({ by: 'points' })[0]).toBe(team(PLANTED.open));
    expect(look({ by: 'value d', isDown: true })[0]).toBe(team(PLANTED.wrongDiameter));
    expect(look({ by: 'answer sigma_a' }).slice(0, 2).toSorted()).toEqual([team(PLANTED.radius), team(PLANTED.range)]);
    expect(look({ only: 'something wrong' })).toEqual([PLANTED.radius, PLANTED.range, PLANTED.carried, PLANTED.unreadable, PLANTED.otherFormula].map(team));
    expect(look({ find: 'about fifteen' })).toEqual([team(PLANTED.unreadable)]);
    expect(look({ by: 'life' })[0]).toBe('T01');
  });

  test('as CSV has a line for each sheet, quantities as plain numbers, and no field that a spreadsheet would reckon', () => {
    const lines = classCsv(sheets, MARKING).trim().split('\r\n');
    expect(lines.length).toBe(31);
    const heads = (lines[0] ?? '').split(',');
    const first = new Map((lines[1] ?? '').split(/,(?=(?:[^"]*"[^"]*")*[^"]*$)/).map((field, i) => [heads[i], field]));
    expect(['Team', 'd [mm]', 'sigma_a is', 'sigma_a points', 'Points', 'Points out of'].map((head) => first.get(head))).toEqual(['T01', expect.stringMatching(/^7\.5\d*$/), 'right', '3', '6', '6']);
    const harm = classCsv(sheets.map((sheet) => ({ ...sheet, head: { ...sheet.head, team: '=1+1' } })), MARKING);
    expect(harm).not.toMatch(/^=|,=/m);
  });
});
