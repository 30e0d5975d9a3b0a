import { plainSymbols } from '../../core/formula/index.ts';
import type { Unit } from '../../core/units/types.ts';
import type { SweepAxis } from '../../figures/charts/index.ts';
import type { SweepGap } from '../../graph/index.ts';
import type { GivenCell } from '../../sheet/types.ts';
import { calledIn } from './lookup.ts';
import { plainFigures, unitText, withUnit } from './number.ts';
import { presentResult } from './result.ts';
import type { SweepRange } from './sweep-range.ts';
import type { PresentContext } from './types.ts';

export interface SweepSide {
  readonly given: GivenCell;
  readonly range: SweepRange;
}

/** A result that runs over more than this factor is drawn over a logarithmic axis, as lives are. */
const FACTOR_FOR_LOG = 30;
const FIGURES = 4;

/** A quantity as its axis names and writes it. */
export function axisOf(symbol: string, unit: Unit, context: PresentContext, number = (value: number): string => plainFigures(value, FIGURES)): SweepAxis {
  const name = unitText(unit);
  return {
    symbol, unit: name,
    words: calledIn(context, symbol),
    number,
    text: (value) => withUnit(number(value), name),
  };
}

export function isLogarithmic(values: Float64Array, isLife: boolean): boolean {
  const there = values.filter((value) => !Number.isNaN(value));
  if (there.length === 0 || !there.every((value) => value > 0)) return false;
  const [least, most] = there.reduce(([low, high], value) => [Math.min(low, value), Math.max(high, value)], [Infinity, 0]);
  return isLife || most / least > FACTOR_FOR_LOG;
}

/** Why there is no value, as the end of a sentence. */
export function gapWords(why: SweepGap['why'], { system }: PresentContext): string {
  if (why === undefined) return 'it has none';
  const result = presentResult(why, system);
  const text = result.kind === 'value' ? 'it is too large to be written' : result.kind === 'range' ? result.text : result.problem.what;
  return plainSymbols(text).replace(/\.$/, '').replace(/^(?:The|This|It|A|No) /, (word) => word.toLowerCase());
}
