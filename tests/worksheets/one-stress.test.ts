/** The sheet of lives at one stress, and what the cell says where it has no answer. */
import { describe, expect, test } from 'vitest';
import { standardUncertainty } from '../../src/core/estimate/index.ts';
import { presentFindings, type PresentContext, type PresentedFindings } from '../../src/report/index.ts';
import { row, shown } from '../report/findings-sheet.ts';
import { cellOf, contextOf } from '../report/sheet-at.ts';
import bearings from '../tables/lives-at-one-stress.json' with { type: 'json' };
import { shipped } from '../shipped.ts';

const SHEET = shipped('one-stress');

async function told(text: string): Promise<PresentedFindings & { readonly context: PresentContext }> {
  const context = await contextOf(text);
  return { ...presentFindings(cellOf(context, 'fit', 'lives'), context), context };
}
const chosen = (law: string): string => SHEET.replace('chosen: lognormal', `chosen: ${law}`);
const problemsOf = async (text: string): Promise<readonly string[]> => (await contextOf(text)).states.cell('lives')?.problems.map(({ code }) => code) ?? [];

function valueOf(context: PresentContext, symbol: string): { readonly value: number; readonly u: number } {
  const state = context.states.symbol(symbol);
  if (state?.status !== 'value') throw new Error(`no ${symbol}`);
  return { value: state.estimate.value, u: standardUncertainty(state.estimate) };
}

const broken = [237002, 139866, 418591, 523103, 105217, 366975, 219617, 405250, 488138, 191785, 431680, 306144, 238374];

/** Log likelihood of the sheet's Weibull lives, written out: density of the broken, survival of the three stopped at 700 000. */
function weibull(scale: number, shape: number): number {
  return broken.reduce((sum, life) => sum + Math.log(shape / scale) + (shape - 1) * Math.log(life / scale) - (life / scale) ** shape, -3 * (700000 / scale) ** shape);
}

describe('lives at one stress', () => {
  test('Weibull: no other pair of parameters is more likely, and the median and the tenth follow from them', async () => {
    const found = await told(chosen('weibull'));
    const [scale, shape] = ['Characteristic life', 'Shape'].map((name) => shown(row(found, 1, name)[1])) as [number, number];
    const top = weibull(scale, shape);
    // Three and four figures are shown: steps larger than what was rounded away.
    for (const [a, b] of [[1.03, 1], [0.97, 1], [1, 1.03], [1, 0.97], [1.03, 1.03], [0.97, 0.97]] as const) expect(weibull(scale * a, shape * b)).toBeLessThan(top);
    const tenth = valueOf(found.context, 'N_10').value;
    const median = valueOf(found.context, 'N_50').value;
    expect(Math.log(Math.log(2) / -Math.log(0.9)) / Math.log(median / tenth) / shape).toBeCloseTo(1, 3);
    expect(found.sentences[0]).toMatch(/^16 specimens at 380 MPa, 3 unbroken: half last/);
    expect(found.problems).toEqual([]);
  });

  test('lognormal without the unbroken ones: mean and standard deviation of lg N', async () => {
    const found = await told(SHEET.replaceAll(/ {2}V\d+,380,700000,runout\n/g, ''));
    const logs = broken.map(Math.log10);
    const mean = logs.reduce((sum, y) => sum + y, 0) / 13;
    const sd = Math.sqrt(logs.reduce((sum, y) => sum + (y - mean) ** 2, 0) / 12);
    expect(shown(row(found, 1, 'Mean of lg N')[1])).toBeCloseTo(mean, 3);
    expect(shown(row(found, 1, 'Standard deviation')[1])).toBeCloseTo(sd, 4);
    const median = valueOf(found.context, 'N_50');
    expect(median.u / median.value / ((Math.LN10 * sd) / Math.sqrt(13))).toBeCloseTo(1, 9);
    // One-sided factor for n = 13, 90 %, 95 %: 2.155 (any table, as ISO 12107, Table B.1).
    expect(Math.abs(shown(row(found, 0, 'Design value')[0]) / 10 ** (mean - 2.155 * sd) - 1)).toBeLessThan(6e-3);
    // Two-sided factor for the same: 2.601, computed with scipy (integral of Wald and Wolfowitz).
    expect(Math.abs(shown(row(found, 0, 'Interval of')[2]) / 10 ** (mean + 2.601 * sd) - 1)).toBeLessThan(6e-3);
    expect(found.sentences[1]).toContain('12 degrees of freedom');
  });

  test('with a threshold it warns, whatever comes out', async () => {
    const rows = bearings['ball bearings'].lives.map((life, i) => `  B${i},380,${Math.round(1000 * life)},fracture`).join('\n');
    const found = await told(chosen('weibull-threshold').replace(/( {2}specimen,S \[MPa\],N,outcome\n)[^]*?\nnote: A runout/, `$1${rows}\nnote: A runout`));
    const state = found.context.states.cell('lives');
    expect((state?.warnings ?? []).map(({ code }) => code)).toEqual(['threshold-no-safe-life', 'threshold-weak']);
    expect(shown(row(found, 1, 'Threshold')[1])).toBeCloseTo(1000 * bearings['ball bearings'].threshold.threshold, -2);
    expect(row(found, 1, 'Threshold')[0]).toBe('not bounded');
    expect(found.sentences[0]).toMatch(/^23 specimens at 380 MPa: half last .* 90\u00a0% more than 30\u202f500\.$/);
    expect(found.context.states.symbol('N_50')?.status).toBe('problem');
    // The sheet's own lives have none: the likelihood grows up to the shortest (the same by scipy).
    expect(await problemsOf(chosen('weibull-threshold'))).toEqual(['threshold-unbounded']);
  });

  test('says what it needs', async () => {
    expect(await problemsOf(SHEET.replace('value: 380 MPa', 'value: 300 MPa'))).toEqual(['lives-none']);
    expect(await problemsOf(SHEET.replace('stress: S_x', 'odd: 1').replace('V01,380', 'V01,340'))).toEqual(['lives-stresses']);
    expect(await problemsOf(SHEET.replaceAll(/fracture\n/g, 'runout\n'))).toEqual(['all-runouts']);
    expect(await problemsOf(SHEET.replace('by law', 'normal'))).toEqual(['ask-word']);
    expect(await problemsOf(SHEET.replace('stress: S_x', ''))).toEqual([]);
  });
});
