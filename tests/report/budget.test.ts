import { describe, expect, it } from 'vitest';
import { budgetCsv, presentBudget, presentFigure, presentRequirements, renderSheet, sheetTex, type PresentedBudget, type PresentedRequirements } from '../../src/report/index.ts';
import { cellOf, contextOf, fenced, given, step } from './sheet-at.ts';

async function budgetOf(text: string, symbol: string, level?: number): Promise<PresentedBudget> {
  const budget = presentBudget(symbol, await contextOf(text), level);
  if (budget === undefined) throw new Error(`${symbol} has no budget`);
  return budget;
}

async function requirementsOf(text: string, symbol: string, wanted: string): Promise<PresentedRequirements> {
  const told = presentRequirements(symbol, wanted, await contextOf(text));
  if (told === undefined) throw new Error(`${symbol} has no value`);
  if (!told.ok) throw new Error(told.problem.code);
  return told.value;
}

async function refusalOf(text: string, symbol: string, wanted: string): Promise<string> {
  const told = presentRequirements(symbol, wanted, await contextOf(text));
  return told === undefined || told.ok ? '' : told.problem.code;
}

describe('presentBudget', () => {
  it('tells each input\'s part, the largest first', async () => {
    // y = a b: u(y)² = (b u(a))² + (a u(b))² = (3 · 0.02)² + (2 · 0.04)² = 0.06² + 0.08² = 0.1² (JCGM 100:2008, eq. 10).
    const budget = await budgetOf(given('a', '2 ± 0.02 mm', 'mm') + given('b', '3 ± 0.04 N', 'N') + step('y', 'a*b', 'N*mm'), 'y');
    expect(budget.rows).toMatchObject([
      {
        input: 'b', inputTex: 'b', value: '3.000 N', uncertainty: '0.040 N', type: 'B', distribution: 'normal', degreesOfFreedom: '∞',
        sensitivity: '2.00 N·mm/N', contribution: '0.080 N·mm', share: '64 %', parts: { own: expect.closeTo(0.64, 12), shared: 0 },
      },
      {
        input: 'a', inputTex: 'a', value: '2.000 mm', uncertainty: '0.020 mm', sensitivity: '3.00 N·mm/mm',
        contribution: '0.060 N·mm', share: '36 %', parts: { own: expect.closeTo(0.36, 12), shared: 0 },
      },
    ]);
    expect(budget.total).toMatchObject({
      value: '6.00 N·mm', uncertainty: '0.10 N·mm', relative: '1.7 %', degreesOfFreedom: '∞', factor: '1.96', level: '95 %', expanded: '0.20 N·mm',
    });
  });

  it('tells what correlation adds or takes; with the shares it makes the whole', async () => {
    // y = a + b, u(a) = 3, u(b) = 4, r = −0.5: u(y)² = 9 + 16 − 2 · 0.5 · 3 · 4 = 13 (JCGM 100:2008, eq. 16).
    const { rows, isCorrelated, total } = await budgetOf(
      given('a', '20 ± 3 N', 'N', 'correlated:', '  b: -0.5') + given('b', '30 ± 4 N', 'N') + step('y', 'a+b', 'N'), 'y');
    expect(rows.map(({ input, share, covarianceShare }) => [input, share, covarianceShare])).toEqual([
      ['b', '123 %', '−46 %'], // 16/13 and −6/13
      ['a', '69 %', '−46 %'], // 9/13
    ]);
    expect(rows.reduce((sum, { parts }) => sum + parts.own + parts.shared, 0)).toBeCloseTo(1, 12);
    expect(isCorrelated).toBe(true);
    expect(total.degreesOfFreedom).toBe('∞');
  });

  it('has one row for the parameters of one line, whose single contributions cancel, and claims its degrees of freedom', async () => {
    // Least squares by hand: lg N = 5, 4.2, 3.1 at lg S = 1, 2, 3 (S/MPa = 10, 100, 1000): B = −0.95, A = 6, s² = (0.05² + 0.1² + 0.05²)/1 = 0.015.
    const rows = ['S,N,outcome', '10,100000,fracture', '100,15848.931924611,fracture', '1000,1258.925411794,fracture'];
    const text = [
      fenced('table', 'id: t', 'columns:', '  - key: S', '    type: quantity', '    unit: MPa', '  - key: N', '    type: quantity', '    unit: cycles', '  - key: outcome', '    type: choice', '    options: fracture, runout',
        'rows: |', ...rows.map((row) => `  ${row}`)),
      fenced('fit', 'id: line', 'label: Line of the class', 'table: t', 'method: least-squares', 'life: lognormal', 'symbols:', '  A: A', '  B: B'),
      step('y', 'A + 4*B', '1'),
    ].join('');
    const { rows: [row, ...others], total, isCorrelated } = await budgetOf(text, 'y');
    // At lg S = 4, 2 from the mean: u² = s² (1/3 + 4/2) = 0.035; n − 2 = 1 degree of freedom, t = 12.71 (any table).
    expect(others).toEqual([]);
    expect(isCorrelated).toBe(false);
    expect(row).toMatchObject({ inputTex: 'A,\\ B', share: '100 %', sensitivity: 'together', components: [], degreesOfFreedom: '1' });
    expect(total).toMatchObject({ uncertainty: '0.19', degreesOfFreedom: '1', factor: '12.71' });
  });

  it('unfolds an input into its components', async () => {
    // Four readings, mean 10.01: 10.00, 10.02, 10.01, 10.01 have s = √(0.0002/3) = 0.00816, s/√4 = 0.00408.
    // The limit 0.005 mm gives 0.005/√3 = 0.00289 (JCGM 100:2008, 4.3.7); the step of 0.001 mm is in the scatter.
    const text = fenced('given', 'symbol: d', 'readings: 10.00, 10.02, 10.01, 10.01 mm', 'unit: mm', 'instrument: resolution only, 0.001 mm', 'limit: 0.005 mm');
    const { rows } = await budgetOf(text + step('y', '2*d', 'mm'), 'y');
    expect(rows[0]).toMatchObject({ type: 'A and B', uncertainty: '0.0050 mm' });
    expect(rows[0]?.components).toMatchObject([
      { source: '4 readings', type: 'A', distribution: 'Student’s t', degreesOfFreedom: '3', uncertainty: '0.0041 mm', contribution: '0.0082 mm', share: '67 %' },
      { source: 'limit ±0.005 mm', type: 'B', distribution: 'rectangular', degreesOfFreedom: '∞', uncertainty: '0.0029 mm', share: '33 %' },
    ]);
    // 3 · (0.005/0.00408)⁴ by equation G.2b.
    expect(rows[0]?.degreesOfFreedom).toBe('6.8');
  });

  it('names the inputs that were taken as exactly known', async () => {
    const budget = await budgetOf(given('a', '2 ± 0.02 mm', 'mm') + given('k', '0.5', '1') + step('y', 'a*k', 'mm'), 'y');
    expect(budget.rows.map(({ input }) => input)).toEqual(['a']);
    expect(budget.exact).toEqual(['k = 0.5']);
  });

  it('is none where there is no value', async () => {
    const context = await contextOf(fenced('given', 'symbol: x', 'unit: mm'));
    expect(presentBudget('x', context)).toBeUndefined();
  });
});

