import type { ReturnedSheet, ReturnedValue } from './types.ts';

/** Two sheets in which the same was read. */
export interface SameReadings {
  readonly one: ReturnedSheet;
  readonly other: ReturnedSheet;
  /** Symbols whose readings are the same, number by number. */
  readonly symbols: readonly string[];
  /** How many could be compared. */
  readonly compared: number;
}

/** How many pairs of a class may at most be pointed out that came about by chance. */
const MOST_BY_CHANCE = 0.05;
/** Four readings on a coarse rule are another team's by chance once in some 70 times; no quantity counts for more than this. */
const LEAST_CHANCE = 0.02;
/** What was read once is the same more often, and only a class of so many tells how often. */
const LEAST_CHANCE_SINGLE = 0.3;
const FEWEST_FOR_SINGLE = 6;

interface Read {
  readonly numbers: string;
  readonly isRepeated: boolean;
}

/**
 * Pairs of sheets with more of the same readings than chance would give. How often a quantity is the same in two sheets is seen in the class itself, so
 * that what all have alike, as a load that was agreed, counts for nothing. Teams that share a machine may have measured together, or one file may be a
 * copy of the other that was gone on with: it is pointed out, and nothing follows from it.
 */
export function sameReadings(sheets: readonly ReturnedSheet[]): readonly SameReadings[] {
  const read = sheets.map((sheet) => ({ sheet, bySymbol: new Map(sheet.values.map((value): [string, Read] => [value.symbol, { numbers: numbersOf(value), isRepeated: value.readings.length > 1 }])) }));
  const chances = chancesOf(read.map(({ bySymbol }) => bySymbol));
  const pairs = (sheets.length * (sheets.length - 1)) / 2;
  return read.flatMap(({ sheet: one, bySymbol: ours }, i) => read.slice(i + 1).flatMap(({ sheet: other, bySymbol: theirs }): SameReadings[] => {
    const both = comparable(ours, theirs, sheets.length);
    const same = both.filter((symbol) => theirs.get(symbol)?.numbers === ours.get(symbol)?.numbers);
    const byChance = pairs * waysToChoose(same.length, both.length) * same.reduce((product, symbol) => product * (chances.get(symbol) ?? 1), 1);
    return same.length > 0 && byChance < MOST_BY_CHANCE ? [{ one, other, symbols: same, compared: both.length }] : [];
  }));
}

/** What was read several times in both; where nothing was, what was read once. */
function comparable(ours: ReadonlyMap<string, Read>, theirs: ReadonlyMap<string, Read>, count: number): readonly string[] {
  const both = [...ours.keys()].filter((symbol) => theirs.has(symbol));
  const repeated = both.filter((symbol) => ours.get(symbol)?.isRepeated === true && theirs.get(symbol)?.isRepeated === true);
  return repeated.length > 0 || count < FEWEST_FOR_SINGLE ? repeated : both;
}

/** By symbol, in which share of all other pairs it is the same. */
function chancesOf(sheets: readonly ReadonlyMap<string, Read>[]): ReadonlyMap<string, number> {
  const found = new Map<string, Map<string, number>>();
  const repeated = new Set<string>();
  for (const bySymbol of sheets) {
    for (const [symbol, { numbers, isRepeated }] of bySymbol) {
      const counts = found.get(symbol) ?? new Map<string, number>();
      found.set(symbol, counts.set(numbers, (counts.get(numbers) ?? 0) + 1));
      if (isRepeated) repeated.add(symbol);
    }
  }
  return new Map([...found].map(([symbol, counts]) => {
    const [all, same] = [pairsIn([...counts.values()].reduce((sum, one) => sum + one, 0)), [...counts.values()].reduce((sum, one) => sum + pairsIn(one), 0)];
    return [symbol, Math.max(repeated.has(symbol) ? LEAST_CHANCE : LEAST_CHANCE_SINGLE, all > 1 ? (same - 1) / (all - 1) : 0)];
  }));
}

function pairsIn(count: number): number {
  return (count * (count - 1)) / 2;
}

/** Binomial coefficient. */
function waysToChoose(chosen: number, all: number): number {
  let ways = 1;
  for (let i = 1; i <= chosen; i++) ways = (ways * (all - chosen + i)) / i;
  return ways;
}

/** Its numbers, however their unit and blanks are written. */
function numbersOf({ readings, value, typed }: ReturnedValue): string {
  const numbers = readings.length > 0 ? readings : value === undefined ? [] : [value];
  return numbers.length === 0 ? typed : numbers.map((one) => one.toPrecision(10)).join(' ');
}

/** A sheet with other formulas, conditions or rules than most of the class. */
export interface OtherFormulas {
  readonly sheet: ReturnedSheet;
  /** Symbols and cells: `sigma_a`, `own sigma_a` for the rules of its own result, `N_f by METHOD` for an option's. */
  readonly names: readonly string[];
}

/** Sheets that work something out in another way than most of the class: their results are no measure for their own answers. */
export function otherFormulas(sheets: readonly ReturnedSheet[]): readonly OtherFormulas[] {
  if (sheets.length < 3) return [];
  const usual = usualFormulas(sheets);
  return sheets.flatMap((sheet) => {
    const names = [...usual].filter(([name, formula]) => sheet.formulas.get(name) !== formula).map(([name]) => name);
    return names.length === 0 ? [] : [{ sheet, names }];
  });
}

/** What more than half of the sheets have. */
function usualFormulas(sheets: readonly ReturnedSheet[]): ReadonlyMap<string, string> {
  const counts = new Map<string, Map<string, number>>();
  for (const { formulas } of sheets) {
    for (const [name, formula] of formulas) {
      const found = counts.get(name) ?? new Map<string, number>();
      counts.set(name, found.set(formula, (found.get(formula) ?? 0) + 1));
    }
  }
  return new Map([...counts].flatMap(([name, found]) => {
    const [most] = [...found].toSorted(([, a], [, b]) => b - a);
    return most !== undefined && most[1] > sheets.length / 2 ? [[name, most[0]] as const] : [];
  }));
}
