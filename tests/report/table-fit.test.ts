/** A fitted line as data: the numbers against a calculation by hand, the rest as sentences. */
import { describe, expect, test } from 'vitest';
import { presentFit, renderSheet, type PresentedFit } from '../../src/report/index.ts';
import { serialiseSheet } from '../../src/sheet/index.ts';
import { tableSheet } from '../sheet/table-texts.ts';
import { cellOf, contextOf, fenced } from './sheet-at.ts';

/*
 * Invented lives made so that the sums can be done by hand. X = log10 S: 2 (twice), 3 (twice); Y = log10 N: 6 ∓ 0.1, 4 ∓ 0.1.
 * Ordinary least squares: B = −2, A = 10, residuals ∓0.1, s² = 0.04/2, s = 0.141421; Sxx = 1, mean X = 2.5,
 * so se(B) = s = 0.141421 and se(A) = s·√(1/4 + 2.5²) = 0.360555. Two levels leave no degree of freedom for lack of fit.
 */
const BY_HAND = [[100, 5.9], [100, 6.1], [1000, 3.9], [1000, 4.1]]
  .map(([stress, logLife = 0], i) => `H${i + 1},${stress},${10 ** logLife},fracture`).join('\n');

const LINE = ['id: line', 'label: The line', 'table: specimens', 'symbols:', '  A: A_1', '  B: B_1'];

async function contextWith(rows: string, ...more: readonly string[]) {
  return contextOf(`${serialiseSheet(tableSheet(`specimen,S,N,outcome\n${rows}\n`))}\n${fenced('fit', ...LINE, ...more)}`);
}

async function presented(rows: string, ...more: readonly string[]): Promise<PresentedFit> {
  const context = await contextWith(rows, ...more);
  return presentFit(cellOf(context, 'fit', 'line'), context);
}

const fact = ({ facts }: PresentedFit, name: string) => facts.find((one) => one.name === name)?.text;

