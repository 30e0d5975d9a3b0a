import { describe, expect, test } from 'vitest';
import { fitLeastSquares, fitMaximumLikelihood, lifeLimits, type LineFit } from '../../../src/core/fatigue/index.ts';
import { snChart, type SnData } from '../../../src/figures/charts/index.ts';
import { all, readSvg, withClass, type Element } from '../drawings/svg-reading.ts';
import { between, corners, shapesIn, snOf, TESTS, TEXTS, DESIGN, ticksOf, type Row } from './chart-data.ts';

const OPTIONS = { width: 700, idPrefix: 'c', textSize: 15 };

function columns(rows: readonly Row[]) {
  return { stressMpa: rows.map(({ S }) => S), cycles: rows.map(({ N }) => N), outcomes: rows.map(({ outcome = 'fracture' }) => outcome) };
}

function leastSquares(rows: readonly Row[], stress: 'log' | 'plain' = 'log'): LineFit {
  const fitted = fitLeastSquares(columns(rows), { model: 'linear', stress });
  if (!fitted.ok) throw new Error(fitted.problem.what);
  return fitted.value;
}

function drawn(data: SnData, options = OPTIONS): { svg: Element; chart: ReturnType<typeof snChart> } {
  const chart = snChart(data, options);
  return { svg: readSvg(chart.svg), chart };
}

const FITTED = snOf(TESTS, { line: { fitted: leastSquares(TESTS) } });

