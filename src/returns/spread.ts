import type { Unit } from '../core/units/types.ts';
import { enteredIn } from './class-csv.ts';
import type { ReturnedSheet } from './types.ts';

/** A value of one sheet among those of the class. */
export interface SpreadValue {
  readonly sheet: ReturnedSheet;
  readonly value: number;
  /** Distance from the median in robust standard deviations, with its sign. */
  readonly score: number;
  readonly isOutlier: boolean;
}

/** How a quantity lies over the class. SI. */
export interface Spread {
  readonly symbol: string;
  readonly label: string;
  readonly unit: Unit | undefined;
  /** In ascending order. */
  readonly values: readonly SpreadValue[];
  readonly median: number;
  /** Robust standard deviation: 1.4826 times the median absolute deviation, and at least the median of the stated standard uncertainties. */
  readonly scale: number;
}

/** Fewer values tell of no outlier. */
const FEWEST = 5;
/** Normal values stray further than so many robust standard deviations once in 2000. Iglewicz and Hoaglin, How to Detect and Handle Outliers, ASQC 1993; NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17. */
const MOST_DEVIATIONS = 3.5;
/** The median absolute deviation of a normal distribution times this is its standard deviation; Iglewicz and Hoaglin round its reciprocal to 0.6745. */
const TO_DEVIATION = 1 / 0.6745;

/** The quantities that sheets of the class entered, each with how it lies over them. */
export function spreads(sheets: readonly ReturnedSheet[]): readonly Spread[] {
  return enteredIn(sheets).flatMap(({ symbol, label, unit }) => {
    const found = sheets.flatMap((sheet) => {
      const entered = sheet.values.find((value) => value.symbol === symbol);
      return entered?.value === undefined ? [] : [{ sheet, value: entered.value, u: entered.standardUncertainty }];
    });
    if (found.length < 2) return [];
    const { median, scale, scores } = scoresOf(found.map(({ value }) => value), medianOf(found.map(({ u }) => u)));
    const isOutlier = (score: number): boolean => found.length >= FEWEST && Math.abs(score) > MOST_DEVIATIONS;
    const values = found.map(({ sheet, value }, i): SpreadValue => ({ sheet, value, score: scores[i] ?? 0, isOutlier: isOutlier(scores[i] ?? 0) }));
    return [{ symbol, label, unit, median, scale, values: values.toSorted((a, b) => a.value - b.value) }];
  });
}

/**
 * Modified z-scores of values (Iglewicz and Hoaglin). Readings on a scale are often just the same, and their median deviation then zero: what the
 * instrument alone may err by is no outlier.
 * @param least standard deviation that the values have at least
 */
export function scoresOf(values: readonly number[], least: number): { readonly median: number; readonly scale: number; readonly scores: readonly number[] } {
  const median = medianOf(values);
  const scale = Math.max(TO_DEVIATION * medianOf(values.map((value) => Math.abs(value - median))), least);
  const scores = values.map((value) => (value === median ? 0 : scale > 0 ? (value - median) / scale : Math.sign(value - median) * Number.MAX_VALUE));
  return { median, scale, scores };
}

function medianOf(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = sorted.length / 2;
  return ((sorted[Math.ceil(half) - 1] ?? 0) + (sorted[Math.floor(half)] ?? 0)) / 2;
}
