/** Limits of life and of strength, from the sheet's text to what is said of them. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { standardUncertainty } from '../../src/core/estimate/index.ts';
import { presentSymbol, renderSheet, type PresentContext } from '../../src/report/index.ts';
import { parseSheet, serialiseSheet } from '../../src/sheet/index.ts';
import regression from '../tables/sn-regression.json' with { type: 'json' };
import { EXAMPLE_ROWS, found, INVENTED_ROWS, LIMITS, row, sheetWith, shown } from './findings-sheet.ts';
import { fenced, given, step } from './sheet-at.ts';

const expected = regression.cases.find(({ id }) => id === 'sn-e739-example-full')?.expected as unknown as Readonly<Record<string, { readonly value: number & readonly number[] }>>;
const life = (name: string): number => 10 ** Number(expected[name]?.value);
const asks = (...lines: readonly string[]): string => fenced('fit', ...LIMITS, ...lines.map((line) => `  ${line}`));
/** Three figures are shown. */
const near = (text: string | undefined, value: number): void => expect(Math.abs(shown(text) / value - 1)).toBeLessThan(6e-3);

function valueOf(context: PresentContext, symbol: string): number {
  const state = context.states.symbol(symbol);
  return state?.status === 'value' ? state.estimate.value : Number.NaN;
}

