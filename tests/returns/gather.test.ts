/** Thirty returns with planted mistakes: what is read of them, what is refused, and that nothing of it is believed or run. */
import { describe, expect, test } from 'vitest';
import { fail, ok } from '../../src/core/problem/index.ts';
import { createGatherer, type Gathered } from '../../src/returns/index.ts';
import { PLANTED, simulatedClass, simulatedTeam } from '../simulated-class.ts';

function gatheredFrom(files: readonly { readonly name: string; readonly text: string }[]): Gathered {
  const { take, explainNext } = createGatherer();
  let all: Gathered | undefined;
  for (const { name, text } of files) all = take({ name, text: ok(text), isAltered: false });
  for (let next = explainNext(); next !== undefined; next = explainNext()) all = next;
  if (all === undefined) throw new Error('no files');
  return all;
}

const teams = simulatedClass();
const all = gatheredFrom(teams.map(({ team, text }) => ({ name: `${team}.md`, text })));
const sheetOf = (number: number) => {
  const sheet = all.sheets[number - 1];
  if (sheet === undefined) throw new Error(`no sheet of team ${number}`);
  return sheet;
};
const verdicts = (number: number): readonly string[] => sheetOf(number).answers.map(({ symbol, verdict }) => `${symbol} ${verdict}`);
const RIGHT = ['R_A agrees', 'M_s agrees', 'sigma_a agrees'];

describe('thirty returns', () => {
  test('teams, specimens and readings as they were entered', () => {
    expect(all.sheets.map(({ head }) => head.team)).toEqual(teams.map(({ team }) => team));
    const { typed, readings, value } = sheetOf(1).values.find(({ symbol }) => symbol === 'd') ?? {};
    expect(typed).toMatch(/^\d\.\d\d, \d\.\d\d, \d\.\d\d, \d\.\d\d mm$/);
    expect(value).toBeCloseTo((readings ?? []).reduce((sum, one) => sum + one, 0) / 4, 12);
    // What is assumed, as g or one half of the load, is nothing that anybody entered.
    expect(sheetOf(1).values.map(({ symbol }) => symbol)).not.toContain('k_F');
  });

  test('own results by textbook statics are right, and each planted mistake is told as what it is', () => {
    const planted = new Set<number>([PLANTED.radius, PLANTED.range, PLANTED.carried, PLANTED.fewDigits, PLANTED.unreadable, PLANTED.open, PLANTED.otherFormula]);
    const others = teams.filter(({ number }) => !planted.has(number));
    expect(others.map(({ number }) => [number, ...verdicts(number)])).toEqual(others.map(({ number }) => [number, ...RIGHT]));
    expect(verdicts(PLANTED.radius)).toEqual([...RIGHT.slice(0, 2), 'sigma_a differs']);
    expect(sheetOf(PLANTED.radius).answers[2]?.comesOf.join()).toMatch(/radius|diameter/);
    expect(verdicts(PLANTED.range)).toEqual([...RIGHT.slice(0, 2), 'sigma_a differs']);
    expect(sheetOf(PLANTED.range).answers[2]?.comesOf.join()).toMatch(/range/);
    expect(verdicts(PLANTED.carried)).toEqual(['R_A differs', 'M_s carried', 'sigma_a carried']);
    expect(verdicts(PLANTED.fewDigits)).toEqual(['R_A too few digits', 'M_s agrees', 'sigma_a agrees']);
    expect(verdicts(PLANTED.unreadable)).toEqual(['R_A agrees', 'M_s unreadable', 'sigma_a agrees']);
    expect(verdicts(PLANTED.open)).toEqual(['R_A open', 'M_s open', 'sigma_a open']);
  });

  test('one after the other gives what each gives by itself', () => {
    for (const number of [1, PLANTED.carried, PLANTED.wrongDiameter, PLANTED.otherFormula, 30]) {
      const { team, text } = simulatedTeam(number);
      const [alone] = gatheredFrom([{ name: `${team}.md`, text }]).sheets;
      expect({ ...alone, id: '' }).toEqual({ ...sheetOf(number), id: '' });
    }
  });

  test('a test that came to its end is a row with its life; checks are told', () => {
    const [first] = sheetOf(1).tests;
    expect([first?.phase, first?.outcome, first?.row?.get('N')?.text, first?.row?.get('specimen')?.text, first?.row?.get('team')?.text]).toEqual(['ended', 'fracture', '103000', 'PS-01', 'T01']);
    expect(sheetOf(1).checks.find(({ id }) => id === 'closes')?.holds).toBeTypeOf('boolean');
  });
});

