/** Plans of tests: by a line that is only expected, in a sheet without any data, and by the class's own line. */
import { describe, expect, it } from 'vitest';
import type { PlanFound } from '../../src/graph/index.ts';
import { presentFindings, type WholeContext, type PresentedFindings } from '../../src/report/index.ts';
import { enterText, parseSheet, serialiseSheet } from '../../src/sheet/index.ts';
import { cellOf, contextOf, fenced, given } from '../report/sheet-at.ts';
import { shipped } from '../shipped.ts';
import { numberOf, uncertaintyOf } from './solved.ts';

const levels = (...rows: readonly string[]): string => fenced(
  'table', 'id: planned', 'columns:', '  - {key: S, label: Stress amplitude, type: quantity, unit: MPa}',
  '  - {key: count, label: Specimens, type: count, unit: "1", default: "1"}', 'rows: |', '  S [MPa],count', ...rows.map((row) => `  ${row}`),
);
const fit = (...asks: readonly string[]): string => fenced(
  'fit', 'id: plan', 'finds: plan', 'table: planned', 'asks:', ...asks.map((ask) => `  ${ask}`), 'symbols:',
  '  n: n_t', '  replication: R_p', '  width_B: b_w', '  factor_N: f_w', '  t: t_m',
);

const EXPECTED = ['A: A', 'B: B', 's: s', 'life: 5e6 cycles', 'speed: n', 'machines: 2', 'stress: 450 MPa', 'width_B: 3', 'factor_N: 1.3'];
const LINE = [given('A', '46', '1'), given('B', '-15', '1'), given('s', '0.28', '1'), given('n', '3000 ± 30 rev/min', 'rev/min')].join('\n');
const beforeData = (rows = ['520,3', '480,3', '450,3', '420,3'], asks: readonly string[] = EXPECTED): string => [LINE, levels(...rows), fit(...asks)].join('\n');

function found(context: WholeContext): PlanFound {
  const state = context.states.cell('plan')?.findings;
  if (state?.form !== 'plan' || state.none !== undefined) throw new Error(`no plan: ${JSON.stringify(context.states.cell('plan')?.problems)}`);
  return state;
}
const told = (context: WholeContext): PresentedFindings => presentFindings(cellOf(context, 'fit', 'plan'), context);
const problems = (context: WholeContext): readonly string[] => (context.states.cell('plan')?.problems ?? []).map(({ code }) => code);

