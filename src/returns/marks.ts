import type { ReturnedSheet, ReturnedVerdict } from './types.ts';

/** What a right answer is worth, step by step, and what of it is given where it is not simply right. */
export interface MarkingScheme {
  /** By symbol; a step that is not named has `DEFAULT_POINTS`. */
  readonly points: ReadonlyMap<string, number>;
  /** Share given for an answer that is right for earlier ones of their own. */
  readonly carried: number;
  /** Share given for one that is right as far as its digits go. */
  readonly fewDigits: number;
}

const DEFAULT_POINTS = 1;
export const DEFAULT_SCHEME: MarkingScheme = { points: new Map(), carried: 1, fewDigits: 0 };

/** A step or question that is asked in at least one of the sheets. */
export interface AskedStep {
  readonly symbol: string;
  readonly label: string;
  readonly isQuestion: boolean;
}

/** Points given by hand, by id of the sheet and symbol of the step: they stand before what the scheme gives. */
export type PointsByHand = ReadonlyMap<string, ReadonlyMap<string, number>>;

export const NONE_BY_HAND: PointsByHand = new Map();

/** The steps asked that somebody in the class has answered, in the order of the sheets: where all of a long sheet is asked, nobody answers all of it. */
export function askedIn(sheets: readonly ReturnedSheet[]): readonly AskedStep[] {
  const answered = new Set(sheets.flatMap(({ answers }) => answers.filter(({ typed }) => typed !== '').map(({ symbol }) => symbol)));
  return allAskedIn(sheets).filter(({ symbol }) => answered.has(symbol));
}

/** Steps that are asked, and that nobody has answered. They count for nothing. */
export function unansweredIn(sheets: readonly ReturnedSheet[]): readonly AskedStep[] {
  const asked = new Set(askedIn(sheets).map(({ symbol }) => symbol));
  return allAskedIn(sheets).filter(({ symbol }) => !asked.has(symbol));
}

function allAskedIn(sheets: readonly ReturnedSheet[]): readonly AskedStep[] {
  const asked = new Map<string, AskedStep>();
  for (const { answers } of sheets) for (const { symbol, label, isQuestion } of answers) if (!asked.has(symbol)) asked.set(symbol, { symbol, label, isQuestion });
  return [...asked.values()];
}

/** How a class is marked. */
export interface Marking {
  readonly scheme: MarkingScheme;
  readonly byHand: PointsByHand;
}

/** The points of one sheet, by step and together. */
export interface Points {
  readonly bySymbol: ReadonlyMap<string, number>;
  readonly total: number;
  readonly outOf: number;
}

/** A step that a sheet does not ask, where others do, gives it none: somebody has changed the sheet. */
export function pointsOf({ id, answers }: ReturnedSheet, { scheme, byHand }: Marking, asked: readonly AskedStep[]): Points {
  const verdicts = new Map(answers.map(({ symbol, verdict }) => [symbol, verdict]));
  const bySymbol = new Map(asked.map(({ symbol }): [string, number] => [symbol, byHand.get(id)?.get(symbol) ?? worth(symbol, scheme) * shareOf(verdicts.get(symbol) ?? 'open', scheme)]));
  return { bySymbol, total: sum(bySymbol.values()), outOf: sum(asked.map(({ symbol }) => worth(symbol, scheme))) };
}

/** What a step is worth by the scheme. */
export function worth(symbol: string, { points }: MarkingScheme): number {
  return points.get(symbol) ?? DEFAULT_POINTS;
}

function shareOf(verdict: ReturnedVerdict, { carried, fewDigits }: MarkingScheme): number {
  if (verdict === 'agrees') return 1;
  if (verdict === 'carried') return carried;
  return verdict === 'too few digits' ? fewDigits : 0;
}

function sum(numbers: Iterable<number>): number {
  let total = 0;
  for (const one of numbers) total += one;
  return total;
}

/** A scheme as it is kept; what is none of its numbers is left out. */
export function readScheme(stored: unknown): MarkingScheme {
  if (typeof stored !== 'object' || stored === null) return DEFAULT_SCHEME;
  const { points, carried, fewDigits } = stored as Partial<Record<keyof MarkingScheme, unknown>>;
  const entries = Array.isArray(points) ? points.filter((one): one is [string, number] => Array.isArray(one) && typeof one[0] === 'string' && isPoints(one[1])) : [];
  return { points: new Map(entries), carried: isShare(carried) ? carried : DEFAULT_SCHEME.carried, fewDigits: isShare(fewDigits) ? fewDigits : DEFAULT_SCHEME.fewDigits };
}

/** The scheme as plain data, as `readScheme` takes it. */
export function writtenScheme({ points, carried, fewDigits }: MarkingScheme): unknown {
  return { points: [...points], carried, fewDigits };
}

function isPoints(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value) && value >= 0;
}

function isShare(value: unknown): value is number {
  return isPoints(value) && value <= 1;
}
