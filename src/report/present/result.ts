import { coverageInterval, factorInterval, FIGURES_OF_UNCERTAINTIES, roundByUncertainty, standardUncertainty, type RoundedValue } from '../../core/estimate/index.ts';
import type { Estimate } from '../../core/estimate/types.ts';
import { normalQuantile } from '../../core/numeric/index.ts';
import { counterpart, fromSI, intervalFromSI } from '../../core/units/index.ts';
import type { Unit, UnitSystem } from '../../core/units/types.ts';
import { someNames } from '../../graph/index.ts';
import type { RangeWord, SymbolState } from '../../graph/types.ts';
import { asKind } from '../../sheet/index.ts';
import type { Cell } from '../../sheet/types.ts';
import { asked } from './asked.ts';
import { definingCell } from './lookup.ts';
import { beyondAllNumbers, figures, intervalEnd, decimalTex, decimalText, withUnitTex, withUnit, unitText } from './number.ts';
import type { PresentContext, WholeContext, PresentedResult } from './types.ts';

/** What a range word says to the reader. */
const RANGE_TEXTS: Readonly<Record<RangeWord, string>> = {
  'below limit': 'below the endurance limit: the line gives no life here, fracture is still possible',
  'low cycle': 'below 10³ cycles: outside this line',
  'beyond data': 'beyond the tested lives',
  open: 'open',
};

interface ResultOptions {
  /** `factor`: the uncertainty of a life, times or divided by. */
  readonly spread?: 'factor';
  /** Keeps the state's own unit whatever the system: for what was typed. */
  readonly ownUnit?: boolean;
}

/** By state, which is never changed: the same result stands in several lines, and an edit leaves most of them. */
const presented = new WeakMap<SymbolState, Map<string, PresentedResult>>();

/** The state of a symbol as it stands on the page, in the reader's system. */
export function presentResult(state: SymbolState, system: UnitSystem, options: ResultOptions = {}): PresentedResult {
  const way = `${system} ${options.spread ?? ''} ${options.ownUnit ?? ''}`;
  const known = presented.get(state);
  const result = known?.get(way) ?? presentAnew(state, system, options);
  if (known === undefined) presented.set(state, new Map([[way, result]]));
  else known.set(way, result);
  return result;
}

function presentAnew(state: SymbolState, system: UnitSystem, options: ResultOptions): PresentedResult {
  if (state.status === 'problem') return { kind: 'problem', problem: state.problem };
  if (state.status === 'range') {
    const text = state.waitsFor === undefined ? RANGE_TEXTS[state.word] : `waits for ${someNames(state.waitsFor)}`;
    return { kind: 'range', word: state.word, text };
  }
  const unit = options.ownUnit === true ? state.unit : counterpart(state.unit, system);
  const { estimate } = state;
  if (!Number.isFinite(estimate.value)) {
    return {
      kind: 'problem',
      problem: { code: 'not-finite', what: 'This has no finite value.', mend: 'Look for a number in it that is far too large, or zero.' },
    };
  }
  const u = intervalFromSI(standardUncertainty(estimate), unit);
  const number = fromSI(estimate.value, unit);
  if (options.spread === 'factor' && estimate.value > 0 && u > 0 && Number.isFinite(u)) {
    return presentSpread(number, u / number, estimate, unit);
  }
  return presentValue(number, u, estimate, unit, exactDigitsOf(state));
}

/** A value as it stands in a line of numbers: in its unit of the system, rounded by its uncertainty. */
export function roundedIn(state: SymbolState & { readonly status: 'value' }, system: UnitSystem): { readonly unit: Unit; readonly rounded: RoundedValue } {
  const unit = counterpart(state.unit, system);
  const u = intervalFromSI(standardUncertainty(state.estimate), unit);
  return { unit, rounded: roundByUncertainty(fromSI(state.estimate.value, unit), u, exactDigitsOf(state)) };
}

/** Figures of a value without uncertainty; undefined where they are as many as usual. */
function exactDigitsOf(state: SymbolState & { readonly status: 'value' }): number | undefined {
  return state.isOfUncertainties === true ? FIGURES_OF_UNCERTAINTIES : undefined;
}

/** The result of a symbol of the sheet; undefined where no cell defines it. */
export function presentSymbol(name: string, context: PresentContext): PresentedResult | undefined {
  const state = context.states.symbol(name);
  if (state === undefined) return undefined;
  const way = asked(context, shownHow, name);
  return presentResult(state, context.system, { ...(way === 'factor' ? { spread: way } : {}), ownUnit: way === 'own unit' });
}

/** Whether a symbol's uncertainty, and any change of it, is a factor: lives are. */
export function isShownAsFactor(name: string, context: PresentContext): boolean {
  return asked(context, shownHow, name) === 'factor';
}

/** What is typed keeps its unit; the uncertainty of a life is a factor. */
function shownHow(context: WholeContext, name: string): 'own unit' | 'factor' | 'as usual' {
  const cell = wordedBy(name, context);
  return asKind(cell, 'given') === undefined ? (asKind(cell, 'step')?.spread ?? 'as usual') : 'own unit';
}