describe('what else is asked and told', () => {
  const question = (...lines: readonly string[]): string => `\n\`\`\`question\n${lines.join('\n')}\n\`\`\`\n`;
  const WHERE = ['id: where', 'label: Where is the stress largest?', 'options:', '  waist: at the thinnest section', '  bearing: at the bearing', 'right: waist'];

  test('questions: an option, an expression, words for whoever marks', () => {
    const text = [
      question(...WHERE, 'answer: bearing'), question('id: stress', 'label: The stress in the outer fibre', 'formula: M_s*c/I', 'in: M_s, c, I', 'answer: c*M_s/I'),
      question('id: say', 'label: What would you measure again?', 'answer: the diameter, it counts with its third power'), question('id: none', 'label: And next?'),
    ].reduce((all, one) => all + one, simulatedTeam(1).text);
    const [sheet] = gatheredFrom([{ name: 'T01.md', text }]).sheets;
    expect(sheet?.answers.slice(3).map(({ label, typed, verdict, right }) => [label, typed, verdict, right])).toEqual([
      ['Where is the stress largest?', 'at the bearing', 'differs', 'at the thinnest section'],
      ['The stress in the outer fibre', 'c*M_s/I', 'agrees', 'M_s*c/I'],
      ['What would you measure again?', 'the diameter, it counts with its third power', 'for the marker', ''],
      ['And next?', '', 'open', ''],
    ]);
  });

  test('what was given to a team is nothing that it measured; a verdict kept until the end is known to whoever marks', () => {
    const text = simulatedTeam(1).text.replace('```given\nsymbol: F\n', '```given\nsymbol: F\norigin: set\n').replace('own_working: false', 'own_working: false\nfeedback: at the end\nvariant: 4F1C-22A0');
    const [sheet] = gatheredFrom([{ name: 'T01.md', text }]).sheets;
    expect(sheet?.values.map(({ symbol }) => symbol)).not.toContain('F');
    expect([sheet?.head.variant, sheet?.answers.map(({ verdict }) => verdict)]).toEqual(['4F1C-22A0', ['agrees', 'agrees', 'agrees']]);
  });
});

describe('what is no sheet of its own', () => {
  test('the same sheet under other names counts once', () => {
    const { sheets, again } = gatheredFrom([...teams.slice(0, 3), ...teams.slice(0, 2)].map(({ team, text }, i) => ({ name: `${i}-${team}.md`, text })));
    expect([sheets.length, again, sheets[0]?.files]).toEqual([3, 2, ['0-T01.md', '3-T01.md']]);
  });

  test('what can not be read is refused with its reason, and the rest goes on', () => {
    const { take } = createGatherer();
    take({ name: 'damaged.html', text: fail({ code: 'embedded-broken', what: 'The worksheet inside this file is damaged.', mend: 'Take it again.' }), isAltered: false });
    take({ name: 'endless.md', text: ok('```given\nsymbol: a\nvalue: 5 mm\n```\n'.repeat(2001)), isAltered: false });
    const { sheets, refused } = take({ name: 'T01.md', text: ok(simulatedTeam(1).text), isAltered: false });
    expect(refused.map(({ name, reason }) => `${name}: ${reason}`)).toEqual([
      'damaged.html: The worksheet inside this file is damaged. Take it again.', expect.stringMatching(/^endless\.md: It has more than 2000 cells/),
    ]);
    expect(sheets.map(({ head }) => head.team)).toEqual(['T01']);
  });

  test('a sheet with a symbol twice is read as it would be alone, also behind another one', () => {
    const doubled = simulatedTeam(2).text.replace('```given\nsymbol: s_1\n', '```given\nsymbol: d\nvalue: 9 mm\nunit: mm\n```\n\n```given\nsymbol: s_1\n');
    const [, behind] = gatheredFrom([{ name: 'T01.md', text: simulatedTeam(1).text }, { name: 'T02.md', text: doubled }]).sheets;
    const [alone] = gatheredFrom([{ name: 'T02.md', text: doubled }]).sheets;
    expect({ ...behind, id: '' }).toEqual({ ...alone, id: '' });
    expect(alone?.troubles.length).toBeGreaterThan(0);
  });
});
