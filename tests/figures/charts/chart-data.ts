/** Data for charts, with texts that a test can foresee. */
import type { Outcome } from '../../../src/core/fatigue/index.ts';
import type { ChartSpecimens, ChartTexts, SnData } from '../../../src/figures/charts/index.ts';
import { all, type Element } from '../drawings/svg-reading.ts';

export interface Row {
  readonly name?: string;
  readonly group?: string;
  readonly S: number;
  readonly N: number;
  readonly outcome?: Outcome;
  /** Stress where it broke. */
  readonly local?: number;
}

export const TEXTS: ChartTexts = {
  stressUnit: 'MPa', stressPerMpa: 1,
  stress: (megapascals) => `${Number(megapascals.toPrecision(4))} MPa`,
  life: (cycles) => String(Number(cycles.toPrecision(3))),
  cycles: (cycles) => String(Math.round(cycles)),
};

export const DESIGN = { share: 0.9, confidence: 0.95 };

export function specimensOf(rows: readonly Row[]): ChartSpecimens {
  const groups = [...new Set(rows.map(({ group = '' }) => group))];
  return {
    count: rows.length,
    stressMpa: rows.map(({ S }) => S),
    cycles: rows.map(({ N }) => N),
    ...(rows.some(({ local }) => local !== undefined) ? { localMpa: rows.map(({ local = Number.NaN }) => local) } : {}),
    outcome: (place) => rows[place]?.outcome ?? 'fracture',
    group: (place) => groups.indexOf(rows[place]?.group ?? ''),
    name: (place) => rows[place]?.name ?? `row ${place + 1}`,
    groups,
  };
}

export function snOf(rows: readonly Row[], more: Partial<SnData> = {}): SnData {
  return { specimens: specimensOf(rows), design: DESIGN, stressScale: 'log', texts: TEXTS, ...more };
}

/** Invented tests of two groups, with replicates and runouts. */
export const TESTS: readonly Row[] = [
  ...[[460, 81_493], [460, 52_073], [420, 110_549], [420, 91_474], [380, 376_310], [380, 561_088], [340, 2_802_436], [340, 2_171_031]]
    .map(([S = 0, N = 0], i): Row => ({ name: `K${i + 1}`, group: 'steel K', S, N })),
  ...[9, 10, 11].map((i): Row => ({ name: `K${i}`, group: 'steel K', S: 300, N: 1e7, outcome: 'runout' })),
  ...[[440, 64_915], [440, 108_923], [400, 115_653], [360, 532_802], [360, 459_887], [320, 2_065_904]]
    .map(([S = 0, N = 0], i): Row => ({ name: `M${i + 1}`, group: 'steel M', S, N })),
];

/** Where the figures at the ticks stand: value and px, along the lower and the left axis. */
export function ticksOf(svg: Element): { x: readonly { value: number; at: number }[]; y: readonly { value: number; at: number }[] } {
  const figures = all(svg).filter(({ name, attributes }) => name === 'text' && attributes['class'] === 'axis-figure');
  const value = ({ children, text }: Element): number => {
    const [base, exponent] = children.map((child) => child.text.replaceAll('\u2212', '-').replaceAll('\u202f', ''));
    return exponent === undefined ? Number(text.replaceAll('\u2212', '-').replaceAll('\u202f', '')) : Number((base ?? '').replace(/·?10$/, '') || '1') * 10 ** Number(exponent);
  };
  const side = (anchor: string, coordinate: 'x' | 'y', shift: (size: number) => number) =>
    figures.filter(({ attributes }) => attributes['text-anchor'] === anchor)
      .map((figure) => ({ value: value(figure), at: Number(figure.attributes[coordinate]) - shift(Number(figure.attributes['font-size'])) }));
  return { x: side('middle', 'x', () => 0), y: side('end', 'y', (size) => size * 0.34) };
}

/** Px of a value between two labelled ticks, by hand: linear in the value, or in its logarithm. */
export function between(ticks: readonly { value: number; at: number }[], value: number, isLog: boolean): number {
  const [first, last] = [ticks[0], ticks.at(-1)];
  if (first === undefined || last === undefined || first === last) throw new Error('two ticks are needed');
  const scaled = (one: number): number => (isLog ? Math.log10(one) : one);
  return first.at + ((scaled(value) - scaled(first.value)) / (scaled(last.value) - scaled(first.value))) * (last.at - first.at);
}

/** Shapes inside groups of that class. */
export function shapesIn(svg: Element, className: string): Element[] {
  return all(svg).filter(({ name, attributes }) => name === 'g' && (attributes['class'] ?? '').split(' ').includes(className)).flatMap(({ children }) => children);
}

/** Corners of a path of straight strokes. */
export function corners(path: Element): { x: number; y: number }[] {
  return [...(path.attributes['d'] ?? '').matchAll(/[ML]?(-?[\d.]+),(-?[\d.]+)/g)].map(([, x, y]) => ({ x: Number(x), y: Number(y) }));
}
