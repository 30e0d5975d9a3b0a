/** Two groups, and other models beside a line, from the sheet's text to what is said of them. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { presentBeside, presentFit, presentSymbol, renderSheet } from '../../src/report/index.ts';
import groups from '../tables/compare-groups.json' with { type: 'json' };
import table from '../tables/sheet-comparison.json' with { type: 'json' };
import { found, GROUPS, INVENTED_ROWS, row, sheetWith, shown } from './findings-sheet.ts';
import { cellOf, contextOf, fenced } from './sheet-at.ts';

const ASKS = ['asks:', '  stress: 400 MPa', '  life: 1e6 cycles'];
const PUBLISH = ['symbols:', '  N_ratio: r_N', '  S_ratio: r_S', '  p_common: p_1'];
const compared = (rows: readonly string[], ...more: readonly string[]) => found(sheetWith(rows, [], fenced('fit', ...GROUPS, ...more)), 'groups');
/** As many figures as are shown. */
const near = (text: string | undefined, value: number, relative = 6e-3): void => expect(Math.abs(shown(text) / value - 1)).toBeLessThan(relative);

describe('two groups compared', () => {
  test('by least squares: tests, ratios and limits of an independent calculation (R 4.2.2)', async () => {
    const pair = await compared(INVENTED_ROWS, ...ASKS, ...PUBLISH);
    const { commonAgainstSeparate, parallelAgainstSeparate, commonAgainstParallel } = groups.tests['least squares'];
    for (const [head, [F = 0, df1, df2, p = 0]] of [
      ['One line for both', commonAgainstSeparate], ['Two lines of the same slope', parallelAgainstSeparate], ['One line, if', commonAgainstParallel],
    ] as const) {
      const cells = row(pair, 1, head);
      near(cells[0], F);
      expect(cells[1]).toBe(`${df1}, ${df2}`);
      near(cells[2], p, 2e-2);
      expect(cells[3]).toBe('it may');
    }
    const { scatter, lives, strengths } = table;
    near(row(pair, 1, 'The same scatter')[0], scatter.F);
    near(row(pair, 1, 'The same scatter')[2], scatter.p, 2e-2);
    const life = row(pair, 2, 'Median life at 400 MPa / cycles');
    [...lives.cycles, lives.ratio, lives.lower, lives.upper].forEach((value, i) => near(life[i], value));
    const strength = row(pair, 2, 'Strength at 10⁶ cycles / MPa');
    [...strengths.stressMpa, strengths.ratio, strengths.lower, strengths.upper].forEach((value, i) => near(strength[i], value));
    // Difference 4.49 MPa, limits −28.6 and 19.7 by the delta method with Welch's degrees of freedom.
    expect(pair.sentences[2]).toContain('a difference of −4.5 MPa (−29 … 20 MPa): either may be the stronger one, since the limits take in 1');
    expect(presentSymbol('p_1', pair.context)).toMatchObject({ kind: 'value', number: '0.827\u202f13' });
    const ratio = pair.context.states.symbol('r_N');
    expect(ratio?.status === 'value' ? ratio.estimate.value : Number.NaN).toBeCloseTo(lives.ratio, 9);
    expect(pair.settings).toEqual(['even', 'odd', 'least squares', 'straight line', 'logarithm of stress', '95\u00a0% confidence']);
  });

  test.each(['lognormal', 'weibull'] as const)('by likelihood ratio, as computed independently (%s)', async (life) => {
    const pair = await compared(INVENTED_ROWS, 'method: maximum-likelihood', `life: ${life}`);
    const [statistic = 0, df, p = 0] = groups.tests[life].commonAgainstSeparate;
    const cells = row(pair, 1, 'One line for both');
    near(cells[0], statistic);
    expect(cells[1]).toBe(String(df));
    near(cells[2], p, 2e-2);
    expect(pair.warnings.map(({ code }) => code)).toContain('comparison-narrow');
  });

  test('what is not found is no proof, what is found gives no cause', async () => {
    const alike = await compared(INVENTED_ROWS, ...ASKS);
    expect(alike.sentences[0]).toMatch(/^These tests give no reason to draw two lines for even and odd \(F\(2, 14\) = 0\.192, p = 0\.83\)\.$/);
    expect(alike.sentences.at(-1)).toMatch(/^That is no proof that the groups are alike: a difference anywhere between the limits/);
    const tenfold = INVENTED_ROWS.map((line) => line.replace(/,odd,(\d+),(\d+)/, (_all, s: string, n: string) => `,odd,${s},${Number(n) * 10}`));
    const apart = await compared(tenfold, ...ASKS);
    expect(apart.sentences[0]).toContain('do not share one line, and nothing speaks against one slope');
    expect(apart.sentences[1]).toMatch(/^At 400 MPa even lasts 0\.118 times as long as odd .*: shorter, beyond what chance explains\.$/);
    expect(apart.sentences.at(-1)).toMatch(/^That groups differ does not say why\./);
  });

  test('lines that cross are told', async () => {
    const crossing = [[500, 1e5], [500, 1.2e5], [400, 1e6], [400, 1.1e6], [350, 4e6], [350, 3.5e6]]
      .flatMap(([s = 0, n = 0], i) => [`C${i},flat,${s},${n},fracture`, `D${i},steep,${s},${5e5 * (450 / s) ** (3 + i / 50)},fracture`]);
    expect((await compared(crossing, ...ASKS)).sentences[0]).toMatch(/^flat and steep have lines of different slope .*: which of them lasts longer hangs on the stress\.$/);
  });

  test('the order of the rows changes nothing but which group is named first', async () => {
    const asked = ['asks:', '  first: odd', '  second: even', '  stress: 400', '  life: 1e6'];
    const whole = await compared(INVENTED_ROWS, ...asked);
    await fc.assert(fc.asyncProperty(fc.shuffledSubarray(INVENTED_ROWS, { minLength: INVENTED_ROWS.length }), async (rows) => {
      const { tables, sentences } = await compared(rows, ...asked);
      expect([tables, sentences]).toEqual([whole.tables, whole.sentences]);
    }), { numRuns: 4 });
    const swapped = await compared(INVENTED_ROWS, ...ASKS);
    expect(shown(row(swapped, 2, 'Median life')[2]) * shown(row(whole, 2, 'Median life')[2])).toBeCloseTo(1, 1);
  });

  test('more than two groups are tested together as well', async () => {
    const three = INVENTED_ROWS.map((line, i) => line.replace(/,(even|odd),/, `,${['one', 'two', 'three'][i % 3]},`));
    const { tables, chosen } = { ...(await compared(three)), chosen: (await compared(three, 'asks:', '  first: three')).settings };
    expect(tables.at(-1)?.caption).toBe('All 3 groups at once');
    // Straight lines for k groups: 2k − 2 fewer parameters in one line for all, k − 1 fewer with one slope.
    expect(tables.at(-1)?.rows.map(({ cells }) => cells[1]?.split(',')[0])).toEqual(['4', '2', '2']);
    expect(chosen.slice(0, 2)).toEqual(['three', 'one']);
  });
});