describe('a plan before there is any data', () => {
  it('precision of B and of a life, as regression with those stresses has it', async () => {
    const { states } = await contextOf(beforeData());
    // ASTM E739, 8.1: t(0.975, n − 2)·s/√Σ(X − X̄)² and the same with √(1/n + (x − X̄)²/Σ(X − X̄)²); computed with numpy 2.4 and scipy 1.17.
    expect(numberOf(states, 'b_w')).toBeCloseTo(5.253885452610637, 9);
    expect(numberOf(states, 'f_w')).toBeCloseTo(1.5741272421862103, 9);
    expect(numberOf(states, 'n_t')).toBe(12);
    // ASTM E739, 7.1: 100·(1 − 4/12).
    expect(numberOf(states, 'R_p')).toBeCloseTo(2 / 3, 12);
  });
  it('lives, runouts and cycles level by level', async () => {
    // Median 10^(46 − 15 log10 S); chance of a runout and mean by quadrature with scipy 1.17, log10 N normal with s = 0.28, stopped at 5e6.
    const expected = [
      [181949.07224908567, 1.3783957757966337e-7, 223980.90968272815, 3.7330151613788027],
      [604479.3084158994, 0.0005243923389277231, 743586.9412065487, 12.393115686775811],
      [1591520.7064351195, 0.03790246560803553, 1895835.1418522769, 31.597252364204618],
      [4479820.822281511, 0.4323514928874779, 3913398.2719688453, 65.22330453281408],
    ];
    const { plan } = found(await contextOf(beforeData()));
    for (const [i, [median = 0, chance = 0, mean = 0, hours = 0]] of expected.entries()) {
      const row = plan.rows[i];
      expect((row?.medianCycles ?? 0) / median).toBeCloseTo(1, 10);
      expect((row?.runoutChance ?? 0) / chance).toBeCloseTo(1, 8);
      expect((row?.meanCycles ?? 0) / mean).toBeCloseTo(1, 9);
      expect((row?.hours ?? 0) / hours).toBeCloseTo(1, 9);
    }
  });
  it('time on two machines, with the uncertainty of the speed', async () => {
    const { states } = await contextOf(beforeData());
    expect(numberOf(states, 't_m') / 203304.03794131195).toBeCloseTo(1, 9);
    expect(uncertaintyOf(states, 't_m') / numberOf(states, 't_m')).toBeCloseTo(0.01, 9);
  });
  it('the number of specimens that a wanted precision takes, in a sentence', async () => {
    const context = await contextOf(beforeData());
    // The smallest number for which the formulas above stay within 3 and 1.3: 8 at each level (1.290; 7 give 1.315), by the same script.
    expect(told(context).sentences).toEqual(expect.arrayContaining([
      'For B to ± 3 it takes 8 specimens at each of these 4 levels, 32 in all.',
      'For the median life at 450 MPa to a factor of 1.3 it takes 8 specimens at each of these 4 levels, 32 in all.',
    ]));
    expect(told(context).facts.find(({ name }) => name === 'Time')?.text).toMatch(/^113 h \(4\.7 days\) of turning; on 2 machines side by side 56\.5 h \(2\.4 days\) at the least/);
    expect(told(context).facts.find(({ name }) => name === 'Replication')?.text).toMatch(/^67 % \(12 specimens at 4 levels\), enough for design allowables/);
  });
  it.each([
    ['12 at 10', Array.from({ length: 10 }, (_, i) => `${520 - 10 * i},${i < 2 ? 2 : 1}`), 'preliminary and exploratory'],
    ['9 at 6', ['520,2', '500,2', '480,2', '460,1', '440,1', '420,1'], 'research and development'],
    ['12 at 6', ['520,2', '500,2', '480,2', '460,2', '440,2', '420,2'], 'design allowables'],
    ['16 at 4', ['520,4', '500,4', '480,4', '460,4'], 'reliability'],
  ])('guidance class of %s (ASTM E739, 7.1: 17, 33, 50, 75 %%; from memory)', async (_name, rows, words) => {
    expect(told(await contextOf(beforeData(rows))).facts.find(({ name }) => name === 'Replication')?.text).toContain(words);
  });
  it('without speed and runout life it says what it can', async () => {
    const context = await contextOf(beforeData(['520,3', '420,3'], ['A: 46', 'B: -15', 's: 0.28']));
    expect(problems(context)).toEqual([]);
    expect(found(context).plan.hours).toBeNull();
    expect(told(context).facts.find(({ name }) => name === 'Time')?.text).toBe('unknown: no speed is stated');
    expect(context.states.symbol('t_m')).toMatchObject({ status: 'problem', problem: { code: 'plan-not-asked' } });
  });
  it.each([
    ['no line', ['speed: n'], ['520,3', '420,3'], 'plan-line'],
    ['a line that rises', ['A: 46', 'B: 15', 's: 0.28'], ['520,3', '420,3'], 'ask-impossible'],
    ['one level', ['A: 46', 'B: -15', 's: 0.28'], ['520,3'], 'levels-too-few'],
    ['two specimens', ['A: 46', 'B: -15', 's: 0.28'], ['520,1', '420,1'], 'specimens-too-few'],
    ['no level', ['A: 46', 'B: -15', 's: 0.28'], [], 'plan-empty'],
    ['half a machine', [...EXPECTED.filter((ask) => !ask.startsWith('machines')), 'machines: 1.5'], ['520,3', '420,3'], 'ask-whole'],
  ])('%s is told', async (_name, asks, rows, code) => {
    expect(problems(await contextOf(beforeData(rows, asks)))).toEqual([code]);
  });
});

describe('a plan by the class’s line', () => {
  const sheet = shipped('sn-line');
  const set = (target: string, text: string): string => {
    const entered = enterText(parseSheet(sheet), target, text);
    if (!entered.ok) throw new Error(entered.problem.what);
    return serialiseSheet(entered.value);
  };

  it('takes A, B and s of the fit', async () => {
    const context = await contextOf(sheet);
    const { line } = found(context);
    expect([line.A, line.B, line.s]).toEqual(['A', 'B', 's'].map((name) => numberOf(context.states, name)));
  });
  it('says why there is none for another shape, and that is no error', async () => {
    const context = await contextOf(set('model', 'quadratic'));
    expect(problems(context)).toEqual([]);
    expect(told(context).sentences).toEqual(['A plan takes a straight line with lognormal lives. Choose the straight line and lognormal lives, or state A, B and s under `asks`.']);
  });
  it('follows the line’s own scale of stress', async () => {
    const context = await contextOf(set('stress', 'plain'));
    expect(found(context).line.stress).toBe('plain');
    expect(told(context).sentences[0]).toContain('per MPa');
    expect(found(context).wishes.map(({ wanted }) => wanted.of)).toEqual(['life']);
  });
});
