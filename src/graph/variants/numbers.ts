import { evaluate, symbolInWords } from '../../core/formula/index.ts';
import { fail, ok, type Result } from '../../core/problem/index.ts';
import { toSI } from '../../core/units/index.ts';
import { nearestStep, numberOnScale, onScale } from './read-variation.ts';
import type { Varied } from './types.ts';

/** Numbers for all that varies, several sets of them: columns in SI by symbol, NaN where a formula has no value. */
export interface Drawn {
  readonly columns: ReadonlyMap<string, Float64Array>;
  readonly count: number;
  /** What stands in the blanks for one of the sets. */
  readonly entriesAt: (place: number) => readonly { readonly symbol: string; readonly text: string }[];
}

/** One of the whole numbers from 0 to below `count`. */
type Pick = (count: number) => number;

/**
 * So many sets of numbers, one after the other.
 * @param varied in the order in which what follows can be worked out
 * @param known values in SI of the givens that do not vary
 */
export function drawNumbers(varied: readonly Varied[], known: ReadonlyMap<string, number>, pick: Pick, count: number): Drawn {
  const columns = new Map(varied.map(({ symbol }) => [symbol, new Float64Array(count)]));
  const steps = new Map(varied.map(({ symbol }) => [symbol, new Float64Array(count)]));
  for (let place = 0; place < count; place++) {
    const value = (name: string): number => columns.get(name)?.[place] ?? known.get(name) ?? Number.NaN;
    for (const one of varied) {
      const step = stepOf(one, pick, value);
      const column = columns.get(one.symbol) ?? new Float64Array(0);
      column[place] = valueAt(one, step);
      (steps.get(one.symbol) ?? column)[place] = step;
    }
  }
  return { columns, count, entriesAt: (place) => varied.map((one) => ({ symbol: one.symbol, text: textAt(one, steps.get(one.symbol)?.[place] ?? Number.NaN) })) };
}

/** The numbers in the middle of their ranges. Problem: `variants-follows` where what follows has no value. */
export function middleNumbers(varied: readonly Varied[], known: ReadonlyMap<string, number>): Result<Drawn> {
  const drawn = drawNumbers(varied, known, (count) => Math.floor(count / 2), 1);
  const [missing] = varied.filter(({ symbol }) => Number.isNaN(drawn.columns.get(symbol)?.[0]));
  if (missing === undefined) return ok(drawn);
  return fail({
    code: 'variants-follows', what: `What ${symbolInWords(missing.symbol)} follows from has no value.`, mend: 'It may follow from givens that vary or that are filled in, and from nothing else.', cell: missing.cellId, key: 'varies',
  });
}

/** Steps from the low end of a range, place in a list, or steps from zero of what follows. */
function stepOf({ variation }: Varied, pick: Pick, value: (name: string) => number): number {
  if (variation.kind === 'range') return pick(variation.count);
  if (variation.kind === 'list') return pick(variation.quantities.length);
  const found = evaluate(variation.expression, { value, standardUncertainty: () => 0 });
  // What follows exactly takes nothing from the stream, so that one more such given leaves the others as they were.
  const aside = variation.spread === 0 ? 0 : pick(2 * variation.spread + 1) - variation.spread;
  return found.ok ? nearestStep(variation.scale, found.value) + aside : Number.NaN;
}

function valueAt({ variation }: Varied, step: number): number {
  if (variation.kind === 'list') return variation.quantities[step]?.value ?? Number.NaN;
  return Number.isNaN(step) ? step : toSI(numberOnScale(variation.scale, step), variation.scale.unit);
}

function textAt({ variation }: Varied, step: number): string {
  return variation.kind === 'list' ? (variation.quantities[step]?.text ?? '') : onScale(variation.scale, step);
}
