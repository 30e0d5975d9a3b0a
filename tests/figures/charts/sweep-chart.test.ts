import { describe, expect, test } from 'vitest';
import { contourChart, sweepChart } from '../../../src/figures/charts/index.ts';
import { levelLines } from '../../../src/figures/charts/level-lines.ts';
import { all, readSvg, type Element } from '../drawings/svg-reading.ts';
import { ticksOf } from './chart-data.ts';
import { axis, contourOf, sweepOf } from './sweep-data.ts';

const options = { width: 700, idPrefix: 's' };

function withClass(svg: string, className: string): Element[] {
  return all(readSvg(svg)).filter(({ attributes }) => (attributes['class'] ?? '').split(' ').includes(className));
}

/** From px to values by two ticks of each axis. */
function read(svg: string): { x: (px: number) => number; y: (px: number) => number } {
  const ticks = ticksOf(readSvg(svg));
  const along = (side: readonly { readonly value: number; readonly at: number }[]) => {
    const [first, last] = [side[0], side.at(-1)];
    if (first === undefined || last === undefined) throw new Error('no ticks');
    return (px: number): number => first.value + ((px - first.at) / (last.at - first.at)) * (last.value - first.value);
  };
  return { x: along(ticks.x), y: along(ticks.y) };
}

const points = ({ attributes }: Element): { x: number; y: number }[] =>
  (attributes['points'] ?? '').split(' ').map((pair) => pair.split(',').map(Number)).map(([x = 0, y = 0]) => ({ x, y }));

describe('a result against one quantity', () => {
  test('the line and the mark stand where their values are, as the ticks read', () => {
    const { svg } = sweepChart(sweepOf(), options);
    const { x, y } = read(svg);
    const line = withClass(svg, 'median-line')[0];
    if (line === undefined) throw new Error('no line');
    for (const point of points(line)) expect(y(point.y) / (1000 / x(point.x) ** 3)).toBeCloseTo(1, 1);
    const mark = withClass(svg, 'current-mark')[0]?.attributes ?? {};
    expect(x(Number(mark['cx']))).toBeCloseTo(2, 2);
    expect(y(Number(mark['cy']))).toBeCloseTo(125, 0);
  });

  test('nothing is drawn across a gap, which is told in words and can be read', () => {
    const { svg, sentence, points: told } = sweepChart(sweepOf(), options);
    const { x } = read(svg);
    const line = withClass(svg, 'median-line')[0];
    expect(Math.min(...points(line ?? readSvg('<svg/>')).map((point) => x(point.x)))).toBeCloseTo(1.5, 2);
    expect(sentence).toContain('Up to 1.4 mm “Stress amplitude” has no value: it is too thin.');
    expect(sentence).toContain('“Is it thick?” holds from 2.5 mm on');
    expect(told.map(({ tell }) => tell()).filter((words) => /too thin|thick/.test(words))).toHaveLength(2);
    expect(told.map(({ tell }) => tell())).toContain('d = 2 mm, as it is now: sigma a = 125 MPa.');
  });

  test('several results share the lower axis, the same gap is told once', () => {
    const one = sweepOf();
    const [panel] = one.panels;
    if (panel === undefined) throw new Error('no panel');
    const both = sweepChart({ ...one, panels: [panel, { ...panel, axis: axis('N_f', 'Life', 'cycles'), scale: 'log' }] }, options);
    expect(withClass(both.svg, 'frame')).toHaveLength(2);
    expect(both.sentence.match(/too thin/g)).toHaveLength(1);
    expect(both.sentence).toContain('none of them has a value');
    expect(all(readSvg(both.svg)).filter(({ name, attributes }) => name === 'text' && attributes['class'] === 'axis-word' && attributes['text-anchor'] === 'middle')
      .filter(({ children }) => children.length > 0)).toHaveLength(1);
  });
});

describe('lines of equal value', () => {
  test('a circle is found as one closed line, a saddle as two', () => {
    const size = 81;
    const grid = (f: (x: number, y: number) => number) =>
      ({ columns: size, rows: size, values: Float64Array.from({ length: size * size }, (_, i) => f((i % size) / 40 - 1, Math.floor(i / size) / 40 - 1)) });
    const circles = levelLines(grid((x, y) => x * x + y * y), 0.5);
    expect(circles).toHaveLength(1);
    for (const { x, y } of circles[0] ?? []) expect(Math.hypot(x / 40 - 1, y / 40 - 1)).toBeCloseTo(Math.sqrt(0.5), 3);
    const length = (circles[0] ?? []).reduce((sum, point, i, line) => sum + (i === 0 ? 0 : Math.hypot(point.x - (line[i - 1]?.x ?? 0), point.y - (line[i - 1]?.y ?? 0))), 0);
    expect(length / (2 * Math.PI * Math.sqrt(0.5) * 40)).toBeCloseTo(1, 2);
    const saddle = levelLines(grid((x, y) => x * y + 1e-3), 0);
    expect(saddle).toHaveLength(2);
    expect(levelLines(grid(() => Number.NaN), 0)).toEqual([]);
  });

  test('they stand where the result has their figure, and not where it has none', () => {
    const { svg, sentence } = contourChart(contourOf(), options);
    const { x, y } = read(svg);
    const lines = withClass(svg, 'level-line');
    const figures = withClass(svg, 'level-figure').map(({ children, text }) => Number(children[0]?.text ?? text));
    expect(figures.length).toBeGreaterThan(4);
    for (const line of lines) {
      const products = points(line).map((point) => x(point.x) * y(point.y));
      const level = products[0] ?? 0;
      expect(figures.some((figure) => Math.abs(figure - level) < 0.02)).toBe(true);
      for (const product of products) expect(product).toBeCloseTo(level, 1);
      expect(level).toBeLessThan(5.02);
    }
    expect(sentence).toContain('Shaded, it has no value: it is too large.');
  });
});
