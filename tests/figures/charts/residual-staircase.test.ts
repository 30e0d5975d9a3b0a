import { describe, expect, test } from 'vitest';
import { fitLeastSquares, type LeastSquaresFit, type Outcome } from '../../../src/core/fatigue/index.ts';
import { normalScoreChart, residualChart, staircaseChart } from '../../../src/figures/charts/index.ts';
import { all, readSvg, withClass } from '../drawings/svg-reading.ts';
import { between, corners, shapesIn, TEXTS, ticksOf } from './chart-data.ts';
import { size } from '../../sizes.ts';

const OPTIONS = { width: 700, idPrefix: 'r', textSize: 15 };

/*
 * Invented lives whose line is known by hand: log10 N = 6 ∓ 0.1 at 100 MPa and 4 ∓ 0.1 at 1000 MPa, so B = −2, A = 10, fitted
 * lives 10⁶ and 10⁴, residuals ∓0.1, s = √(0.04/2) = 0.141421. A fifth, far below its level's mean, stands apart in the second fit.
 */
function fitOf(rows: readonly (readonly [S: number, logLife: number])[]): LeastSquaresFit {
  const fitted = fitLeastSquares({ stressMpa: rows.map(([S]) => S), cycles: rows.map(([, logLife]) => 10 ** logLife) }, { model: 'linear', stress: 'log' });
  if (!fitted.ok) throw new Error(fitted.problem.what);
  return fitted.value;
}

const BY_HAND = fitOf([[100, 5.9], [100, 6.1], [1000, 3.9], [1000, 4.1]]);
const dataOf = ({ residuals, s }: LeastSquaresFit) => ({ residuals, s, name: ({ row }: { row: number }) => `H${row + 1}`, texts: TEXTS });

describe('residuals', () => {
  test('stand at fitted life and residual, between lines at zero and twice s', () => {
    const chart = residualChart(dataOf(BY_HAND), OPTIONS);
    const svg = readSvg(chart.svg);
    const { x, y } = ticksOf(svg);
    const expected = [[1e4, -0.1], [1e4, 0.1], [1e6, -0.1], [1e6, 0.1]];
    const found = chart.points.map((point) => [point.x, point.y]).toSorted((a, b) => (a[0] ?? 0) - (b[0] ?? 0) || (b[1] ?? 0) - (a[1] ?? 0));
    found.forEach(([atX, atY], i) => {
      expect(atX).toBeCloseTo(between(x, expected[i]?.[0] ?? 0, true), 1);
      expect(atY).toBeCloseTo(between(y, expected[i]?.[1] ?? 0, false), 1);
    });
    const heights = shapesIn(svg, 'two-s-line').map(({ attributes }) => Number(attributes['y1'])).toSorted((a, b) => a - b);
    expect(heights[0]).toBeCloseTo(between(y, 2 * Math.sqrt(0.02), false), 1);
    expect(Number(shapesIn(svg, 'zero-line')[0]?.attributes['y1'])).toBeCloseTo(between(y, 0, false), 1);
    expect(chart.sentence).toContain('No residual lies beyond twice s = 0.14');
    expect(chart.points[0]?.tell()).toMatch(/^H[34]: lg N 0\.10 (below|above) the line, a life (0\.79|1\.3) times the 10000 cycles fitted\.$/);
  });

  test('a specimen that stands apart is a diamond with its name', () => {
    const strange = fitOf([[100, 5.9], [100, 6.1], [1000, 3.9], [1000, 4.1], [300, 5.0], [300, 5.05], [500, 2.2], [500, 4.55], [200, 5.4], [200, 5.35]]);
    const svg = readSvg(residualChart(dataOf(strange), OPTIONS).svg);
    expect(shapesIn(svg, 'apart').length).toBe(1);
    expect(withClass(svg, 'look').map(({ text }) => text)).toEqual(['H7']);
    expect(residualChart(dataOf(strange), OPTIONS).sentence).toContain('H7 stands apart (diamonds).');
    expect(normalScoreChart(dataOf(strange), OPTIONS).sentence).toContain('H7 stands apart');
  });

  test('normal scores are those of the ranks, on a line of slope one', () => {
    const chart = normalScoreChart(dataOf(BY_HAND), OPTIONS);
    const svg = readSvg(chart.svg);
    const { x, y } = ticksOf(svg);
    // Blom: Φ⁻¹((i − 0.375)/4.25), i = 1..4, from a table of the normal distribution: ∓1.0491, ∓0.2993 (computed with scipy.stats.norm.ppf).
    const scores = chart.points.map((point) => point.x);
    [-1.0491, -0.2993, 0.2993, 1.0491].forEach((score, i) => expect(scores[i]).toBeCloseTo(between(x, score, false), 0));
    for (const { x: atX, y: atY } of corners(shapesIn(svg, 'mean-line')[0] as never)) {
      const value = x[0] === undefined ? 0 : x[0].value + ((atX - x[0].at) / ((x.at(-1)?.at ?? 0) - x[0].at)) * ((x.at(-1)?.value ?? 0) - x[0].value);
      expect(atY).toBeCloseTo(between(y, value, false), 1);
    }
  });

  test('those of very many specimens are a density', () => {
    const length = size(10_000, 100_000);
    const residuals = Array.from({ length }, (_, row) => ({
      row, fitted: 4 + (row % 300) / 100, residual: Math.sin(row), leverage: 1e-5, studentised: 3 * Math.sin(row), normalScore: 3 * Math.sin(row), influential: false,
    }));
    for (const draw of [residualChart, normalScoreChart]) {
      const { svg, points } = draw({ residuals, s: 0.3, name: () => '', texts: TEXTS }, OPTIONS);
      expect(svg.length).toBeLessThan(700_000);
      expect(points.map(({ tell }) => Number(tell().replaceAll('\u202f', '').split(' ')[0])).reduce((a, b) => a + b, 0)).toBe(length);
    }
  });
});

