import { standardUncertainty } from '../../core/estimate/index.ts';
import { counterpart, intervalFromSI } from '../../core/units/index.ts';
import { cellIn } from '../../sheet/index.ts';
import type { CheckCell } from '../../sheet/types.ts';
import { referenceContext, type HeldContext } from './held.ts';
import { isHidden, isSymbolHidden } from './hidden.ts';
import { definingCell } from './lookup.ts';
import { figures, plainFigures, unitText, withUnit } from './number.ts';
import { isShownAsFactor, presentSymbol } from './result.ts';
import type { PresentContext } from './types.ts';

/** By how much a value differs from what it was in a held state. */
export interface PresentedShift {
  readonly direction: 'up' | 'down' | 'other';
  /** `+12.3 MPa, +5.1 %`; `× 0.72` for a life; what it was in words where one of the two has no value. */
  readonly text: string;
  /** Name of the held state. */
  readonly from: string;
}

/** Paths of the sign before a difference, in a box of 12 by 11. */
export const WEDGES: Readonly<Record<PresentedShift['direction'], string>> = {
  up: 'M1 9 6 1l5 8z', down: 'M1 2h10L6 10z', other: 'M2 4.5h8v2H2z',
};

/** Smaller relative differences are the last bits of the arithmetic. */
const NOISE = 1e-12;

/** By how much a symbol moved from the reference; undefined without a reference, where it did not move, and while its result is hidden. */
export function presentShift(symbol: string, context: PresentContext): PresentedShift | undefined {
  const reference = referenceContext(context);
  return reference === undefined ? undefined : shiftFrom(reference, symbol, context);
}

/** The same from any held state to any other state of the sheet. */
export function shiftFrom(reference: HeldContext, symbol: string, context: PresentContext): PresentedShift | undefined {
  const [was, is] = [reference.states.symbol(symbol), context.states.symbol(symbol)];
  if (was === undefined || is === undefined || was === is) return undefined;
  if (isSymbolHidden(symbol, context) || isSymbolHidden(symbol, reference)) return undefined;
  const from = reference.held.name;
  if (was.status === 'value' && is.status === 'value') {
    const change = is.estimate.value - was.estimate.value;
    const size = Math.max(Math.abs(is.estimate.value), Math.abs(was.estimate.value), standardUncertainty(is.estimate) || 0);
    if (!(Math.abs(change) > NOISE * size)) return undefined;
    return { direction: change > 0 ? 'up' : 'down', text: changeText(symbol, was.estimate.value, is.estimate.value, context), from };
  }
  if (was.status === 'range' && is.status === 'range' && was.word === is.word) return undefined;
  if (was.status === 'problem' && is.status === 'problem') return undefined;
  const before = presentSymbol(symbol, reference);
  return { direction: 'other', text: before === undefined || before.kind === 'problem' ? 'had no value' : `was ${before.text}`, from };
}

function changeText(symbol: string, was: number, is: number, context: PresentContext): string {
  const ratio = is / was;
  if (isShownAsFactor(symbol, context) && ratio > 0) return `×\u00a0${factorText(ratio)}`;
  const state = context.states.symbol(symbol);
  const own = state?.unit;
  if (own === undefined) return '';
  const unit = cellIn(definingCell(symbol, context), 'given') !== undefined ? own : counterpart(own, context.system);
  const difference = withUnit(signed(intervalFromSI(is - was, unit)), unitText(unit)).replaceAll(' ', '\u00a0');
  // A percentage of a temperature on a scale with a zero of its own says nothing, as one across zero.
  return was === 0 || ratio <= 0 || unit.offset !== 0 ? difference : `${difference}, ${relativeText(ratio, Math.sign(was))}`;
}

/** A ratio with three figures of what it differs from 1 by, so that it never says 1. */
function factorText(ratio: number): string {
  const away = Math.abs(ratio - 1);
  if (away >= 0.1) return plainFigures(ratio, 3);
  return ratio.toFixed(Math.min(9, 2 - Math.floor(Math.log10(away))));
}

/** As percentage, with the sign of the difference; as a factor where it is a matter of tens. */
function relativeText(ratio: number, sign: number): string {
  if (ratio >= 10 || ratio <= 0.1) return `×\u00a0${factorText(ratio)}`;
  const percent = 100 * sign * (ratio - 1);
  return Math.abs(percent) < 0.001 ? 'below 0.001\u00a0%' : `${signed(percent)}\u00a0%`;
}

function signed(value: number): string {
  return value > 0 ? `+${figures(value, 3)}` : figures(value, 3);
}

/** What a check said in the reference where it says otherwise now. */
export function presentTurned(check: CheckCell, context: PresentContext): string | undefined {
  const reference = referenceContext(context);
  if (reference === undefined || isHidden(check.id, context) || isHidden(check.id, reference)) return undefined;
  const [was, is] = [reference.states.cell(check.id)?.check?.holds, context.states.cell(check.id)?.check?.holds];
  if (was === is) return undefined;
  const words = was === undefined ? 'could not be told' : was ? 'held' : 'did not hold';
  return `Turned: this ${words} in “${reference.held.name}”.`;
}