describe('limits of life at a stress', () => {
  test('are those of the worked example of ASTM E739 (recalled; recomputed with R 4.2.2) at x = 0.01', async () => {
    const limits = await found(sheetWith(EXAMPLE_ROWS, [], asks('stress: 0.01 MPa', 'share: 95 %', 'confidence: 95 %', 'next: 1')), 'limits');
    const [low = 0, high = 0] = expected['band_N']?.value ?? [];
    near(row(limits, 0, 'Median')[0], life('ci_lo'));
    near(row(limits, 0, 'Median')[1], Number(expected['N_median']?.value));
    near(row(limits, 0, 'Median')[2], life('ci_hi'));
    near(row(limits, 0, 'Whole median line')[0], low);
    near(row(limits, 0, 'Whole median line')[2], high);
    near(row(limits, 0, 'Next specimen')[0], life('pi_lo'));
    near(row(limits, 0, 'Next specimen')[2], life('pi_hi'));
    near(row(limits, 0, 'Design value')[0], life('tol_lo'));
    // k·s = 3.9020·s: k computed with scipy (integral of Wald and Wolfowitz) for the leverage 0.2182 of the example there and 7 degrees of freedom.
    near(row(limits, 0, 'Interval of')[0], Number(expected['N_median']?.value) / 10 ** 0.412857);
    near(row(limits, 0, 'Interval of')[2], Number(expected['N_median']?.value) * 10 ** 0.412857);
    expect(limits.sentences[0]).toMatch(/^At 0\.01 MPa half of all specimens last 455 cycles; with 95\u00a0% confidence at least 95\u00a0% last longer than 202 cycles\.$/);
    expect(limits.sentences[1]).toContain('7 degrees of freedom');
    expect(limits.problems).toEqual([]);
  });

  test('publish a design value in full, which is the strength at just that life', async () => {
    const symbols = ['symbols:', '  N_design: N_d', '  S_design: S_d'];
    const text = sheetWith(EXAMPLE_ROWS, [], given('x', '0.01 MPa', 'MPa'), fenced('fit', ...LIMITS, '  stress: x', '  life: N_p', '  share: 95 %', ...symbols), step('N_p', '202.1125', 'cycles'));
    const { context } = await found(text, 'limits');
    expect(Math.abs(valueOf(context, 'N_d') / life('tol_lo') - 1)).toBeLessThan(1e-7);
    expect(Math.abs(valueOf(context, 'S_d') / 1e4 - 1)).toBeLessThan(1e-5);
  });

  test('publish everything that the table shows: median with its uncertainty, both sides of median, line and next specimen', async () => {
    const symbols = ['symbols:', '  N_50: N_m', '  N_50_low: N_l', '  N_50_high: N_h', '  N_band_low: N_bl', '  N_band_high: N_bh', '  N_next: N_nl', '  N_next_high: N_nh', '  N_interval_high: N_ih', '  N_two_s: N_2',
      '  S_50: S_m', '  S_50_low: S_l', '  S_50_high: S_h', '  N_share: N_s'];
    const { context } = await found(sheetWith(EXAMPLE_ROWS, [], fenced('fit', ...LIMITS, '  stress: 0.01 MPa', '  life: 455', '  share: 95 %', '  next: 1', ...symbols)), 'limits');
    const at = (symbol: string): number => valueOf(context, symbol);
    const [low = 0, high = 0] = expected['band_N']?.value ?? [];
    const told: readonly (readonly [string, number])[] = [
      ['N_m', Number(expected['N_median']?.value)], ['N_l', life('ci_lo')], ['N_h', life('ci_hi')], ['N_nl', life('pi_lo')], ['N_nh', life('pi_hi')], ['N_bl', low], ['N_bh', high],
      ['N_ih', Number(expected['N_median']?.value) * 10 ** 0.412857],
    ];
    for (const [symbol, value] of told) expect([symbol, Math.abs(at(symbol) / value - 1) < 1e-5]).toEqual([symbol, true]);
    // Its standard uncertainty: the limits lie Student's t away, t(0.975, 7) = 2.364624 (any table).
    const state = context.states.symbol('N_m');
    const u = state?.status === 'value' ? standardUncertainty(state.estimate) : Number.NaN;
    expect(u / at('N_m')).toBeCloseTo(Math.log(life('ci_hi') / life('ci_lo')) / (2 * 2.364624), 5);
    // The strength at the median life of a stress is that stress, and lies between its limits.
    expect(at('S_m') / 1e6).toBeCloseTo(0.01, 4);
    expect(at('S_l') < at('S_m') && at('S_m') < at('S_h')).toBe(true);
    expect(at('N_s') < at('N_m') && at('N_2') < at('N_m')).toBe(true);
  });

  test('of one line vary together: a median life and the strength at it say so', async () => {
    const asked = (...more: readonly string[]): string => sheetWith(EXAMPLE_ROWS, [], fenced('fit', ...LIMITS, '  stress: 0.01 MPa', '  life: 455', 'symbols:', '  N_50: N_m', '  S_50: S_m'), ...more);
    const { context } = await found(asked(step('p', 'ln(N_m) - 1/0.3*ln(S_m/unit(MPa))', '1'), step('q', 'ln(N_m) + 1/0.3*ln(S_m/unit(MPa))', '1')), 'limits');
    const u = (symbol: string): number => {
      const state = context.states.symbol(symbol);
      return state?.status === 'value' ? standardUncertainty(state.estimate) : Number.NaN;
    };
    // A line that lies higher gives the longer life and the greater strength: both errors have one sign.
    expect(u('q')).toBeGreaterThan(1.5 * u('p'));
  });

  test('carry the uncertainty of the stress that is asked about, and no other', async () => {
    const publish = ['symbols:', '  N_design: N_d'];
    const u = async (value: string): Promise<number> => {
      const { context } = await found(sheetWith(EXAMPLE_ROWS, [], given('x', value, 'MPa'), fenced('fit', ...LIMITS, '  stress: x', ...publish)), 'limits');
      const state = context.states.symbol('N_d');
      return state?.status === 'value' ? standardUncertainty(state.estimate) / state.estimate.value : Number.NaN;
    };
    expect(await u('0.01 MPa')).toBe(0);
    // Near the middle of the tests the design curve is as good as parallel to the line: N as S to the power B.
    expect(await u('0.003 ± 0.00003 MPa')).toBeCloseTo(0.01451, 3);
  });

  test('are told in the reader’s units, and the lives stay the same', async () => {
    const text = sheetWith(INVENTED_ROWS, [], asks('stress: 450 MPa', 'life: 1e6'));
    const [si, us] = [await found(text, 'limits'), await found(text, 'limits', 'US customary')];
    expect(us.tables[0]?.caption).toBe('Life at 65.27 ksi, in cycles');
    expect(us.tables[0]?.rows).toEqual(si.tables[0]?.rows);
    expect(us.tables[1]?.caption).toBe('Strength at 10⁶ cycles, in ksi');
    // 1 ksi = 6.894757 MPa.
    expect(Math.abs(shown(row(us, 1, 'Median')[1]) * 6.894757 - shown(row(si, 1, 'Median')[1]))).toBeLessThan(0.1);
  });

  test('don’t hang on the order of the rows', async () => {
    const whole = await found(sheetWith(INVENTED_ROWS, ['method: maximum-likelihood'], asks('stress: 450', 'life: 1e6')), 'limits');
    await fc.assert(fc.asyncProperty(fc.shuffledSubarray(INVENTED_ROWS, { minLength: INVENTED_ROWS.length }), async (rows) => {
      const { tables } = await found(sheetWith(rows, ['method: maximum-likelihood'], asks('stress: 450', 'life: 1e6')), 'limits');
      expect(tables).toEqual(whole.tables);
    }), { numRuns: 4 });
  });
});