describe('where there is nothing to compare', () => {
  test.each([
    ['one group', INVENTED_ROWS.map((line) => line.replace(/,(even|odd),/, ',all,')), 'There are no two groups to compare'],
    ['no group', INVENTED_ROWS.map((line) => line.replace(/,(even|odd),/, ',,')), 'There are no two groups to compare'],
    ['no rows', [], 'There are no two groups to compare'],
    ['a group of one specimen', [...INVENTED_ROWS.map((line) => line.replace(/,odd,/, ',even,')), 'Z,lone,450,1e6,fracture'], 'lone: '],
  ])('%s is said, and is no error', async (_what, rows, words) => {
    const pair = await compared(rows, ...ASKS, ...PUBLISH);
    expect([pair.problems, pair.tables]).toEqual([[], []]);
    expect(pair.sentences[0]).toContain(words);
    expect(presentSymbol('r_N', pair.context)?.kind).toBe('problem');
  });

  test('groups may be called by any word, also by those of the sheet', async () => {
    const named = INVENTED_ROWS.map((line) => line.replace(/,(even|odd),/, (_all, group: string) => `,${group === 'even' ? '__proto__' : '<b>all</b>'},`));
    const pair = await compared(named, ...ASKS);
    expect(pair.settings.slice(0, 2)).toEqual(['__proto__', '<b>all</b>']);
    expect(pair.tables).toHaveLength(3);
    expect(renderSheet(pair.context)).not.toContain('<b>all</b>');
  });

  test.each([
    [['asks:', '  first: neither'], 'comparison-group'],
    [['asks:', '  first: odd', '  second: odd'], 'comparison-same-group'],
    [['asks:', '  first: by nobody'], 'ask-choice'],
  ])('%j is told at the cell', async (lines, code) => {
    expect((await compared(INVENTED_ROWS, ...lines)).problems.map((problem) => problem.code)).toEqual([code]);
  });

  test('a line with a fatigue limit is not compared, in words', async () => {
    const pair = await compared(INVENTED_ROWS, 'method: maximum-likelihood', 'model: limit');
    expect([pair.problems, pair.sentences[0]?.startsWith('Groups are compared by straight or curved lines')]).toEqual([[], true]);
  });

  test('a table that is not there is told', async () => {
    const pair = await found(sheetWith(INVENTED_ROWS, [], fenced('fit', 'id: groups', 'finds: comparison', 'table: tests')), 'groups');
    expect(pair.problems.map(({ what }) => what)).toEqual(['There is no table called tests in this sheet.']);
  });

  test('very many groups are not tested at once', async () => {
    const many = Array.from({ length: 13 }, (_one, i) => [[500, 1e5], [450, 4e5], [400, 2e6]].map(([s, n = 0], j) => `M${i}.${j},group ${i},${s},${Math.round(n * (1 + ((i * 7 + j * 3) % 5) / 20))},fracture`)).flat();
    const pair = await compared(many, ...ASKS);
    expect(pair.facts).toEqual([{ name: 'All groups at once', text: 'not tested: All 13 groups together are too many to be tested at once.' }]);
  });
});

