/** The staircase sheet: published staircases from its table to its symbols, its own example by hand, and odd tables. */
import { describe, expect, it } from 'vitest';
import { coverageInterval, covariance, exactly } from '../../src/core/estimate/index.ts';
import type { StaircaseFindings } from '../../src/graph/index.ts';
import { presentFindings, renderSheet, type WholeContext, type PresentedFindings } from '../../src/report/index.ts';
import { applyEdit, enterText, parseSheet, serialiseSheet } from '../../src/sheet/index.ts';
import { caseOf, column } from '../core/fatigue/table.ts';
import { faultsIn } from '../report/mutants.ts';
import { cellOf, contextOf } from '../report/sheet-at.ts';
import table from '../tables/staircase.json' with { type: 'json' };
import { shipped } from '../shipped.ts';
import { numberOf, uncertaintyOf } from './solved.ts';

const sheet = shipped('staircase');

type Settings = Readonly<Record<string, string>>;

/** The sheet with these rows and settings, evaluated. */
async function withRows(rows: string, settings: Settings = {}, text = sheet, settable?: string): Promise<WholeContext> {
  let document = parseSheet(text);
  const take = (edited: ReturnType<typeof applyEdit>): void => {
    if (!edited.ok) throw new Error(edited.problem.what);
    document = edited.value;
  };
  for (const [target, value] of Object.entries(settings)) take(enterText(document, target, value));
  take(applyEdit(document, { do: 'replace rows', cellId: 'tests', text: rows }));
  if (settable !== undefined) take(applyEdit(document, { do: 'replace rows', cellId: 'settable', text: settable }));
  return contextOf(serialiseSheet(document));
}