describe('limits where there are none', () => {
  const LIMIT_ROWS = [[500, 5e4], [500, 7e4], [450, 1.4e5], [450, 1.1e5], [420, 3e5], [420, 2.4e5], [405, 1.1e6], [405, 7e5]]
    .map(([stress = 0, n = 0], i) => `L${i + 1},,${stress},${n},fracture`).concat(['L9,,395,1e7,runout', 'L10,,390,1e7,runout', 'L11,,395,1e7,runout']);

  test('below a fatigue limit it is said so, and no number stands there', async () => {
    const line = ['method: maximum-likelihood', 'model: limit'];
    const limits = await found(sheetWith(LIMIT_ROWS, line, fenced('fit', ...LIMITS, '  stress: 300 MPa', 'symbols:', '  N_design: N_d')), 'limits');
    expect(limits.sentences).toEqual(['300 MPa lies at or below the fatigue limit of this line: by it no specimen breaks there, so no life can be bounded.']);
    expect(limits.tables).toEqual([]);
    expect(limits.problems).toEqual([]);
    expect(limits.warnings.map(({ code }) => code)).toContain('limits-beyond-stress');
    expect(presentSymbol('N_d', limits.context)).toMatchObject({ kind: 'problem', problem: { code: 'limit-none' } });
    expect(renderSheet(limits.context)).not.toMatch(/NaN|Infinity|undefined/);
  });

  test('far from the tests lives are told in words where no test could have such a length', async () => {
    const limits = await found(sheetWith(EXAMPLE_ROWS, [], asks('stress: 1e-14 MPa', 'life: 1e-3')), 'limits');
    expect(row(limits, 0, 'Median')[1]).toBe('more than 10¹⁵');
    expect(limits.warnings.map(({ code }) => code)).toEqual(expect.arrayContaining(['limits-beyond-stress', 'limits-beyond-life']));
    expect(JSON.stringify(limits.tables)).not.toMatch(/NaN|∞|null|Infinity/);
  });

  test('few failures are warned of', async () => {
    const few = INVENTED_ROWS.slice(0, 5).concat(INVENTED_ROWS.slice(20, 23));
    const limits = await found(sheetWith(few, ['method: maximum-likelihood', 'life: weibull'], asks('stress: 450')), 'limits');
    expect(limits.warnings.map(({ code }) => code)).toContain('failures-few');
    expect(limits.sentences[1]).toContain('adjusted for few specimens');
  });

  test('a line that rises has no strength, which is said', async () => {
    const rising = [[300, 1e4], [300, 2e4], [350, 4e4], [350, 8e4], [400, 2e5], [400, 3e5]].map(([stress, n], i) => `R${i},,${stress},${n},fracture`);
    const limits = await found(sheetWith(rising, [], asks('life: 1e5')), 'limits');
    expect(limits.sentences[0]).toMatch(/^No strength can be told: the line has no falling part/);
    expect(limits.warnings.map(({ code }) => code)).toContain('line-rising');
  });
});