describe('places in the chart', () => {
  test.each(['log', 'plain'] as const)('specimens stand where the figures at the axes say (stress %s)', (stressScale) => {
    const { svg, chart } = drawn(snOf(TESTS, { stressScale }));
    const ticks = ticksOf(svg);
    expect(ticks.x.map(({ value }) => value)).toEqual([1e5, 1e6, 1e7]);
    const sorted = TESTS.toSorted((a, b) => a.N - b.N || b.S - a.S);
    expect(chart.points.length).toBe(TESTS.length);
    chart.points.forEach((point, i) => {
      expect(point.x).toBeCloseTo(between(ticks.x, sorted[i]?.N ?? 0, true), 1);
      expect(point.y).toBeCloseTo(between(ticks.y, sorted[i]?.S ?? 0, stressScale === 'log'), 1);
    });
    // The marks themselves stand at these same places.
    const marks = shapesIn(svg, 'specimen').map(({ attributes }) => (attributes['transform'] ?? '').match(/-?[\d.]+/g)?.map(Number) ?? []);
    for (const { x, y } of chart.points) {
      expect(marks.some(([markX = 0, markY = 0]) => Math.abs(markX - x) < 0.01 && Math.abs(markY - y) < 0.01)).toBe(true);
    }
    expect(marks.length).toBe(TESTS.length);
  });

  test.each(['log', 'plain'] as const)('a fracture off the waist has a bar at the stress where it broke (stress %s)', (stressScale) => {
    const rows: readonly Row[] = [...TESTS, { name: 'off', group: 'steel M', S: 400, N: 3e5, local: 290 }, { S: 410, N: 2e5, local: 410.5, group: 'steel M' }, { S: 350, N: 9e6, local: 300, group: 'steel M', outcome: 'runout' }];
    const { svg, chart } = drawn(snOf(rows, { stressScale }));
    const { x, y } = ticksOf(svg);
    const bars = withClass(svg, 'local-bar').map(({ attributes }) => attributes);
    // One in the plot, one in the key: neither a difference of a thousandth nor an unbroken specimen has one.
    const inPlot = bars.filter((bar) => Math.abs(Number(bar['y1']) - between(y, 290, stressScale === 'log')) < 0.1);
    expect([bars.length, inPlot.length]).toEqual([2, 1]);
    expect((Number(inPlot[0]?.['x1']) + Number(inPlot[0]?.['x2'])) / 2).toBeCloseTo(between(x, 3e5, true), 1);
    expect(chart.points.map((point) => point.tell()).filter((told) => told.includes('where it broke'))).toEqual(['off (steel M): 400 MPa, broke at 300000 cycles, under 290 MPa where it broke.']);
    expect(chart.svg).toContain('stress where it broke');
    expect(drawn(snOf(TESTS)).chart.svg).not.toContain('stress where it broke');
  });

  test('the median line follows A + B lg S and ends at the highest and the lowest stress tested', () => {
    const { svg } = drawn(FITTED);
    const ticks = ticksOf(svg);
    const fit = leastSquares(TESTS);
    const [A = 0, B = 0] = fit.parameters.map(({ value }) => value);
    const [line] = shapesIn(svg, 'median-line');
    const points = corners(line as Element);
    const [highest = 0, lowest = 0] = [460, 320];
    expect(points[0]?.y).toBeCloseTo(between(ticks.y, highest, true), 1);
    expect(points.at(-1)?.y).toBeCloseTo(between(ticks.y, lowest, true), 1);
    for (const [point, stress] of [[points[0], highest], [points.at(-1), lowest]] as const) {
      expect(point?.x).toBeCloseTo(between(ticks.x, 10 ** (A + B * Math.log10(stress)), true), 1);
    }
  });

  test('band, limits of the next specimen, design curve and two s stand at the lives that the core gives', () => {
    const { svg } = drawn(FITTED);
    const { x } = ticksOf(svg);
    const fit = leastSquares(TESTS);
    const first = (className: string, which = 0): number => corners(shapesIn(svg, className)[which] as Element)[0]?.x ?? 0;
    const next = lifeLimits(fit, 460, { kind: 'next', confidence: 0.95 });
    expect(first('next-line')).toBeCloseTo(between(x, 10 ** (next.lower ?? 0), true), 1);
    expect(first('next-line', 1)).toBeCloseTo(between(x, 10 ** (next.upper ?? 0), true), 1);
    expect(first('design-line')).toBeCloseTo(between(x, 10 ** (lifeLimits(fit, 460, { kind: 'tolerance', ...DESIGN }).lower ?? 0), true), 1);
    expect(first('two-s-line')).toBeCloseTo(between(x, 10 ** (lifeLimits(fit, 460, { kind: 'two s' }).lower ?? 0), true), 1);
    // In between they are at most a fraction of a px off.
    const ticks = ticksOf(svg);
    for (const [className, asked] of [['next-line', { kind: 'next', confidence: 0.95 }], ['design-line', { kind: 'tolerance', ...DESIGN }]] as const) {
      for (const corner of corners(shapesIn(svg, className)[0] as Element)) {
        const [top, low] = [ticks.y[0], ticks.y.at(-1)];
        const share = (corner.y - (top?.at ?? 0)) / ((low?.at ?? 0) - (top?.at ?? 0));
        const stress = (top?.value ?? 1) * ((low?.value ?? 1) / (top?.value ?? 1)) ** share;
        const exact = between(x, 10 ** (lifeLimits(fit, stress, asked).lower ?? 0), true);
        expect(Math.abs(corner.x - exact)).toBeLessThan(0.4);
      }
    }
    const band = lifeLimits(fit, 460, { kind: 'band', confidence: 0.95 });
    const edges = corners(shapesIn(svg, 'band-wash')[0] as Element).map((corner) => corner.x);
    expect(Math.min(...edges)).toBeCloseTo(between(x, 10 ** (band.lower ?? 0), true), 1);
  });

  test('a fatigue limit is a horizontal line at its stress, with its value', () => {
    const found = fitMaximumLikelihood(columns(TESTS), { model: 'limit', stress: 'log', life: 'lognormal' });
    if (!found.ok) throw new Error(found.problem.what);
    const { svg } = drawn(snOf(TESTS, { line: { fitted: found.value }, stressScale: 'plain' }));
    const limit = found.value.parameters[2]?.value ?? 0;
    const [line] = shapesIn(svg, 'limit-line');
    expect(Number(line?.attributes['y1'])).toBeCloseTo(between(ticksOf(svg).y, limit, false), 0);
    expect(svg.text.replaceAll('\u00a0', ' ')).toContain(`fatigue limit ${TEXTS.stress(limit)}`);
  });

  test('a stated line goes through its two points, and level from its knee', () => {
    // log10 N = 27.6 − 9.2 log10 S: 10³ cycles at 472.1 MPa, 10⁶ at 222.8 MPa, by hand.
    const [A, B] = [27.6, -9.2];
    const limitMpa = 10 ** ((6 - A) / B);
    const { svg } = drawn({ design: DESIGN, stressScale: 'log', texts: TEXTS, line: { stated: { A, B, s: 0.2, from: 1e3, to: 1e6, limitMpa } } });
    const ticks = ticksOf(svg);
    const [sloping, level] = shapesIn(svg, 'median-line').toSorted((a) => (a.name === 'path' ? -1 : 1));
    const points = corners(sloping as Element);
    expect(points[0]?.x).toBeCloseTo(between(ticks.x, 1e3, true), 1);
    expect(points[0]?.y).toBeCloseTo(between(ticks.y, 472.1, true), 0);
    expect(points.at(-1)?.x).toBeCloseTo(between(ticks.x, 1e6, true), 1);
    expect(Number(level?.attributes['y1'])).toBeCloseTo(between(ticks.y, 222.8, true), 0);
    expect(Number(level?.attributes['x1'])).toBeCloseTo(between(ticks.x, 1e6, true), 1);
  });

  test('the current specimen stands at its life and stress, between the ends of its interval', () => {
    const { svg, chart } = drawn(snOf(TESTS, { current: { stressMpa: 350, life: { median: 1e6, low: 3e5, high: 4e6 } } }));
    const ticks = ticksOf(svg);
    const [mark] = withClass(svg, 'current-mark');
    expect(Number(mark?.attributes['cx'])).toBeCloseTo(between(ticks.x, 1e6, true), 1);
    expect(Number(mark?.attributes['cy'])).toBeCloseTo(between(ticks.y, 350, true), 1);
    const [interval] = withClass(svg, 'current-interval');
    expect(Number(interval?.attributes['x1'])).toBeCloseTo(between(ticks.x, 3e5, true), 1);
    expect(Number(interval?.attributes['x2'])).toBeCloseTo(between(ticks.x, 4e6, true), 1);
    expect(chart.points[0]?.tell().replaceAll('\u00a0', ' ')).toBe('This specimen: 350 MPa, median life 1000000 cycles, 95 % of such specimens between 300000 and 4000000 cycles.');
    const below = drawn(snOf(TESTS, { current: { stressMpa: 250, without: 'below the limit' } }));
    expect(below.svg.text).toContain('this specimen, below the limit');
    expect(withClass(below.svg, 'current-mark')).toEqual([]);
  });
});