describe('a fitted line', () => {
  test('has the parameters of the sums done by hand, each with its limits', async () => {
    const fit = await presented(BY_HAND);
    expect(fit.parameters.map(({ name, symbol, value, standardError }) => [name, symbol, value, standardError])).toEqual([
      ['A', 'A_1', '10.00', '0.36'], ['B', 'B_1', '−2.00', '0.14'], ['s', undefined, '0.141', '0.071'],
    ]);
    // Student’s t, 0.975, 2 degrees of freedom: 4.3027 (any printed table): 10 ∓ 1.5514 and −2 ∓ 0.6085.
    expect(fit.parameters.slice(0, 2).map(({ low, high }) => [low, high])).toEqual([['8.45', '11.55'], ['−2.61', '−1.39']]);
    expect(fit.limits).toBe('95 % limits by Student’s t with 2 degrees of freedom; those of s by χ².');
  });

  test('tells R² and the correlation to who asks, and what they do not say', async () => {
    // Squares about the mean 4·1² + 4·0.1² = 4.04, of which 0.04 is left: R² = 1 − 0.04/4.04 = 0.990099, and its root with the sign of B.
    expect(fact(await presented(BY_HAND), 'R²')).toMatch(/^0\.9901; correlation of log₁₀ N with log₁₀ S −0\.9950\. It grows .* lack of fit and s do$/);
    expect(fact(await presented(BY_HAND, 'method: maximum-likelihood'), 'R²')).toBeUndefined();
  });

  test('is written with symbols of the sheet and with figures enough to be used', async () => {
    const fit = await presented(BY_HAND);
    expect(fit.lineTex).toBe('\\log_{10} N = A_1 + B_1\\,\\log_{10}(S/\\mathrm{MPa})');
    expect(fit.numbersTex).toBe('\\phantom{\\log_{10} N} = 10.0000 - 2.000\\,00\\,\\log_{10}(S/\\mathrm{MPa})');
  });

  test('is written as its model and its scale of stress ask', async () => {
    // Invented lives at four levels, twice each, that bend upwards towards low stress.
    const bent = [[500, 4.5], [500, 4.6], [420, 5.0], [420, 5.15], [360, 5.6], [360, 5.7], [310, 6.6], [310, 6.8]]
      .map(([stress, logLife = 0], i) => `Q${i + 1},${stress},${Math.round(10 ** logLife)},fracture`).join('\n');
    const x = '\\log_{10}(S/\\mathrm{MPa})';
    expect((await presented(bent, 'model: quadratic')).lineTex).toBe(`\\log_{10} N = A_1 + B_1\\,${x} + C\\,\\big(${x}\\big)^2`);
    expect((await presented(bent, 'stress: plain')).lineTex).toBe('\\log_{10} N = A_1 + B_1\\,(S/\\mathrm{MPa})');
    expect((await presented(bent, 'stress: plain', 'model: quadratic')).lineTex).toContain('C\\,(S/\\mathrm{MPa})^2');
    const limit = await presented(`${bent}\nR1,270,1e7,runout\nR2,270,1e7,runout`, 'method: maximum-likelihood', 'model: limit');
    expect(limit.lineTex).toContain('B_1\\,\\log_{10}\\!\\big((S - S_0)/\\mathrm{MPa}\\big)');
    expect(limit.numbersTex).toMatch(/\(S - \d+\.\d+\\,\\mathrm\{MPa\}\)/);
    expect(limit.parameters.map(({ name }) => name)).toEqual(['A', 'B', 'S_0', 's']);
  });

  test('says on how many specimens it rests, where it was tested, and that lack of fit can’t be told', async () => {
    const fit = await presented(`${BY_HAND}\nR1,90,1e7,runout`);
    expect(fit.counts).toBe('4 specimens in the fit: 4 broken; 1 runout left out.');
    expect(fact(fit, 'Tested range')).toMatch(/^100 … 1000 MPa; /);
    expect(fact(fit, 'Lack of fit')).toMatch(/^can’t be tested/);
    expect(fact(fit, 'Replication')).toBe('50 % (4 specimens at 2 levels), too few specimens or replicates even for preliminary tests');
    expect(fit.warnings.map(({ code }) => code)).toContain('runouts-left-out');
    expect(fit.settings).toEqual(['least squares', 'lognormal lives', 'straight line', 'logarithm of stress', 'all groups']);
  });

  test('says the settings in force, as a choice has them', async () => {
    const choice = fenced('choice', 'id: way', 'label: Method', 'chosen: maximum-likelihood', 'options:', '  - key: maximum-likelihood', '    label: by likelihood', '    sets: {}');
    const sheet = serialiseSheet(tableSheet(`specimen,S,N,outcome\n${BY_HAND}\nR1,90,1e7,runout\n`));
    const context = await contextOf(`${sheet}\n${choice}\n${fenced('fit', ...LINE, 'method: by way', 'life: weibull')}`);
    const fit = presentFit(cellOf(context, 'fit', 'line'), context);
    expect(fit.settings.slice(0, 2)).toEqual(['maximum likelihood', 'Weibull lives']);
    expect(fit.method).toContain('characteristic life');
    expect(fit.counts).toBe('5 specimens in the fit: 4 broken, 1 runout.');
  });

  test('by likelihood has limits for few specimens beside its own: those of the sums done by hand, where there are no runouts', async () => {
    const fit = await presented(BY_HAND, 'method: maximum-likelihood');
    // 10 ∓ 1.551 and −2 ∓ 0.60849 as above (4.30265 × 0.141421); of s, √(0.04/χ²) with the 0.975 and 0.025 points of 2 degrees of freedom, 7.3778 and 0.050636.
    expect(fit.limits).toContain('Adjusted for 4 broken specimens they are: A 8.449 … 11.55; B −2.608 … −1.392; s 0.073\u202f63 … 0.8888; in simulations');
    expect(fit.limits).toMatch(/held the truth in 93 to 97 of 100 cases\.$/);
    expect(fit.warnings.find(({ code }) => code === 'limits-narrow')?.what).toContain('in about 70 of 100 cases for the line');
    // 1.96 standard errors of likelihood: s falls by √(2/4).
    expect(fit.parameters[1]?.low).toBe('−2.20');
  });

  test('names an influential specimen as the table does, also behind a row that is left out', async () => {
    const rows = Array.from({ length: 10 }, (_, i) => `N${i},${300 + 10 * i},${Math.round(10 ** (7 - i / 10 + (i % 2 === 0 ? 0.01 : -0.01)))},fracture`);
    const fit = await presented(['bad,abc,1,fracture', ...rows, 'odd one,340,20000,fracture'].join('\n'));
    const [told] = fit.warnings.filter(({ code }) => code === 'specimens-influential');
    expect(told?.what).toBe('odd one stands apart and pulls the line more than the others.');
  });

  test('that can’t be drawn says why and shows no number', async () => {
    const fit = await presented('A1,380,1000,fracture');
    expect([fit.lineTex, fit.parameters, fit.facts]).toEqual([undefined, [], []]);
    expect(fit.problems.map(({ code }) => code)).toEqual(['specimens-too-few']);
  });

  test('stands in the report with its table of parameters', async () => {
    const page = renderSheet(await contextWith(BY_HAND));
    expect(page).toContain('<td class="figures">−2.00</td><td class="figures">0.14</td><td class="figures">−2.61</td><td class="figures">−1.39</td>');
    expect(page).not.toContain('NaN');
  });
});
