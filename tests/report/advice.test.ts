/** What a problem advises, done word for word, leaves no problem behind. */
import { describe, expect, test } from 'vitest';
import type { Problem } from '../../src/core/problem/index.ts';
import { warningsOf } from '../../src/report/index.ts';
import { parseSheet } from '../../src/sheet/index.ts';
import { contextOf, fenced, given } from './sheet-at.ts';

const AROUND = [given('d', '6 mm', 'mm'), given('sigma', '400 MPa', 'MPa'), given('F', '100 N', 'N'), given('n', '5', '"1"'), given('phi', '5 deg', 'deg')];

async function told(lines: readonly string[], kind = 'step', around = AROUND): Promise<readonly Problem[]> {
  const context = await contextOf([...around, fenced(kind, ...lines)].join('\n'));
  const block = context.document.blocks.at(-1);
  return block?.kind === 'cell' ? [...(context.states.cell(block.id)?.problems ?? []), ...warningsOf(block.cell, context)] : [];
}

/** What stands behind “Write”, “for example” or a colon, up to what else could be meant. */
const advised = ({ mend }: Problem): string => /(?:Write|write|for example,?|first:|such as) (.+?)(?:, or .*|, as in .*|\. If .*| for one number.*)?[.]?$/u.exec(mend)?.[1] ?? '';

/** The formula with the advice in place of what the problem points at. */
function obeyed(formula: string, problem: Problem): string {
  const { span } = problem;
  if (span === undefined) throw new Error(`${problem.what} points nowhere`);
  // Of a sum or comparison that is pointed at as a whole, the part that is named.
  const part = /^Give (.+?) a unit/u.exec(problem.mend)?.[1];
  if (part !== undefined) return formula.slice(0, span.start) + formula.slice(span.start, span.end).replace(part, advised(problem)) + formula.slice(span.end);
  return formula.slice(0, span.start) + advised(problem) + formula.slice(span.end);
}

describe('advice about a formula', () => {
  test.each([
    ['sigma < 530 MPa', 'sigma < 530*unit(MPa)'],
    ['sigma < 530', 'sigma < 530*unit(MPa)'],
    ['sigma/2 < 530 N/mm^2', 'sigma/2 < 530*unit(N/mm^2)'],
    ['d > 6 mm', 'd > 6*unit(mm)'],
    ['n => 5', 'n >= 5'],
    ['n =< 5', 'n <= 5'],
    ['n > 1 && n < 9', 'n > 1 and n < 9'],
    ['n > 9 || n < 9', 'n > 9 or n < 9'],
    ['n < 5,5', 'n < 5.5'],
    ['d < 1/4 in', 'd < 1/4*unit(in)'],
  ])('of a check: %s', async (formula, mended) => {
    const keys = (condition: string) => [`condition: "${condition}"`, 'holds: "yes"', 'otherwise: "no"'];
    const [problem] = await told(keys(formula), 'check');
    expect(problem).toBeDefined();
    const after = problem === undefined ? '' : obeyed(formula, problem);
    expect([after, await told(keys(after), 'check')]).toEqual([mended, []]);
  });

  test.each([
    ['d + 3', 'mm', 'd + 3*unit(mm)'],
    ['3 mm + d', 'mm', '3*unit(mm) + d'],
    ['2d', 'mm', '2*d'],
    ['2 d', 'mm', '2*d'],
    ['d**2', 'mm^2', 'd^2'],
    ['ln(d)', '"1"', 'ln(d/unit(mm))'],
    ['d²', 'mm^2', 'd^2'],
    ['π*d', 'mm', 'pi*d'],
    ['d*0,5', 'mm', 'd*0.5'],
    ['F/3 mm', 'N/mm', 'F/(3*unit(mm))'],
    ['2^d', '"1"', '2^(d/unit(mm))'],
    ['min(d, 3)', 'mm', 'min(d, 3*unit(mm))'],
    ['d*5 %', 'mm', 'd*5*unit(%)'],
    ['sin(30°)', '"1"', 'sin(30*unit(°))'],
  ])('of a step: %s', async (formula, unit, mended) => {
    const keys = (text: string) => ['symbol: x', `formula: "${text}"`, `unit: ${unit}`];
    const [problem] = await told(keys(formula));
    expect(problem).toBeDefined();
    const after = problem === undefined ? '' : obeyed(formula, problem);
    expect([after, await told(keys(after))]).toEqual([mended, []]);
  });

  test('of a unit that does not fit: the one that is named does', async () => {
    const [problem] = await told(['symbol: x', 'formula: d^2', 'unit: mm']);
    expect(await told(['symbol: x', 'formula: d^2', `unit: ${/such as (\S+?),/u.exec(problem?.mend ?? '')?.[1] ?? ''}`])).toEqual([]);
  });

  test('of a name that is not there: the near one is', async () => {
    const [problem] = await told(['symbol: x', 'formula: sigm*2', 'unit: MPa']);
    expect(problem?.mend).toContain('Did you mean sigma?');
    expect(await told(['symbol: x', 'formula: sigma*2', 'unit: MPa'])).toEqual([]);
  });
});

describe('advice about a key', () => {
  test.each([
    ['given', ['symbol: x', 'value: 5 mm', 'instrumnt: micrometer']],
    ['given', ['symbol: x', 'value: 5 mm', 'origin: assumd']],
    ['given', ['symbol: x', 'value: 5 mm', 'instrument: micromter']],
    ['step', ['symbol: x', 'formula: d', 'ranges:', '  blow limit: d > 99*unit(mm)']],
    ['figure', ['drawing: free-body', 'values:', '  spann: d']],
    ['photo', ['symbols:', '  shar: A_r']],
    ['fit', ['symbols:', '  runout: r_n']],
  ])('of a %s: the near name is right (%j)', async (kind, lines) => {
    const problems = await told(lines, kind);
    const problem = problems.find(({ mend }) => mend.includes('Did you mean'));
    const wrong = /[`“]([^`”]+)[`”]/u.exec(problem?.what ?? '')?.[1]?.replace(/^.*: /u, '') ?? '';
    const near = /Did you mean `?([^`?]+?)`?(?: or [^?]*)?\?/u.exec(problem?.mend ?? '')?.[1]?.replace(/^.*: /u, '') ?? '';
    expect([wrong, near].every((word) => word !== '')).toBe(true);
    const after = await told(lines.map((line) => line.replace(wrong, near)), kind);
    expect(after.filter(({ code }) => code === problem?.code)).toEqual([]);
  });

  test.each([
    ['given', 'value: 6 mm', 'symbol'], ['step', 'symbol: x', 'formula'], ['check', 'holds: a\notherwise: b', 'condition'], ['remark', 'text: a', 'heading'], ['aside', 'label: a', 'holds'],
    ['figure', 'label: a', 'drawing'], ['question', 'id: a', 'label'],
  ])('of a %s with %s that misses its %s: the line that is shown is one', async (kind, body, key) => {
    const lines = body.split('\n');
    const problem = (await told(lines, kind)).find(({ code }) => code === 'key-missing');
    const line = /`([^`]+)`/u.exec(problem?.mend ?? '')?.[1] ?? '';
    expect(line).toMatch(new RegExp(`^${key}: .`, 'u'));
    const after = parseSheet(fenced(kind, ...lines, line)).blocks[0];
    expect(after?.kind === 'cell' ? after.cell.problems : undefined).toEqual([]);
  });
});