describe('presentRequirements', () => {
  // y = a + b with u = 3 N and 4 N: u(y) = 5 N.
  const sum = given('a', '20 ± 3 N', 'N') + given('b', '30 ± 4 N', 'N') + step('y', 'a+b', 'N');

  it('says what each input would need, or that it can\'t do it alone and how far it gets', async () => {
    // For 4.5 N: u(b)² = 4.5² − 3² = 11.25, u(b) = 3.354; u(a)² = 4.5² − 4² = 4.25, u(a) = 2.06.
    expect((await requirementsOf(sum, 'y', '4.5 N')).rows.map(({ can, sentence }) => [can, sentence])).toEqual([
      [true, 'u at most 3.4 N (now 4.0 N), 0.84 times as much.'],
      [true, 'u at most 2.1 N (now 3.0 N), 0.69 times as much.'],
    ]);
    // For 7 % of 50 N = 3.5 N: u(b)² = 12.25 − 9 = 3.25; a can't, since b alone gives 4 N, 8 % of the value.
    const tighter = await requirementsOf(sum, 'y', '7 %');
    expect(tighter.wanted).toBe('Wanted: a standard uncertainty of 3.5 N, 7.0 % of the value.');
    expect(tighter.rows.map(({ can, sentence }) => [can, sentence])).toEqual([
      [true, 'u at most 1.8 N (now 4.0 N), 0.45 times as much.'],
      [false, 'can’t do it alone: even if it were known exactly, u would still be 4.0 N (8.0 %).'],
    ]);
    expect(tighter.isMet).toBe(false);
    expect((await requirementsOf(sum, 'y', '6 N')).isMet).toBe(true);
  });

  it('takes correlated inputs together', async () => {
    // u² = 3² + 4² + 2·0.5·3·4 = 37 N² for both together, and 1 N² of c: for u = 3.2 N both at √((10.24 − 1)/37) = 0.4997.
    const { rows } = await requirementsOf(
      given('a', '20 ± 3 N', 'N', 'correlated:', '  b: 0.5') + given('b', '30 ± 4 N', 'N') + given('c', '5 ± 1 N', 'N') + step('y', 'a+b+c', 'N'), 'y', '3.2 N');
    expect(rows.map(({ inputs, can }) => [inputs.map(({ input }) => input), can])).toEqual([[['a', 'b'], true], [['c'], false]]);
    expect(rows[0]?.sentence).toContain('u at most 1.5 N, 2.0 N (now 3.0 N, 4.0 N), 0.50 times as much');
  });

  it('says how many readings would do it, or that the instrument has to be better', async () => {
    const text = fenced('given', 'symbol: d', 'readings: 10.00, 10.02, 10.01, 10.01 mm', 'unit: mm', 'instrument: resolution only, 0.001 mm', 'limit: 0.005 mm') + step('y', '2*d', 'mm');
    // u(d) = 0.004 mm: scatter may give √(0.004² − 0.00289²) = 0.00277; n = 4·(0.00408/0.00277)² = 8.7, hence 9.
    expect((await requirementsOf(text, 'y', '0.008 mm')).rows[0]?.sentence).toContain('9 readings would give that');
    // u(d) = 0.0025 mm is less than the limit alone.
    expect((await requirementsOf(text, 'y', '0.005 mm')).rows[0]?.sentence).toContain('its instrument has to be better');
  });

  it('reads a life\'s factor', async () => {
    // N = k/d with u(d)/d = 2 %: wanted ×/÷ 1.01 is u(N)/N = ln 1.01 = 0.995 %, 0.4975 times as much.
    const { rows } = await requirementsOf(given('d', '10 ± 0.2 mm', 'mm') + step('N', '1000*unit(mm)/d', '1', 'spread: factor'), 'N', '1.01');
    expect(rows[0]?.sentence).toBe('u at most 0.10 mm (now 0.20 mm), 0.50 times as much.');
  });

  it('says in words what it can\'t take', async () => {
    expect(await refusalOf(sum, 'y', '-1 N')).toBe('wanted-not-positive');
    expect(await refusalOf(sum, 'y', '0')).toBe('wanted-not-positive');
    expect(await refusalOf(sum, 'y', '1 mm')).toBe('unit-dimension');
    expect(await refusalOf(sum, 'y', 'soon')).toBe('number-missing');
    expect(await refusalOf(given('a', '0 ± 1 N', 'N') + step('y', '2*a', 'N'), 'y', '5 %')).toBe('wanted-share');
  });
});