/** For a bench that writes down the load: the column and the steps in kN. */
const inLoads = sheet.replace(/(label: Level[^`]*?unit: )MPa/, '$1kN').replace(/value: 10 MPa\nunit: MPa/, 'value: 1 kN\nunit: kN').replace('plausible: 1 MPa .. 100 MPa\n', '').replace('value: 0 MPa\nunit: MPa', 'value: 0 kN\nunit: kN').replace('">= 0 MPa"', '">= 0 kN"');

function published(data: string, level: string, unit: string): string {
  const failed = column(table, data, 'failed');
  return [`specimen,S [${unit}],N,outcome`, ...column(table, data, level).map((value, i) => `T${i + 1},${value},1e7,${failed[i] === 1 ? 'fracture' : 'runout'}`)].join('\n');
}

function findings(context: WholeContext): StaircaseFindings {
  const found = context.states.cell('staircase')?.findings;
  if (found?.form !== 'staircase') throw new Error(`no staircase: ${JSON.stringify(context.states.cell('staircase')?.problems)}`);
  return found;
}

const told = (context: WholeContext): PresentedFindings => presentFindings(cellOf(context, 'fit', 'staircase'), context);
const warningCodes = (context: WholeContext): readonly string[] => (context.states.cell('staircase')?.warnings ?? []).map(({ code }) => code);
const problemOf = (context: WholeContext, symbol: string): string => {
  const state = context.states.symbol(symbol);
  return state?.status === 'problem' ? state.problem.code : JSON.stringify(state);
};
const correlationOf = (context: WholeContext): number => {
  const [mean, sd] = ['S_50', 's_S'].map((name) => context.states.symbol(name));
  if (mean?.status !== 'value' || sd?.status !== 'value') throw new Error('no strength');
  return covariance(mean.estimate, sd.estimate);
};

describe('published staircases through the sheet', () => {
  it('15 gears: mean and standard error as printed, fractures counted (Gorla et al. 2017, Table 9)', async () => {
    const printed = caseOf(table, 'stair-gorla-951');
    const context = await withRows(published('gorla-951', 'load_kN', 'kN'), { count: 'fracture' }, inLoads);
    expect(printed.missed('mean_from_failures', numberOf(context.states, 'S_50') / 1000)).toEqual([]);
    expect(printed.missed('sd_from_failures', numberOf(context.states, 's_S') / 1000)).toEqual([]);
    // 0.62 kN is printed, by the chart's factor.
    expect(Math.abs(uncertaintyOf(context.states, 'S_50') / 1000 - 0.62)).toBeLessThan(0.005);
  });
  it('15 gears: the less frequent event, and maximum likelihood by choice (R)', async () => {
    const expected = caseOf(table, 'stair-gorla-951');
    const counted = await withRows(published('gorla-951', 'load_kN', 'kN'), {}, inLoads);
    expect(expected.missed('mean_less_frequent', numberOf(counted.states, 'S_50') / 1000)).toEqual([]);
    expect(expected.missed('sd_less_frequent', numberOf(counted.states, 's_S') / 1000)).toEqual([]);
    const probit = await withRows(published('gorla-951', 'load_kN', 'kN'), { method: 'probit' }, inLoads);
    expect(expected.missed('ml_mu', numberOf(probit.states, 'S_50') / 1000)).toEqual([]);
    expect(expected.missed('ml_sigma', numberOf(probit.states, 's_S') / 1000)).toEqual([]);
  });
  it('13 gears: mean of the levels as printed (Gorla et al. 2017, Table 6)', async () => {
    const context = await withRows(published('gorla-751', 'load_kN', 'kN'), {}, inLoads);
    expect(caseOf(table, 'stair-gorla-751').missed('mean_brownlee', findings(context).result?.meanOfLevels ?? 0)).toEqual([]);
    expect(told(context).tables[0]?.rows[2]?.cells[0]).toMatch(/^40\.9/);
    expect(told(context).advice).toBe('Next test: 41 kN, one step of 1 kN below 42 kN, because T13 broke there.');
  });
  it('30 invented tests: standard errors, covariance and lower limit (R)', async () => {
    const expected = caseOf(table, 'stair-invented-a');
    const rows = published('invented-staircase-a', 'stress_MPa', 'MPa');
    const counted = await withRows(rows);
    // What was the limit before: the usual factor, which holds too seldom.
    const { factorLimit } = findings(counted).result ?? {};
    expect(expected.missed('lower_90_95', factorLimit?.value ?? 0)).toEqual([]);
    expect(numberOf(counted.states, 'S_d') / 1e6).toBeLessThan(factorLimit?.value ?? 0);
    const probit = await withRows(rows, { method: 'probit' });
    expect(expected.missed('ml_se_mu', uncertaintyOf(probit.states, 'S_50') / 1e6)).toEqual([]);
    expect(expected.missed('ml_se_sigma', uncertaintyOf(probit.states, 's_S') / 1e6)).toEqual([]);
    const { covariance: matrix } = findings(probit).result?.probit ?? {};
    expect(correlationOf(probit) / 1e12).toBeCloseTo(matrix?.[0]?.[1] ?? Number.NaN, 9);
    expect(correlationOf(probit)).not.toBe(0);
  });
  it('says so where maximum likelihood finds nothing, and counting goes on', async () => {
    const rows = published('invented-staircase-separated', 'stress_MPa', 'MPa');
    const probit = await withRows(rows, { method: 'probit' });
    expect(problemOf(probit, 'S_50')).toBe('staircase-no-likelihood');
    const counted = await withRows(rows);
    // The limit is there all the same, and the same.
    expect(numberOf(probit.states, 'S_d')).toBe(numberOf(counted.states, 'S_d'));
    expect(warningCodes(counted)).toContain('staircase-separated');
    expect(caseOf(table, 'stair-separated').missed('mean', numberOf(counted.states, 'S_50') / 1e6)).toEqual([]);
  });
});

describe('the sheet’s own example, by hand', () => {
  it('8 runouts: 270 once, 280 three times, 290 three times, 300 once', async () => {
    const context = await contextOf(sheet);
    // i = 0, 1, 1, 1, 2, 2, 2, 3: A = 12, B = 24; (8·24 − 12²)/8² = 0.75.
    expect(findings(context).result?.counted).toMatchObject({ event: 'runout', lowest: 270, n: 8, A: 12, B: 24, spread: 0.75 });
    expect(numberOf(context.states, 'S_50')).toBeCloseTo((270 + 10 * (12 / 8 + 0.5)) * 1e6, 0);
    expect(numberOf(context.states, 's_S')).toBeCloseTo(1.62 * 10 * (0.75 + 0.029) * 1e6, 0);
    // One-sided factor for n = 8, P 90 %, C 95 %: 2.582 (Natrella, NBS Handbook 91, table A-7; from memory).
    expect(told(context).facts.find(({ name }) => name === 'Usual factor')?.text).toContain('k = 2.582 standard deviations below the mean, as for 8 measured strengths, would be 257.4');
    // The limit by all tests: computed with numpy 2.4 and scipy.stats.norm, by sums over 1201 standard deviations and 26001 strengths.
    expect(numberOf(context.states, 'S_d') / 1e6).toBeCloseTo(234.7255, 3);
    expect(told(context).sentences.join(' ')).toMatch(/Lower limit: 234\.7\sMPa\. 90\s% of specimens survive it, with 95\s% confidence\. Of 100 simulated staircases of this size, such a limit held in 93 to 98\./);
    // Its interval reaches as far as the median's own, 272.0 to 300.3: Student's t for 2 whole degrees of freedom times 4.36.
    const state = context.states.symbol('S_50');
    const { factor, degreesOfFreedom } = coverageInterval(state?.status === 'value' ? state.estimate : exactly(0));
    expect(degreesOfFreedom).toBeGreaterThan(2.5);
    expect(degreesOfFreedom).toBeLessThan(3);
    expect(factor).toBeCloseTo(4.303, 3);
    expect(numberOf(context.states, 'S_next')).toBe(280e6);
    expect(warningCodes(context)).toEqual([]);
    expect(context.states.cell('staircase')?.problems).toEqual([]);
  });
  it('stands in the report with the advice and the strength, and with no button', async () => {
    const report = renderSheet(await contextOf(sheet));
    expect(report).toContain('<p class="advice">Next test: 280 MPa, one step of 10 MPa below 290 MPa, because Q18 broke there.</p>');
    expect(report).toContain('290.0 ± 4.4');
    expect(report).not.toContain('add the next test');
  });
  it('comes back byte for byte', () => {
    const document = parseSheet(sheet);
    expect(serialiseSheet(document)).toBe(sheet);
    expect(parseSheet(serialiseSheet(document))).toEqual(document);
    expect(document.blocks.flatMap((block) => (block.kind === 'cell' ? [...block.cell.problems, ...block.cell.unknownKeys] : []))).toEqual([]);
  });
});

describe('at the bench', () => {
  const rows = (...lines: readonly string[]): string => ['specimen,S [MPa],N,outcome', ...lines].join('\n');

  it('before the first test it says how to begin', async () => {
    const context = await withRows('specimen,S [MPa],N,outcome\n');
    expect(told(context).advice).toMatch(/^First test: begin at the level/);
    expect(context.states.cell('staircase')?.problems).toEqual([]);
    expect(told(context).suggestedRow).toBeUndefined();
  });
  it('one fracture, and only fractures: the next level, but no strength', async () => {
    const one = await withRows(rows('A,300,1e6,fracture'));
    expect(told(one).advice).toBe('Next test: 290 MPa, one step of 10 MPa below 300 MPa, because A broke there.');
    expect(told(one).sentences[0]).toMatch(/^No strength can be told yet\./);
    expect(problemOf(one, 'S_50')).toBe('staircase-too-short');
    const all = await withRows(rows('A,300,1e6,fracture', 'B,290,1e6,fracture', 'C,280,1e6,fracture'));
    expect(told(all).advice).toContain('270 MPa');
    expect(problemOf(all, 'S_50')).toBe('staircase-one-outcome');
    expect(all.states.cell('staircase')?.problems).toEqual([]);
  });
  it('a row without an outcome is the test to make, and its level is looked at', async () => {
    const right = await withRows(rows('A,300,1e6,fracture', 'B,290,,'));
    expect(told(right).advice).toBe('Test now: B at 290 MPa, one step of 10 MPa below 300 MPa, because A broke there. Write its outcome into row 2.');
    expect(told(right).suggestedRow).toBeUndefined();
    expect(right.states.cell('tests')?.table?.leftOut).toBe(0);
    const wrong = await withRows(rows('A,300,1e6,fracture', 'b,310,,'));
    expect(told(wrong).advice).toMatch(/^Row 2 stands at 310 MPa, but the staircase asks for 290 MPa/);
    const forgotten = await withRows(rows('A,300,1e6,fracture', 'B,290,,', 'C,280,1e7,runout'));
    expect(warningCodes(forgotten)).toContain('staircase-no-outcome');
  });
  it('a share that was not simulated, five tests and sixty are told apart from what was', async () => {
    const up = Array.from({ length: 60 }, (_, i) => `T${i},${[300, 310, 320, 310][i % 4]},1e7,${['runout', 'runout', 'fracture', 'fracture'][i % 4]}`);
    const sentences = async (lines: readonly string[], settings: Settings = {}): Promise<string> => told(await withRows(rows(...lines), settings)).sentences.join(' ');
    expect(await sentences(up)).toContain('Of 100 simulated staircases of 40 tests, the most that were simulated, such a limit held in 93 to 97.');
    expect(await sentences(up.slice(0, 5))).toContain('For as few as 5 tests it was not simulated how often such a limit holds.');
    expect(await sentences(up.slice(0, 30), { P_S: '99 %' })).toMatch(/Of 100 simulated staircases of this size, a limit for 90\s% with 95\s% confidence held in 95 to 96\./);
  });
  it('few tests with a step that is large beside the strength give no limit above zero, and say so', async () => {
    const context = await withRows(rows('A,60,1e6,fracture', 'B,50,1e7,runout', 'C,60,1e6,fracture'));
    expect(problemOf(context, 'S_d')).toBe('staircase-limit-below-zero');
    expect(told(context).sentences.join(' ')).toContain('These tests give no lower limit above zero');
    expect(numberOf(context.states, 'S_50') / 1e6).toBeCloseTo(55, 9);
  });
  it('levels that the machine can set: the step really made leads on and is counted by, and is told', async () => {
    const text = rows('A,300,1e6,fracture', 'B,292,1e7,runout', 'C,300,1e6,fracture', 'D,292,1e6,fracture');
    const context = await withRows(text, { d_S: '10 MPa', d_m: '4 MPa' });
    expect(told(context).advice).toBe('Next test: 284 MPa, one step of 8 MPa below 292 MPa, because D broke there. The step stated is 10 MPa; the machine is set in steps of 4 MPa, so that each step is 8 MPa, by which the levels are counted too.');
    expect(told(context).suggestedRow?.text).toBe('284');
    expect(told(context).settings).toContain('levels in steps of 4 MPa');
    expect(warningCodes(context)).not.toContain('staircase-off-steps');
    // By hand, one runout at 292: 292 + 8/2; by steps of 10 it would be 297.
    expect(numberOf(context.states, 'S_50') / 1e6).toBeCloseTo(296, 9);
    const any = await withRows(text.replaceAll('292', '290'), { d_S: '10 MPa' });
    expect(told(any).advice).toBe('Next test: 280 MPa, one step of 10 MPa below 290 MPa, because D broke there.');
    // Levels of before that were set otherwise are told of, and not taken for others.
    expect(warningCodes(await withRows(text.replaceAll('292', '290'), { d_S: '10 MPa', d_m: '4 MPa' }))).toContain('staircase-off-steps');
  });
  it('levels listed, not equally far apart: the next is one of them, counting says what it is not made for, maximum likelihood is by choice', async () => {
    const list = ['S [MPa],how', '284,gear 3', '300,gear 4', '291,', '312,gear 5'].join('\n');
    const text = rows('A,300,1e6,fracture', 'B,291,1e7,runout', 'C,300,1e6,fracture', 'D,291,1e6,fracture');
    const context = await withRows(text, { d_S: '10 MPa' }, sheet, list);
    expect(told(context).advice).toBe('Next test: 284 MPa, in the list the nearest to one step of 10 MPa below 291 MPa, because D broke there.');
    expect(told(context).suggestedRow?.text).toBe('284');
    expect(told(context).bench?.level).toBe('284 MPa');
    expect(told(context).settings).toContain('4 levels that can be set, 284 MPa to 312 MPa');
    expect(warningCodes(context)).not.toContain('staircase-unequal');
    // By hand, one runout at 291 with the one distance there is, 9 MPa.
    expect(numberOf(context.states, 'S_50') / 1e6).toBeCloseTo(295.5, 9);
    const on = rows('A,300,1e6,fracture', 'B,291,1e7,runout', 'C,300,1e7,runout', 'D,312,1e6,fracture', 'E,300,1e6,fracture', 'F,291,1e6,fracture', 'G,284,1e7,runout');
    const unequal = await withRows(on, { d_S: '10 MPa', method: 'probit' }, sheet, list);
    expect(unequal.states.cell('staircase')?.warnings.find(({ code }) => code === 'staircase-unequal')).toMatchObject({
      what: 'The levels lie 7 to 12 apart, but counting is made for equal steps: it counts them here as if each step were 9.33, which is not exact.',
      mend: expect.stringContaining('maximum likelihood'),
    });
    // What maximum likelihood finds hangs on no list and on no step.
    const plain = await withRows(on, { d_S: '5 MPa', method: 'probit' });
    expect(numberOf(unequal.states, 'S_50') / 1e6).toBeCloseTo(numberOf(plain.states, 'S_50') / 1e6, 6);
    const end = await withRows(rows('A,284,1e6,fracture'), { d_S: '10 MPa' }, sheet, list);
    expect(told(end).advice).toBe('The list of levels that can be set has none farther in the direction of the next test: add one, or begin again at another level.');
  });
  it('13 gears by a machine of 0.5 kN with a step of 1.2 kN wished: counted by 1 kN as printed (Gorla et al. 2017, Table 6)', async () => {
    const context = await withRows(published('gorla-751', 'load_kN', 'kN'), { d_S: '1.2 kN', d_m: '0.5 kN' }, inLoads);
    const as = await withRows(published('gorla-751', 'load_kN', 'kN'), {}, inLoads);
    expect(caseOf(table, 'stair-gorla-751').missed('mean_brownlee', findings(context).result?.meanOfLevels ?? 0)).toEqual([]);
    expect(findings(context).result?.counted).toEqual(findings(as).result?.counted);
  });
  it('at the bench the level is said with the test that waits, or with what is to come', async () => {
    const next = await withRows(rows('A,300,1e6,fracture'));
    expect(told(next).bench).toMatchObject({ name: 'Next level', level: '290 MPa', column: 'outcome', outcomes: ['fracture', 'runout', 'suspended', 'invalid'] });
    expect(told(next).bench?.row).toBeUndefined();
    const waits = await withRows(rows('A,300,1e6,fracture', 'B,290,,'));
    expect(told(waits).bench).toMatchObject({ name: 'B now at', level: '290 MPa', asks: 'Row 2, B at 290 MPa has ended as', row: 1 });
    const wrong = await withRows(rows('A,300,1e6,fracture', ',310,,'));
    expect(told(wrong).bench).toMatchObject({ name: 'Next level', level: '290 MPa', asks: 'Row 2 at 310 MPa has ended as', row: 1 });
    const first = await withRows(rows('A,300,,'));
    expect(told(first).bench).toMatchObject({ name: 'A now at', level: '300 MPa', row: 0 });
    expect(told(await withRows(rows())).bench).toBeUndefined();
  });
  it('a suspended test is repeated at its level', async () => {
    const context = await withRows(rows('A,300,1e6,fracture', 'B,290,2e5,suspended'));
    expect(told(context).advice).toBe(
      'Next test: 290 MPa, one step of 10 MPa below 300 MPa, because A broke there. The test of B does not count (suspended), so that level is tested with a new specimen.',
    );
  });
  it('levels in other units of stress are read as such, a load among them is left out', async () => {
    const context = await withRows(rows('A,300,1e6,fracture', 'B,42 ksi,1e7,runout', 'C,300 N,1e6,fracture'));
    expect(findings(context).levels[1]).toBeCloseTo(289.58, 2);
    expect(context.states.cell('tests')?.table?.leftOut).toBe(1);
    expect(findings(context).outcomes).toEqual(['fracture', 'runout', 'invalid']);
    expect(told(context).advice).toMatch(/^Next test: 299\.58 MPa/);
  });
  it('a step in another quantity than the levels is told at the fit', async () => {
    const context = await withRows(rows('A,300,1e6,fracture'), {}, sheet.replace('step: d_S', 'step: N_r'));
    expect(context.states.cell('staircase')?.problems.map(({ code }) => code)).toEqual(['ask-dimension']);
  });
  it('a runout before its time and a fracture after it are told of', async () => {
    const context = await withRows(rows('A,300,1e6,fracture', 'B,290,3e6,runout', 'C,300,2e7,fracture'));
    expect(warningCodes(context)).toEqual(expect.arrayContaining(['staircase-runout-early', 'staircase-fracture-late']));
  });
  it('the level offered for the next row is written as the table writes numbers', async () => {
    const context = await withRows('specimen;S [MPa];N;outcome\nA;300,5;1000000;fracture\nB;290,5;10000000;runout', { d_S: '2.5 MPa' });
    expect(told(context).suggestedRow).toMatchObject({ tableId: 'tests', column: 'S', text: '293' });
    const fraction = await withRows('specimen;S [MPa];N;outcome\nA;300,5;1000000;fracture', { d_S: '2 MPa' });
    expect(told(fraction).suggestedRow?.text).toBe('298,5');
  });
  it('a sheet without the columns says which are wanted', async () => {
    const context = await withRows(rows('A,300,1e6,fracture'), {}, sheet.replace('key: outcome', 'key: ended'));
    expect(context.states.cell('staircase')?.problems[0]).toMatchObject({ code: 'staircase-column', what: 'The table has no column outcome.' });
  });

  it.each([['1e-320, 2e-320', 'so small'], ['"1e155"', 'so large']])('a step out of all proportion to the levels is told, without a fault: %s', async (value, size) => {
    const odd = sheet.replace('value: 10 MPa', `value: ${value}`);
    expect(await faultsIn(odd)).toEqual([]);
    expect((await contextOf(odd)).states.cell('staircase')?.problems).toMatchObject([{ code: 'staircase-step-size', what: expect.stringContaining(size) }]);
  });
});