describe('other models beside a line by maximum likelihood', () => {
  const beside = async (...line: readonly string[]) => {
    const context = await contextOf(sheetWith(INVENTED_ROWS, line));
    const cell = cellOf(context, 'fit', 'line');
    return { hasBeside: presentFit(cell, context).hasBeside, tables: presentBeside(cell, context) };
  };

  test('log likelihood, AIC and likelihood ratio are those of R 4.2.2, survreg', async () => {
    const models = await beside('method: maximum-likelihood');
    for (const [head, name] of [
      ['straight line, lognormal', 'lognormal linear'], ['quadratic, lognormal', 'lognormal quadratic'],
      ['straight line, Weibull', 'weibull linear'], ['quadratic, Weibull', 'weibull quadratic'],
    ] as const) {
      const [likelihood, aic, p] = row(models, 0, head);
      const expected: { logLikelihood: number; aic: number; p?: number } = table.models[name];
      expect(shown(likelihood)).toBeCloseTo(expected.logLikelihood, 2);
      expect(shown(aic)).toBeCloseTo(expected.aic, 2);
      expect(p === '–').toBe(expected.p === undefined);
      expect(Math.abs(shown(p) - (expected.p ?? Number.NaN)) > 2e-2 * (expected.p ?? 0)).toBe(false);
    }
    expect(models.tables[0]?.note).toContain('that of “quadratic, lognormal lives” is smaller by 2.5');
  });

  test('limits by profile likelihood are those of R 4.2.2, and it is said where they differ much', async () => {
    const models = await beside('method: maximum-likelihood');
    const { B, s } = table.profiles;
    for (const [head, { lower, upper }] of [['B', B], ['s', s]] as const) {
      const cells = row(models, 1, head);
      near(cells[2], lower, 1e-3);
      near(cells[3], upper, 1e-3);
    }
    expect(models.tables[1]?.note).toMatch(/^They differ much for .*s: /);
  });

  test('least squares has none, and a long table is left in peace', async () => {
    expect(await beside()).toEqual({ hasBeside: false, tables: [] });
    const long = Array.from({ length: 1001 }, (_one, i) => `L${i},,${300 + (i % 7) * 30},${10_000 + ((i * 7919) % 9973) * 100},fracture`);
    const context = await contextOf(sheetWith(long, ['method: maximum-likelihood']));
    expect(presentBeside(cellOf(context, 'fit', 'line'), context)).toEqual([]);
  });
});