describe('a figure of a budget', () => {
  const figure = fenced('figure', 'id: shares', 'label: Shares', 'drawing: budget', 'of: y');
  const sum = given('a', '20 ± 3 N', 'N') + given('b', '30 ± 4 N', 'N') + given('k', '2', '1');

  it('draws the shares as bars, the largest first, and says what they come to', async () => {
    const context = await contextOf(sum + step('y', 'a+b', 'N') + figure);
    const chart = presentFigure(cellOf(context, 'figure', 'shares'), context).chart?.({ width: 600, idPrefix: 'x' });
    expect(chart?.points.map(({ tell }) => tell())).toEqual([
      'b: u = 4.0 N contributes 4.0 N, 64 % of the variance.', 'a: u = 3.0 N contributes 3.0 N, 36 % of the variance.',
    ]);
    expect(chart?.sentence.replaceAll('\u00a0', ' ')).toBe('Combined standard uncertainty 5.0 N (10 % of the value). Effective degrees of freedom: ∞. Expanded uncertainty for a level of confidence of 95 %: k = 1.96 times that, 9.8 N.');
    // The bars are as long as the shares: 64 to 36.
    const widths = [...(chart?.svg ?? '').matchAll(/<rect[^>]*\bwidth="([\d.]+)"[^>]*>/g)].map(([, width]) => Number(width)).filter((width) => width > 20);
    expect((widths[0] ?? 0) / (widths[1] ?? 1)).toBeCloseTo(64 / 36, 2);
    expect(chart?.svg).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('stands in report and LaTeX as table and bars', async () => {
    const context = await contextOf(sum + step('y', '(a+b)*k', 'N') + figure);
    const report = renderSheet(context);
    expect(report).toContain('Uncertainty budget of');
    expect(report).toMatch(/class="bar " style="--share: 0\.640"/);
    const tex = sheetTex(context);
    expect(tex).toContain('$b$ & 30.0 N & 4.0 N & B, normal, $\\nu$ = $\\infty$ & 2.00 N/N & 8.0 N & 64 \\% & \\rule{1.60cm}{1.2ex} \\\\');
    expect(tex).toContain('Taken as exactly known: $k = 2$.');
    expect(tex).toContain('Sensitivities as formulas: $\\dfrac{\\partial y}{\\partial b} = k$,\\quad\n$\\dfrac{\\partial y}{\\partial a} = k$.\\par}');
  });

  it('says in words what it waits for', async () => {
    const instead = async (text: string): Promise<string | undefined> => {
      const context = await contextOf(text + figure);
      return presentFigure(cellOf(context, 'figure', 'shares'), context).instead;
    };
    expect(await instead(sum + step('y', 'k', '1'))).toBe('The budget appears once y has a value with an uncertainty.');
    expect(await instead(sum + step('y', 'a', 'N', 'asked: true'))).toBe('The budget: after your own working.');
    const nobody = await contextOf(figure);
    expect(nobody.states.cell('shares')?.problems.map(({ code }) => code)).toEqual(['role-symbol-unknown']);
  });
});

it('is taken away as a table with more figures than are shown', async () => {
  const context = await contextOf(given('a', '2 ± 0.02 mm', 'mm') + given('b', '3 ± 0.04 N', 'N') + given('k', '7', '1') + step('y', 'a*b*k', 'N*mm'));
  expect(budgetCsv('y', context)?.split('\r\n')).toEqual([
    'input,name,value,unit,standard uncertainty,type,distribution,degrees of freedom,change of y [N·mm] per unit of the input,contribution [N·mm],share of the variance,share by correlation',
    'b,b,3,N,0.04,B,normal,,14,0.56,0.64,0', 'a,a,2,mm,0.02,B,normal,,21,0.42,0.36,0', 'k,k,7,1,0,exact,,,6,0,0,0', '',
  ]);
});