/** The cell that says how a symbol is shown: what a record hands on is shown as the prediction itself is. */
function wordedBy(name: string, context: WholeContext): Cell | undefined {
  const cell = definingCell(name, context)?.cell;
  const record = asKind(cell, 'record');
  if (record === undefined) return cell;
  const [role = ''] = [...record.symbols].find(([, symbol]) => symbol === name) ?? [];
  return definingCell(record.watches.get(role) ?? '', context)?.cell;
}

function presentValue(value: number, u: number, estimate: Estimate, unit: Unit, exactDigits: number | undefined): PresentedResult {
  const finite = Number.isFinite(u);
  const rounded = roundByUncertainty(value, finite ? u : 0, exactDigits);
  const number = decimalText(rounded.number, rounded.exponent);
  const uncertainty = finite
    ? rounded.uncertainty === undefined ? undefined : decimalText(rounded.uncertainty, rounded.exponent)
    : '∞';
  const name = unitText(unit);
  const base = {
    kind: 'value' as const,
    number,
    unit: name,
    tex: withUnitTex(decimalTex(rounded.number, rounded.exponent), unit),
  };
  if (uncertainty === undefined) return { ...base, text: withUnit(number, name) };
  const text = rounded.exponent === 0 || rounded.uncertainty === undefined
    ? `${number} ± ${uncertainty}`
    : `(${decimalText(rounded.number, 0)} ± ${decimalText(rounded.uncertainty, 0)})${powerOfTen(rounded.exponent)}`;
  const whole = { ...base, uncertainty, text: withUnit(text, name) };
  if (!finite) return whole;
  const { low, high, factor, degreesOfFreedom } = coverageInterval(estimate);
  return {
    ...whole,
    interval: {
      ...coverage(factor, degreesOfFreedom),
      low: intervalEnd(fromSI(low, unit), rounded),
      high: intervalEnd(fromSI(high, unit), rounded),
    },
  };
}

/** Of 95 % where nothing is known to too few degrees of freedom. */
const NORMAL_FACTOR = normalQuantile(0.975).toFixed(2);

/** Degrees of freedom are said where they make the factor another one as it is shown; the budget tells them in any case. */
function coverage(factor: number, degreesOfFreedom: number | undefined): { factor: string; degreesOfFreedom?: string } {
  const shown = factor.toFixed(2);
  const said = degreesOfFreedom !== undefined && Number.isFinite(degreesOfFreedom) && shown !== NORMAL_FACTOR;
  return { factor: shown, ...(said ? { degreesOfFreedom: figures(degreesOfFreedom, 2) } : {}) };
}

function powerOfTen(exponent: number): string {
  return `·${decimalText('1', exponent)}`;
}

/** A positive value whose logarithm has standard uncertainty `relative`: one factor up and down, the interval too. */
function presentSpread(value: number, relative: number, estimate: Estimate, unit: Unit): PresentedResult {
  const rounded = roundSpread(value, relative);
  const number = decimalText(rounded.number, rounded.exponent);
  const spreadFactor = factorText(Math.exp(relative));
  const name = unitText(unit);
  const interval = factorInterval(estimate);
  if (interval === undefined) throw new RangeError('a factor about a value that is not positive');
  const { low, high, factor, degreesOfFreedom } = interval;
  const end = (si: number): string => {
    const value = fromSI(si, unit);
    if (!Number.isFinite(value)) return beyondAllNumbers(value);
    const there = roundSpread(value, relative);
    return decimalText(there.number, there.exponent);
  };
  return {
    kind: 'value',
    number,
    unit: name,
    spreadFactor,
    interval: { ...coverage(factor, degreesOfFreedom), low: end(low), high: end(high) },
    text: `${withUnit(number, name)} ×/÷ ${spreadFactor}`,
    tex: withUnitTex(decimalTex(rounded.number, rounded.exponent), unit),
  };
}

/** From here on a life is written with a power of ten, which shows how many of its figures count. */
const WRITTEN_AS_POWER = 1e4;

/** Rounded by its own spread, but never to nothing where the factor is large. */
function roundSpread(value: number, relative: number): RoundedValue {
  const least = Math.min(relative, 0.5);
  if (value < WRITTEN_AS_POWER) return roundByUncertainty(value, value * least);
  const figuresThatCount = Math.round(-Math.log10(least)) + 2;
  const [number = '', exponent] = value.toExponential(Math.min(figuresThatCount, 15) - 1).split('e');
  return { number, exponent: Number(exponent) };
}

/** Two figures of what the factor is above 1, so that `1.0034` and `1.12` and `13` all say as much. */
function factorText(factor: number): string {
  if (!(factor < 1e5)) return figures(factor, 2);
  const decimals = Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(Math.max(factor - 1, 1e-6)))));
  return decimalText(factor.toFixed(decimals), 0);
}
