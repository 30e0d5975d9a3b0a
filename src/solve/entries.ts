import { coverageInterval, factorInterval, standardUncertainty, type Estimate } from '../core/estimate/index.ts';
import type { LineFit } from '../core/fatigue/index.ts';
import { problemSentence } from '../core/problem/index.ts';
import { counterpart, fromSI, intervalFromSI, type Unit } from '../core/units/index.ts';
import { rightStates, type SheetStates, type SymbolState } from '../graph/index.ts';
import {
  heldContext, isMovedBySlips, isShownAsFactor, presentCheck, type PresentContext, presentSymbol, presentTrials, restsOnTrial, type WholeContext, wholeOf,
} from '../report/index.ts';
import { cellIn, cellsOf, type SheetDocument } from '../sheet/index.ts';
import type { Answer, Entry } from './types.ts';

export function valueEntries(context: WholeContext, more: (symbol: string, unit: Unit | undefined) => Entry): Answer['values'] {
  return Object.fromEntries(context.states.symbols.flatMap((symbol) => {
    const state = context.states.symbol(symbol);
    if (state === undefined) return [];
    const unit = shownUnit(symbol, state, context);
    return [[symbol, { ...valueEntry(symbol, state, unit, context), ...slipEntry(symbol, context), ...more(symbol, unit) }]];
  }));
}

/** Trial values by symbol, as they are written. */
export function trialEntries(context: PresentContext): Pick<Answer, 'trials'> {
  const trials = presentTrials(context).map(({ symbol, typed }) => [symbol, typed] as const);
  return trials.length === 0 ? {} : { trials: Object.fromEntries(trials) };
}

/** The same for every held state. */
export function heldEntries(context: WholeContext): Pick<Answer, 'held'> {
  const { held } = context.document.frontMatter;
  return held.length === 0 ? {} : { held: held.map((state) => ({ name: state.name, values: valueEntries(wholeOf(heldContext(state, context)), () => ({})) })) };
}

/** What was typed keeps its unit; what is derived is shown in the sheet's system. */
export function shownUnit(symbol: string, state: SymbolState, { document, states, system }: PresentContext): Unit | undefined {
  if (state.unit === undefined) return undefined;
  const definer = states.definedBy(symbol);
  const block = document.blocks.find(({ id }) => id === definer);
  return cellIn(block, 'given') !== undefined ? state.unit : counterpart(state.unit, system);
}

function valueEntry(symbol: string, state: SymbolState, unit: Unit | undefined, context: PresentContext): Entry {
  const presented = presentSymbol(symbol, context);
  const named = { ...(unit === undefined ? {} : { unit: unit.name }), ...(restsOnTrial(context.states.definedBy(symbol) ?? '', context) ? { restsOnTrial: true } : {}) };
  const none = { value: null, ...named, u: null, si: null, si_u: null };
  if (presented?.kind === 'range') return { ...none, range: presented.word, text: presented.text };
  if (presented?.kind === 'problem') return { ...none, text: problemSentence(presented.problem) };
  if (state.status !== 'value' || unit === undefined || presented === undefined) return none;
  const uncertainty = standardUncertainty(state.estimate);
  return {
    value: fromSI(state.estimate.value, unit),
    ...named,
    u: intervalFromSI(uncertainty, unit),
    si: state.estimate.value,
    si_u: uncertainty,
    text: presented.text,
    ...intervalEntry(state.estimate, unit, isShownAsFactor(symbol, context)),
  };
}

/** The 95 % interval by first order, of a life as a factor; none where nothing is uncertain. */
function intervalEntry(estimate: Estimate, unit: Unit, asFactor: boolean): Entry {
  if (!(standardUncertainty(estimate) > 0)) return {};
  const factor = asFactor ? factorInterval(estimate) : undefined;
  const { factor: k, degreesOfFreedom, low, high } = factor ?? coverageInterval(estimate);
  return { interval: { k, degreesOfFreedom: claimed(degreesOfFreedom), lo: fromSI(low, unit), hi: fromSI(high, unit), ...(factor === undefined ? {} : { spread: 'factor' }) } };
}

/** Infinite degrees of freedom by name, since JSON has no such number; null where they are not claimed. */
export function claimed(degreesOfFreedom: number | undefined): number | 'infinite' | null {
  return degreesOfFreedom === undefined ? null : Number.isFinite(degreesOfFreedom) ? degreesOfFreedom : 'infinite';
}

/** What is right where a slip has moved a value; null where that has no number. */
function slipEntry(symbol: string, context: WholeContext): Entry {
  if (!isMovedBySlips(symbol, context)) return {};
  const states = rightStates(context.document, context.states);
  const right = states.symbol(symbol);
  const unit = right === undefined ? undefined : shownUnit(symbol, right, { ...context, states });
  return { movedBySlip: true, right: right?.status === 'value' && unit !== undefined ? fromSI(right.estimate.value, unit) : null };
}

/** Every fit that has a result, by cell id. */
export function fitEntries(document: SheetDocument, states: SheetStates): Pick<Answer, 'fits'> {
  const fits: Record<string, unknown> = {};
  for (const { id, finds } of cellsOf(document, 'fit')) {
    if (finds !== 'line') continue;
    const state = states.cell(id)?.fit;
    fits[id] = state === undefined ? null : { ...fitEntry(state.fit), ...(state.taken === undefined ? {} : { taken: state.taken }) };
  }
  return Object.keys(fits).length > 0 ? { fits } : {};
}

function fitEntry(fit: LineFit): Entry {
  const { method, model, life, stress, n, failures, runouts, covariance, s, logLikelihood, aic, lackOfFit } = fit;
  const parameters = Object.fromEntries(fit.parameters.map(({ name, value, se, lo, hi }) => [name, { value, se, lo, hi }]));
  return {
    method, model, life, stress, n, failures, runouts, parameters, covariance, s, logLikelihood, aic,
    lackOfFit: lackOfFit === null ? null : { F: lackOfFit.F, df1: lackOfFit.df1, df2: lackOfFit.df2, p: lackOfFit.p },
    replication: fit.replication.percent,
  };
}

export function checkEntries(context: PresentContext): Answer['checks'] {
  return cellsOf(context.document, 'check').map((cell) => {
    const { holds, message } = presentCheck(cell, context);
    return { cell: cell.id, holds: holds ?? null, message };
  });
}
