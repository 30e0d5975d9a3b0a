/** Own results held against the sheet's: what is allowed, what is carried forward, what shows when. The numbers beside each case are worked out by hand. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { alikeSteps, allowanceOf, entryKeys, standings, type MarkedSheet } from '../../src/graph/index.ts';
import { applyEdit, cellsOf, parseSheet, type StepCell } from '../../src/sheet/index.ts';
import { markedSheet } from '../../src/report/index.ts';
import { contextOf, contextOfDocument, given, step } from '../report/sheet-at.ts';

async function sheetOf(text: string): Promise<MarkedSheet> {
  return markedSheet(await contextOf(text));
}

async function verdicts(text: string): Promise<Readonly<Record<string, string>>> {
  const sheet = await sheetOf(text);
  return Object.fromEntries([...standings(sheet)].map(([id, { mark }]) => [id, mark?.kind === 'judged' ? mark.verdict : (mark?.kind ?? 'none')]));
}

async function allowed(rules: readonly string[], formula = 'F', value = '200 ± 3 N', ...more: readonly string[]) {
  const sheet = await sheetOf(given('F', value, 'N') + step('y', formula, 'N', 'asked: true', ...rules, ...more));
  const [y] = cellsOf(sheet.document, 'step');
  const state = sheet.states.symbol('y');
  if (y === undefined || state?.status !== 'value') throw new Error('the test’s own sheet has no y');
  return allowanceOf(y.tolerance, y, state);
}

describe('how far off a result may be', () => {
  test('is what the sheet says, else the result’s own standard uncertainty within limits', async () => {
    expect(await allowed(['tolerance: 1.5 %'])).toEqual({ kind: 'share', share: 0.015 });
    expect(await allowed(['tolerance: factor 1.3'])).toEqual({ kind: 'factor', factor: 1.3 });
    // ± is one standard uncertainty.
    expect(await allowed(['tolerance: 2 u'])).toMatchObject({ kind: 'interval', half: 6 });
    // 200 N: the third figure is whole newtons.
    expect(await allowed(['tolerance: 3 figures'])).toMatchObject({ kind: 'interval', half: 0.5 });
    expect(await allowed(['tolerance: 3 figures'], 'F/8')).toMatchObject({ half: 0.05 });
    expect(await allowed([])).toEqual({ kind: 'share', share: 0.015 });
    expect(await allowed([], 'F', '200 ± 0.1 N')).toEqual({ kind: 'share', share: 0.005 });
    expect(await allowed([], 'F', '200 ± 30 N')).toEqual({ kind: 'share', share: 0.02 });
    // exp(30/200) = 1.1618, as a factor of two decimals.
    expect(await allowed([], 'F', '200 ± 30 N', 'spread: factor')).toEqual({ kind: 'factor', factor: 1.16 });
    expect(await allowed([], 'F', '200 ± 300 N', 'spread: factor')).toEqual({ kind: 'factor', factor: 1.2 });
    expect(await allowed([], 'F', '200 ± 0.1 N', 'spread: factor')).toEqual({ kind: 'factor', factor: 1.05 });
  });

  test.each([
    ['0 GPa', '370*unit(MPa)', 'GPa'], ['0 kN', '154*unit(N)', 'kN'], ['0 %', '0.005', '%'], ['2e2 N', '153.77*unit(N)', 'N'],
  ])('%s never agrees with %s', async (typed, formula, unit) => {
    expect((await verdicts(step('y', formula, unit, 'asked: true', `answer: "${typed}"`))).y).not.toBe('agrees');
  });

  test('fewer digits typed never make it wider', async () => {
    await fc.assert(fc.asyncProperty(fc.integer({ min: 1, max: 5 }), fc.double({ min: 0.5, max: 2, noNaN: true }), async (digits, ratio) => {
      const typed = Number((153.77 * ratio).toPrecision(digits));
      const off = Math.abs(typed / 153.77 - 1);
      fc.pre(Math.abs(off - 0.01) > 1e-6);
      const { y } = await verdicts(step('y', '153.77*unit(N)', 'N', 'asked: true', 'tolerance: 1 %', `answer: "${typed} N"`));
      expect(y === 'agrees', `${typed}`).toBe(off < 0.01);
    }), { numRuns: 60 });
  });
});

describe('what was worked out with rounded numbers', () => {
  // A life of a line N = (sigma/a)^(1/b) with b = -0.08: 371.44 MPa shown as 371.4, and 370 where somebody rounds to two figures.
  const life = (...more: readonly string[]) => step('N', '1e6*(sigma/(400*unit(MPa)))^(-12.5)', '1', 'asked: true', 'tolerance: 1 %', ...more);
  const stress = (...more: readonly string[]) => given('F', '371.44 N', 'N') + step('sigma', 'F/(1*unit(mm)^2)', 'MPa', 'asked: true', ...more);
  const lifeAt = (sigma: number): number => 1e6 * (sigma / 400) ** -12.5;

  test('is right with the sheet’s numbers as they are shown', async () => {
    // 0.12345 ± 0.012 is shown as 0.123: a power of 12.5 makes 4.6 % of that, which is more than the tolerance.
    const text = (answer: number) => given('x', '0.12345 ± 0.012', '1') + step('y', 'x', '1') + step('z', '(y*8)^12.5', '1', 'asked: true', 'tolerance: 1 %', `answer: "${answer}"`);
    expect((await verdicts(text((0.12345 * 8) ** 12.5))).z).toBe('agrees');
    expect((await verdicts(text((0.123 * 8) ** 12.5))).z).toBe('agrees');
    expect((await verdicts(text((0.122 * 8) ** 12.5))).z).toBe('differs');
  });

  test('is carried forward, and marked apart', async () => {
    expect(await verdicts(stress('answer: 370 MPa') + life(`answer: "${lifeAt(370).toPrecision(4)}"`))).toEqual({ sigma: 'agrees', N: 'carried' });
    // Who typed 385 and went on with 385.4.
    expect((await verdicts(stress('answer: 385 MPa') + life(`answer: "${lifeAt(385.4).toPrecision(4)}"`))).N).toBe('carried');
    // A short earlier number is no excuse for anything.
    expect((await verdicts(stress('answer: 4e2 MPa') + life(`answer: "${lifeAt(440).toPrecision(4)}"`))).N).toBe('differs');
    expect((await verdicts(stress('answer: 371.4 MPa') + life(`answer: "${(1.06 * lifeAt(371.44)).toPrecision(4)}"`))).N).toBe('differs');
  });

  test('shows with what it rests on, and not before', async () => {
    const told = async (text: string) => [...standings(await sheetOf(text))].map(([id, { isTold }]) => [id, isTold]);
    const carried = life(`answer: "${lifeAt(385).toPrecision(5)}"`);
    expect(await told(stress('answer: 385 MPa') + carried)).toEqual([['sigma', false], ['N', false]]);
    expect(await told(stress('answer: 385 MPa', 'tried: 1 MPa; 2 MPa') + carried)).toEqual([['sigma', true], ['N', true]]);
    // In whatever order they stand.
    expect(await told(carried + stress('answer: 385 MPa', 'tried: 1 MPa; 2 MPa'))).toEqual([['N', true], ['sigma', true]]);
  });
});

describe('tries', () => {
  const text = given('F', '100 N', 'N') + step('y', '2*F', 'N', 'asked: true');

  async function enter(typed: readonly string[]): Promise<StepCell | undefined> {
    let document = parseSheet(text);
    for (const one of typed) {
      const sheet = markedSheet(await contextOfDocument(document));
      const [y] = cellsOf(document, 'step');
      const next = y && applyEdit(document, { do: 'set keys', cellId: 'y', values: entryKeys(y, one, sheet) });
      if (next?.ok !== true) throw new Error('could not be entered');
      document = next.value;
    }
    return cellsOf(document, 'step')[0];
  }

  test('are the wrong ones, kept in order; what can’t be read or is too short is none', async () => {
    expect(await enter(['300 N', '400', 'nonsense', '0.2 kN', ''])).toMatchObject({ tried: '300 N; 400' });
    expect((await enter(['300 N', '300 N']))?.tried).toBe('300 N');
    // 2e2 is the sheet's to one figure.
    expect((await enter(['2e2 N', '200 N']))?.tried).toBeUndefined();
  });

  test('bring the result to light when they are used up, and it stays', async () => {
    expect((await enter(['300 N', '400 N']))?.isTold).toBeUndefined();
    expect(await enter(['300 N', '400 N', '500 N'])).toMatchObject({ isTold: true, tried: '300 N; 400 N' });
    expect(await enter(['200 N'])).toMatchObject({ isTold: true });
    expect((await enter(['200 N', '']))?.isTold).toBeUndefined();
  });
});

describe('results that may pass for one another', () => {
  const reactions = (l1: string, l2: string) => given('W', '300 N', 'N') + given('a', l1, 'mm') + given('b', l2, 'mm')
    + step('R_A', 'W*b/(a+b)', 'N', 'asked: true') + step('R_B', 'W*a/(a+b)', 'N', 'asked: true') + step('R', 'R_A', 'N', 'asked: true');
  const pairs = async (text: string) => {
    const { document, states } = await sheetOf(text);
    return alikeSteps(document, states).map(([one, other]) => `${one.symbol} ${other.symbol}`);
  };

  test('are the reactions of a symmetrical set-up, and no others', async () => {
    // What only takes over R_A is R_A.
    expect(await pairs(reactions('100 mm', '100 mm'))).toEqual(['R_A R_B', 'R_B R']);
    expect(await pairs(reactions('100 mm', '103 mm'))).toEqual([]);
    expect(await pairs(reactions('100 mm', '100 mm').replaceAll('asked: true', 'asked: false'))).toEqual([]);
  });
});