describe('marks', () => {
  test('runouts are hollow with an arrow, groups differ in shape, heaps are counted', () => {
    const { svg } = drawn(snOf(TESTS));
    expect(shapesIn(svg, 'unbroken').length).toBe(3);
    expect(withClass(svg, 'runout-line').length).toBe(2); // one for the heap, one in the key
    expect(withClass(svg, 'count-figure').map(({ text }) => text)).toEqual(['3']);
    const shapes = (name: string): string[] => [...new Set(shapesIn(svg, name).map(({ attributes }) => attributes['d'] ?? ''))];
    expect(new Set([...shapes('group-1'), ...shapes('group-2')]).size).toBe(2);
    for (const word of ['steel K', 'steel M', 'runout']) expect(svg.text).toContain(word);
  });

  test('invalid tests are crossed and not counted among the broken', () => {
    const { svg, chart } = drawn(snOf([...TESTS, { name: 'X1', group: 'steel K', S: 410, N: 2e5, outcome: 'invalid' }]));
    expect(shapesIn(svg, 'uncounted').length).toBeGreaterThan(0);
    expect(withClass(svg, 'uncounted-cross').length).toBe(4); // two strokes there, two in the key
    expect(chart.sentence).toMatch(/^14 specimens broke .* 1 test is crossed out and not counted\./);
  });

  test('what a reader wrote is text', () => {
    const hostile = '</text><script>alert(1)</script>"&\u0000';
    const { svg, chart } = drawn(snOf([{ name: hostile, group: hostile, S: 400, N: 1e5 }, { group: 'b', S: 300, N: 1e6 }]));
    expect(all(svg).some(({ name }) => name === 'script')).toBe(false);
    expect(chart.svg).toContain('&lt;script&gt;');
    expect(chart.points[0]?.tell()).toContain(hostile.slice(0, 10));
  });

  test('more than two thousand are drawn as a density that holds every one of them', () => {
    const rows = Array.from({ length: 5000 }, (_, i): Row => ({
      S: 300 + 40 * (i % 5), N: 10 ** (4 + 2.6 * ((i * 0.618034) % 1)), outcome: i % 10 === 0 ? 'runout' : 'fracture',
    }));
    const { svg, chart } = drawn(snOf(rows));
    expect(shapesIn(svg, 'specimen')).toEqual([]);
    const rectangles = shapesIn(svg, 'density');
    expect(rectangles.length).toBe(chart.points.length);
    expect(rectangles.length).toBeLessThan(2500);
    const counts = chart.points.map(({ tell }) => Number(tell().split(' ')[0]));
    expect(counts.reduce((a, b) => a + b, 0)).toBe(5000);
    const strengths = rectangles.map(({ attributes }) => Number(attributes['fill-opacity']));
    expect(Math.min(...strengths)).toBeGreaterThanOrEqual(0.15);
    expect(Math.max(...strengths)).toBe(1);
  });

  test('among so many an outlier, a runout by itself and a test that is not counted are seen as ever, and what is not drawn is said', () => {
    const rows = Array.from({ length: 3000 }, (_, i): Row => ({ group: i % 2 === 0 ? 'K' : 'M', S: 300 + 40 * (i % 5), N: 10 ** (4.5 + 1.5 * ((i * 0.618034) % 1)), outcome: 'fracture' }));
    const apart: Row[] = [{ S: 480, N: 2e3, outcome: 'fracture' }, { S: 280, N: 1e7, outcome: 'runout' }, { S: 340, N: 1e5, outcome: 'invalid' }];
    const { svg, chart } = drawn(snOf([...rows, ...apart]));
    const marks = shapesIn(svg, 'specimen');
    expect(marks).toHaveLength(2);
    expect(shapesIn(svg, 'density').every(({ attributes }) => Number(attributes['fill-opacity']) >= 0.15)).toBe(true);
    expect(withClass(svg, 'uncounted-cross')).toHaveLength(4); // two strokes there, two in the key
    const counts = chart.points.map(({ tell }) => Number(tell().split(' ')[0]));
    expect(counts.reduce((a, b) => a + b, 0)).toBe(3003);
    expect(chart.points.filter(({ tell }) => tell().includes('not counted'))).toHaveLength(1);
    expect(chart.sentence).toContain('1 test is crossed out and not counted. How strong the colour is says how many lie at one place; those that lie apart have marks of their own. Among so many groups are not told apart.');
  });
});

