import { describe, expect, test } from 'vitest';
import { constantLifeChart, type ConstantLifeData } from '../../../src/figures/charts/index.ts';
import { readSvg } from '../drawings/svg-reading.ts';
import { between, corners, shapesIn, TEXTS, ticksOf } from './chart-data.ts';

const OPTIONS = { width: 700, idPrefix: 'c', textSize: 15 };

/** Budynas and Nisbett, Shigley's Mechanical Engineering Design, 8th ed., problem 6-12: S_e 276, S_ut 551, S_y 413 MPa, amplitude 172, mean 178.4 MPa. */
const DATA: ConstantLifeData = {
  correction: 'goodman', correctionName: 'Goodman', constants: { tensile: 551, yield: 413 }, specimen: { amplitude: 172, mean: 178.4 },
  reversed: 172 / (1 - 178.4 / 551), limit: 276, factor: 1, texts: TEXTS,
};

const pathIn = (svg: ReturnType<typeof readSvg>, name: string) => corners(shapesIn(svg, name)[0] as never);

describe('a constant-life diagram', () => {
  test('the curve goes through the specimen, from the reversed amplitude to the tensile strength', () => {
    const chart = constantLifeChart(DATA, OPTIONS);
    const svg = readSvg(chart.svg);
    const { x, y } = ticksOf(svg);
    const [point] = chart.points;
    expect(point?.x).toBeCloseTo(between(x, 178.4, false), 1);
    expect(point?.y).toBeCloseTo(between(y, 172, false), 1);
    const curve = pathIn(svg, 'median-line');
    expect(curve[0]?.x).toBeCloseTo(between(x, 0, false), 1);
    expect(curve[0]?.y).toBeCloseTo(between(y, 172 / (1 - 178.4 / 551), false), 1);
    expect(curve.at(-1)?.x).toBeCloseTo(between(x, 551, false), 1);
    expect(curve.at(-1)?.y).toBeCloseTo(between(y, 0, false), 1);
    const limit = pathIn(svg, 'limit-line');
    expect(limit[0]?.y).toBeCloseTo(between(y, 276, false), 1);
    expect(chart.sentence).toBe('This specimen: an amplitude of 172 MPa, with a mean stress of 178.4 MPa. By Goodman it has the life of 254.4 MPa fully reversed: where the curve meets the upright axis. '
      + 'The curve of the endurance limit starts at 276 MPa; the specimen lies below it. Amplitude and mean together stay below the yield strength, 413 MPa.');
  });

  test('the yield line ends at the yield strength, and starts at as much on the other axis times the notch factor', () => {
    for (const factor of [1, 1.3]) {
      const svg = readSvg(constantLifeChart({ ...DATA, factor }, OPTIONS).svg);
      const { x, y } = ticksOf(svg);
      const line = pathIn(svg, 'design-line');
      expect(line.at(-1)?.x).toBeCloseTo(between(x, 413, false), 1);
      expect(line.at(-1)?.y).toBeCloseTo(between(y, 0, false), 1);
      // Straight: at half the yield strength half of it is left, times the factor.
      const at = between(x, 206.5, false);
      const [before, after] = [line.findLast((corner) => corner.x <= at), line.find((corner) => corner.x >= at)];
      expect(((before?.y ?? 0) + (after?.y ?? 0)) / 2).toBeCloseTo(between(y, 206.5 * factor, false), -1);
    }
  });

  test('a mean that presses earns no credit: the curve is level there', () => {
    const svg = readSvg(constantLifeChart({ ...DATA, specimen: { amplitude: 172, mean: -100 }, reversed: 172 }, OPTIONS).svg);
    const { x, y } = ticksOf(svg);
    const curve = pathIn(svg, 'median-line');
    expect(curve[0]?.x).toBeLessThan(between(x, -100, false));
    for (const corner of curve.filter((one) => one.x < between(x, 0, false))) expect(corner.y).toBeCloseTo(between(y, 172, false), 1);
  });

  test('without anything to draw there is a plain sentence', () => {
    const chart = constantLifeChart({ correction: 'none', correctionName: 'none', constants: {}, factor: 1, texts: TEXTS }, OPTIONS);
    expect(chart.points).toEqual([]);
    expect(chart.sentence).toBe('There is nothing to draw yet: neither an amplitude nor a strength.');
  });
});
