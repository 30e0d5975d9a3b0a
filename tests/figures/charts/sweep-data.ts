/** Data of sweeps for charts, with texts that a test can foresee. */
import type { ContourData, SweepAxis, SweepData } from '../../../src/figures/charts/index.ts';

export function axis(symbol: string, words: string, unit: string): SweepAxis {
  const number = (value: number): string => String(Number(value.toPrecision(4)));
  return { symbol, words, unit, number, text: (value) => `${number(value)} ${unit}` };
}

/** Stress over diameter by σ = 1000/d³, without a value below 1.5 mm; band of 3 %. */
export function sweepOf(more: Partial<SweepData> = {}): SweepData {
  const places = Float64Array.from({ length: 31 }, (_, i) => 1 + i / 10);
  const values = places.map((d) => (d < 1.5 ? Number.NaN : 1000 / d ** 3));
  return {
    against: axis('d', 'Diameter', 'mm'), places, isTold: [...places].map(() => true), present: 2,
    panels: [{
      axis: axis('sigma_a', 'Stress amplitude', 'MPa'), scale: 'linear', values,
      lower: values.map((value) => value * 0.97), upper: values.map((value) => value * 1.03),
      told: (place) => `${Number((values[place] ?? 0).toPrecision(4))} MPa`,
      gaps: [{ from: 1, to: 1.4, words: 'it is too thin' }], present: 125,
    }],
    turns: [{ at: 2.5, words: 'The check “Is it thick?” holds from 2.5 mm on.' }],
    ...more,
  };
}

/** z = x·y over 1 … 2 and 1 … 3, without a value above 5. */
export function contourOf(more: Partial<ContourData> = {}): ContourData {
  const [columns, rows] = [21, 21];
  const values = Float64Array.from({ length: columns * rows }, (_, i) => {
    const value = (1 + (i % columns) / (columns - 1)) * (1 + (2 * Math.floor(i / columns)) / (rows - 1));
    return value > 5 ? Number.NaN : value;
  });
  return {
    x: { axis: axis('x', 'Width', 'mm'), from: 1, to: 2 }, y: { axis: axis('y', 'Height', 'mm'), from: 1, to: 3 },
    result: axis('z', 'Area', 'mm²'), scale: 'linear', columns, rows, values, present: { x: 1.5, y: 2, value: 3 }, gaps: ['it is too large'], ...more,
  };
}