describe('what is asked', () => {
  const problems = async (...more: readonly string[]): Promise<readonly string[]> =>
    (await found(sheetWith(INVENTED_ROWS, [], ...more), 'limits')).problems.map(({ code }) => code);

  test.each([
    ['nothing', ['id: limits', 'finds: limits', 'of: line'], 'limits-nothing-asked'],
    ['a symbol that nothing defines', [...LIMITS, '  stress: S_x'], 'symbol-unknown'],
    ['a stress that is none', [...LIMITS, '  stress: -5 MPa'], 'ask-impossible'],
    ['a length for a stress', [...LIMITS, '  stress: 5 mm'], 'unit-dimension'],
    ['a share of more than all', [...LIMITS, '  stress: 450', '  share: 120 %'], 'ask-impossible'],
    ['half a specimen', [...LIMITS, '  stress: 450', '  next: 2.5'], 'ask-whole'],
    ['a line of no fit', ['id: limits', 'finds: limits', 'of: lime', 'asks:', '  stress: 450'], 'fit-of'],
    ['of itself', ['id: limits', 'finds: limits', 'of: limits', 'asks:', '  stress: 450'], 'fit-of'],
    ['of no line', ['id: limits', 'finds: limits', 'table: specimens', 'asks:', '  stress: 450'], 'fit-of-missing'],
    ['what is not found here', [...LIMITS, '  stress: 450', 'symbols:', '  constructor: N_c'], 'finding-unknown'],
    ['what no fit finds', ['id: limits', 'finds: __proto__', 'table: specimens'], 'fit-finds-unknown'],
  ])('%s is told at the cell', async (_what, lines, code) => {
    expect(await problems(fenced('fit', ...lines))).toContain(code);
  });

  test('a symbol of another dimension is told with both', async () => {
    const limits = await found(sheetWith(INVENTED_ROWS, [], given('d', '7 mm', 'mm'), asks('stress: d')), 'limits');
    expect(limits.problems.map(({ what }) => what)).toEqual(['d is length, but the stress asked about is stress.']);
  });

  test('a loop through what is published is told, and nothing hangs', async () => {
    const loop = [step('S_x', '0.9*S_d', 'MPa'), fenced('fit', ...LIMITS, '  stress: S_x', '  life: 1e6', 'symbols:', '  S_design: S_d')];
    expect(await problems(...loop)).toEqual(['loop']);
  });

  test('unknown names are warned of and the rest is found', async () => {
    const limits = await found(sheetWith(INVENTED_ROWS, [], asks('stress: 450 MPa', 'shre: 99 %', 'hasOwnProperty: 1')), 'limits');
    expect(limits.warnings.filter(({ code }) => code === 'ask-unknown').map(({ mend }) => mend)[0]).toBe('Did you mean share?');
    expect(limits.tables).toHaveLength(1);
  });

  test('trouble upstream is waited for, not told twice', async () => {
    const empty = await found(sheetWith([], [], asks('stress: 450')), 'limits');
    expect([empty.problems, empty.sentences, empty.tables]).toEqual([[], ['This waits for the fit line. Mend line first.'], []]);
    const bad = await found(sheetWith(INVENTED_ROWS, [], given('S_x', 'many MPa', 'MPa'), asks('stress: S_x')), 'limits');
    expect([bad.problems, bad.sentences]).toEqual([[], ['This waits for S_x. Mend S_x first.']]);
  });

  test('what is still asked of the reader is not given away', async () => {
    const limits = await found(sheetWith(INVENTED_ROWS, [], step('S_x', '400*unit(MPa)+50*unit(MPa)', 'MPa', 'asked: true'), asks('stress: S_x')), 'limits');
    expect([limits.sentences, limits.tables, limits.facts, limits.settings]).toEqual([['After your own working.'], [], [], []]);
  });

  test('the text comes back byte for byte, with keys that nobody knows', () => {
    const text = sheetWith(INVENTED_ROWS, [], fenced('fit', ...LIMITS, '  stress:   450 MPa   # typed so', 'odd_key: "7"', 'finds_not: x'));
    expect(serialiseSheet(parseSheet(text))).toBe(text);
  });
});
