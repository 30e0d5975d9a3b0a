import { coverageInterval, factorInterval, numericalTolerance, standardUncertainty, telling, validateFactor, validateFirstOrder } from '../core/estimate/index.ts';
import { fromSI, intervalFromSI, type Unit } from '../core/units/index.ts';
import { sampledResult, type SampledResult, type Samples, type SheetStates, type SymbolState } from '../graph/index.ts';
import { budgetFigures, type PresentContext, type WholeContext } from '../report/index.ts';
import { claimed, shownUnit } from './entries.ts';
import { UsageError, type Options } from './options.ts';
import type { Answer, Entry } from './types.ts';

/** Digits of u that a comparison with first order is held to. */
const DIGITS = 2;

/** By symbol what was sampled of it; the value itself where nothing in it is uncertain. */
export type SampledSymbols = ReadonlyMap<string, SampledResult | number>;

/** What samples of the whole sheet say of each symbol. */
export function sampledOf(samples: Samples, seed: number, states: SheetStates): SampledSymbols {
  return new Map([...samples].map(([symbol, column]): readonly [string, SampledResult | number] => {
    const state = states.symbol(symbol);
    if (typeof column === 'number' || state?.status !== 'value') return [symbol, Number(column)];
    const inputs = [...state.estimate.sensitivities.values()].map(({ input }) => input);
    return [symbol, sampledResult({ symbol, inputs, seed, digits: DIGITS }, column)];
  }));
}

/**
 * Intervals by samples, and whether the one by first order may be used in their place (JCGM 101:2008, 8.1): as ±, and for a life
 * also as the factor that its `interval` is.
 */
export function samplesEntry(sampled: SampledResult | number | undefined, unit: Unit | undefined, { samples, seed }: Options, state: SymbolState | undefined, asFactor: boolean): Entry {
  if (sampled === undefined || unit === undefined || state?.status !== 'value') return { mc: null };
  const about = { draws: samples, seed };
  if (typeof sampled === 'number') {
    const value = fromSI(sampled, unit);
    return { mc: { mean: value, u: 0, lo: value, hi: value, ...about } };
  }
  const { summary, withoutValue } = sampled;
  if (summary === undefined) return { mc: null };
  const tolerance = numericalTolerance(telling(summary, sampled.settling).size, DIGITS);
  const factor = asFactor ? factorInterval(state.estimate) : undefined;
  return {
    mc: {
      mean: fromSI(summary.mean, unit),
      u: intervalFromSI(summary.standardDeviation, unit),
      lo: fromSI(summary.low, unit),
      hi: fromSI(summary.high, unit),
      shortest: { lo: fromSI(summary.shortest.low, unit), hi: fromSI(summary.shortest.high, unit) },
      tolerance: intervalFromSI(tolerance, unit),
      firstOrderHolds: validateFirstOrder(coverageInterval(state.estimate), summary, tolerance).holds,
      ...(factor === undefined ? {} : { firstOrderHoldsAsFactor: validateFactor(factor, summary, DIGITS)?.holds ?? false }),
      ...about,
      ...(withoutValue === 0 ? {} : { withoutValue }),
    },
  };
}

/**
 * The budgets asked for.
 * @throws UsageError where the sheet has no such symbol; null stands for one without value
 */
export function budgetEntries(symbols: readonly string[], context: WholeContext): Pick<Answer, 'budgets'> {
  if (symbols.length === 0) return {};
  return {
    budgets: Object.fromEntries(symbols.map((symbol) => {
      if (!context.states.symbols.includes(symbol)) throw new UsageError(`This sheet has no symbol called ${symbol}.`);
      return [symbol, budgetEntry(symbol, context)];
    })),
  };
}

function budgetEntry(symbol: string, context: PresentContext): Entry | null {
  const state = context.states.symbol(symbol);
  const lines = budgetFigures(symbol, context);
  const unit = state === undefined ? undefined : shownUnit(symbol, state, context);
  if (state?.status !== 'value' || lines === undefined || unit === undefined) return null;
  const u = standardUncertainty(state.estimate);
  const { factor, degreesOfFreedom } = coverageInterval(state.estimate);
  return {
    value: fromSI(state.estimate.value, unit),
    unit: unit.name,
    u: intervalFromSI(u, unit),
    degreesOfFreedom: claimed(degreesOfFreedom),
    k: factor,
    expanded: intervalFromSI(factor * u, unit),
    inputs: lines.map((line) => ({ ...line, degreesOfFreedom: claimed(line.degreesOfFreedom) })),
  };
}