describe('words', () => {
  test('letters stand inside the chart and do not touch each other, wide and narrow', () => {
    for (const width of [700, 390, 345]) {
      const { svg, chart } = drawn({ ...FITTED, current: { stressMpa: 350, life: { median: 1e6, low: 3e5, high: 4e6 } } }, { ...OPTIONS, width });
      const boxes = all(svg).filter(({ name }) => name === 'text').map(({ attributes, text }) => {
        const size = Number(attributes['font-size']);
        // Half an em a letter is a fair mean of ordinary faces.
        const length = text.length * size * 0.5;
        const start = Number(attributes['x']) - (attributes['text-anchor'] === 'end' ? length : attributes['text-anchor'] === 'middle' ? length / 2 : 0);
        return { text, x: start, y: Number(attributes['y']) - size * 0.75, width: length, height: size * 0.85 };
      });
      for (const box of boxes) {
        expect(box.x, box.text).toBeGreaterThan(-1);
        expect(box.x + box.width, box.text).toBeLessThan(width + 1);
        expect(box.y + box.height, box.text).toBeLessThan(chart.viewBox.height + 1);
      }
      const touching = boxes.flatMap((a, i) => boxes.slice(i + 1)
        .filter((b) => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height).map((b) => `${a.text} / ${b.text}`));
      expect(touching, String(width)).toEqual([]);
      for (const word of ['median line', 'band of the line', 'next specimen', 'design curve', 'median − 2', 'this specimen']) expect(svg.text).toContain(word);
    }
  });

  test('the sentence has the numbers', () => {
    const { chart } = drawn(FITTED);
    const plain = chart.sentence.replaceAll('\u00a0', ' ');
    expect(plain).toContain('14 specimens broke between 52073 and 2802436 cycles; 3 runouts are marked by arrows.');
    expect(plain).toContain('At least 90 % of specimens outlast the design curve, with 95 % confidence.');
    expect(chart.description).toContain(chart.sentence);
    expect(chart.points.at(-1)?.tell()).toBe('K11 (steel K): 300 MPa, runout, unbroken at 10000000 cycles. The line is not meant for this stress: none was used there.');
    expect(chart.points[0]?.tell()).toMatch(/^K2 \(steel K\): 460 MPa, broke at 52073 cycles\. At 460 MPa the line gives a median of \d+ cycles, the next specimen \d+ to \d+ \(95.%\), the design curve \d+\.$/);
  });

  test('stress is shown in the unit of the reader', () => {
    // 1 ksi = 6.894757 MPa exactly rounded (NIST SP 811, B.8).
    const { svg } = drawn({ ...snOf(TESTS), texts: { ...TEXTS, stressUnit: 'ksi', stressPerMpa: 1 / 6.894757 } });
    const ticks = ticksOf(svg).y.map(({ value }) => value);
    expect(Math.min(...ticks)).toBeGreaterThan(38);
    expect(Math.max(...ticks)).toBeLessThan(75);
    expect(svg.text).toContain('/ ksi');
  });

  test('the same data give the same text', () => {
    const copy: SnData = { ...FITTED, line: { fitted: structuredClone(leastSquares(TESTS)) } };
    expect(snChart(copy, OPTIONS).svg).toBe(snChart(FITTED, OPTIONS).svg);
  });
});

test.each([240, 320, 358])('at %i px the words on a specimen without a life are all inside', (width) => {
  const current = { stressMpa: 305, without: 'below the limit, where the line gives no life' };
  const { svg } = drawn(snOf(TESTS, { current }), { width, idPrefix: 'c', textSize: 15 });
  const words = all(svg).filter(({ name, attributes }) => name === 'text' && /^(word|word look)$/.test(attributes['class'] ?? ''));
  expect(words.map(({ text }) => text).join('').replaceAll(' ', '')).toContain('thisspecimen,belowthelimit,wherethelinegivesnolife');
  for (const { attributes, text } of words) expect(Number(attributes['x']) + 0.5 * text.trim().length * 15, text).toBeLessThanOrEqual(width);
});
