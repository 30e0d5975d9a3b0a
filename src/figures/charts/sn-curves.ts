import { lifeLimits, locationAt, type FittedLine, type LimitKind } from '../../core/fatigue/index.ts';
import type { SnData, StatedLine } from './types.ts';

/** A place of a curve: log10 of life in cycles; ±∞ beyond every life. */
export interface CurvePoint {
  readonly stressMpa: number;
  readonly logLife: number;
}

/** Between two curves at the same stresses. */
export interface Band {
  readonly lower: readonly CurvePoint[];
  readonly upper: readonly CurvePoint[];
}

/** The curves of a line, over the stresses it is meant for. */
export interface SnCurves {
  readonly median: readonly CurvePoint[];
  /** Band of the whole line. */
  readonly band?: Band;
  /** Limits of the next specimen. */
  readonly next?: Band;
  readonly design?: readonly CurvePoint[];
  readonly twoS?: readonly CurvePoint[];
  /** Stress that is outlasted for ever. */
  readonly limitMpa?: number;
}

/** Confidence of the band and of the limits of the next specimen. */
export const CONFIDENCE = 0.95;
/** Standard deviations that hold this share of a normal distribution between them. */
const SIDE = 1.96;
const SAMPLES = 24;
/** Limits of these kinds take long to reckon: their distance from the median, which bends little, is reckoned at every third stress. */
const COARSE = 3;
/** Lives of a line that says no range. */
const OPEN_RANGE: readonly [number, number] = [1e3, 1e7];

const known = new WeakMap<FittedLine, Map<string, SnCurves>>();

export function curvesOf({ line, design, stressScale }: SnData): SnCurves | undefined {
  if (line === undefined) return undefined;
  if ('stated' in line) return statedCurves(line.stated);
  const key = JSON.stringify([design, stressScale]);
  const of = known.get(line.fitted) ?? new Map<string, SnCurves>();
  known.set(line.fitted, of);
  const curves = of.get(key) ?? fittedCurves(line.fitted, design);
  of.set(key, curves);
  return curves;
}

function fittedCurves(line: FittedLine, design: SnData['design']): SnCurves {
  const stresses = stressesOf(line);
  const median = stresses.map((stressMpa) => lifeLimits(line, stressMpa, { kind: 'median', confidence: CONFIDENCE }).estimate);
  const curve = (asked: LimitKind, side: 'lower' | 'upper'): CurvePoint[] => {
    const step = asked.kind === 'next' || asked.kind === 'tolerance' ? COARSE : 1;
    const distances = stresses.map((stressMpa, i) =>
      (i % step === 0 || i === stresses.length - 1 ? (lifeLimits(line, stressMpa, asked)[side] ?? Number.NaN) - (median[i] ?? 0) : Number.NaN));
    return stresses.flatMap((stressMpa, i) => {
      const logLife = (median[i] ?? 0) + distanceAt(distances, i, step);
      return Number.isNaN(logLife) ? [] : [{ stressMpa, logLife }];
    });
  };
  const between = (kind: 'band' | 'next'): Band => {
    const [lower, upper] = [curve({ kind, confidence: CONFIDENCE }, 'lower'), curve({ kind, confidence: CONFIDENCE }, 'upper')];
    const both = new Set(upper.map(({ stressMpa }) => stressMpa));
    const kept = lower.filter(({ stressMpa }) => both.has(stressMpa));
    const seen = new Set(kept.map(({ stressMpa }) => stressMpa));
    return { lower: kept, upper: upper.filter(({ stressMpa }) => seen.has(stressMpa)) };
  };
  const limitMpa = line.model === 'limit' ? line.parameters[2]?.value : undefined;
  return {
    median: stresses.flatMap((stressMpa, i) => (Number.isNaN(median[i]) ? [] : [{ stressMpa, logLife: median[i] ?? 0 }])),
    band: between('band'),
    next: between('next'),
    design: curve({ kind: 'tolerance', ...design }, 'lower'),
    twoS: curve({ kind: 'two s' }, 'lower'),
    ...(limitMpa !== undefined && limitMpa > 0 ? { limitMpa } : {}),
  };
}

/** Value at a place, between the places around it that were reckoned where it was not itself. */
function distanceAt(distances: readonly number[], i: number, step: number): number {
  const own = distances[i] ?? Number.NaN;
  const before = i - (i % step);
  const after = Math.min(before + step, distances.length - 1);
  if (!Number.isNaN(own) || before === i || after <= before) return own;
  const share = (i - before) / (after - before);
  return (1 - share) * (distances[before] ?? Number.NaN) + share * (distances[after] ?? Number.NaN);
}

/** Stresses over the tested range, from the highest down; close together just above a fatigue limit. */
function stressesOf(line: FittedLine): readonly number[] {
  const [low, high] = line.tested.stressMpa;
  const limit = line.model === 'limit' ? (line.parameters[2]?.value ?? 0) : 0;
  const floor = limit > 0 ? Math.max(low, limit + 1e-4 * (high - limit)) : low;
  if (!(high > floor)) return [high];
  const [from, to] = limit > 0 ? [Math.log(high - limit), Math.log(floor - limit)] : [Math.log(high), Math.log(floor)];
  const inside = Array.from({ length: SAMPLES - 1 }, (_, i) => limit + Math.exp(from + ((i + 1) / SAMPLES) * (to - from)));
  return [high, ...inside, floor];
}

function statedCurves({ A, B, s, from = OPEN_RANGE[0], to = OPEN_RANGE[1], limitMpa }: StatedLine): SnCurves | undefined {
  if (!(B < 0) || !Number.isFinite(A + B) || !(to > from)) return undefined;
  const [first, last] = [Math.log10(from), Math.log10(to)];
  const median = Array.from({ length: SAMPLES + 1 }, (_, i): CurvePoint => {
    const logLife = first + (i / SAMPLES) * (last - first);
    return { stressMpa: 10 ** ((logLife - A) / B), logLife };
  }).filter(({ stressMpa }) => stressMpa > 0 && stressMpa < Infinity);
  const shifted = (by: number): CurvePoint[] => median.map(({ stressMpa, logLife }) => ({ stressMpa, logLife: logLife + by }));
  return {
    median,
    ...(s > 0 ? { next: { lower: shifted(-SIDE * s), upper: shifted(SIDE * s) } } : {}),
    ...(limitMpa === undefined ? {} : { limitMpa }),
  };
}

/** log10 of the median life at a stress by a line of either kind; undefined where it has none. */
export function medianAt(line: NonNullable<SnData['line']>, stressMpa: number): number | undefined {
  if (!(stressMpa > 0)) return undefined;
  const logLife = 'stated' in line
    ? line.stated.limitMpa !== undefined && stressMpa < line.stated.limitMpa ? Infinity : line.stated.A + line.stated.B * Math.log10(stressMpa)
    : Number.isFinite(locationAt(line.fitted, stressMpa)) ? lifeLimits(line.fitted, stressMpa, { kind: 'median', confidence: CONFIDENCE }).estimate : Infinity;
  return Number.isFinite(logLife) ? logLife : undefined;
}