describe('a staircase', () => {
  // Invented: up one step after a runout, down one after a fracture.
  const outcomes: readonly Outcome[] = ['fracture', 'runout', 'fracture', 'fracture', 'runout'];
  const levels = [340, 320, 340, 320, 300];
  const data = { levels, outcomes, name: (place: number) => `B${place + 1}`, unit: 'MPa', level: TEXTS.stress, mean: 322, next: 320 };

  test('tests stand at their number and level; crosses for fractures, rings for runouts', () => {
    const chart = staircaseChart(data, OPTIONS);
    const svg = readSvg(chart.svg);
    const { x, y } = ticksOf(svg);
    chart.points.forEach((point, i) => {
      expect(point.x).toBeCloseTo(between(x, i + 1, false), 1);
      expect(point.y).toBeCloseTo(between(y, levels[i] ?? 0, false), 1);
    });
    expect(shapesIn(svg, 'unbroken').length).toBe(2);
    expect(withClass(svg, 'fracture-cross').length).toBe(2 * 3 + 2); // two strokes each, and in the key
    expect(corners(shapesIn(svg, 'step-line')[0] as never).length).toBe(5);
    expect(chart.points[1]?.tell()).toBe('Test 2, B2: 320 MPa, runout.');
  });

  test('median strength and next level are marked and told', () => {
    const chart = staircaseChart(data, OPTIONS);
    const svg = readSvg(chart.svg);
    const { x, y } = ticksOf(svg);
    expect(Number(shapesIn(svg, 'mean-line')[0]?.attributes['y1'])).toBeCloseTo(between(y, 322, false), 1);
    const [next] = withClass(svg, 'next-level');
    expect(Number(next?.attributes['cx'])).toBeCloseTo(between(x, 6, false), 1);
    expect(Number(next?.attributes['cy'])).toBeCloseTo(between(y, 320, false), 1);
    expect(svg.text.replaceAll('\u00a0', ' ')).toContain('next: 320 MPa');
    expect(chart.sentence).toBe('3 fractures and 2 runouts between 300 MPa and 340 MPa. The median strength is 322 MPa. The next specimen is for 320 MPa.');
  });

  test('a median strength among many tests is named all the same', () => {
    const crowded = Array.from({ length: 20 }, (_, i) => ({ level: 290 + (i % 2 === 0 ? 0 : 10), outcome: (i % 2 === 0 ? 'runout' : 'fracture') as Outcome }));
    for (const width of [700, 345]) {
      const { svg } = staircaseChart({ ...data, levels: crowded.map(({ level }) => level), outcomes: crowded.map(({ outcome }) => outcome), mean: 295 }, { ...OPTIONS, width });
      expect(readSvg(svg).text.replaceAll('\u00a0', ' ')).toContain('S50 = 295 MPa');
    }
  });

  test('before the first test there is a plain sentence', () => {
    const chart = staircaseChart({ levels: [], outcomes: [], name: String, unit: 'MPa', level: TEXTS.stress }, OPTIONS);
    expect(chart.sentence).toBe('No tests have been made yet.');
    expect(all(readSvg(chart.svg)).length).toBeGreaterThan(5);
  });
});
