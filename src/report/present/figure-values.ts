import { standardUncertainty } from '../../core/estimate/index.ts';
import { coherentUnit, counterpart, fromSI } from '../../core/units/index.ts';
import type { Dimension, Unit } from '../../core/units/types.ts';
import type { FigureValue, ValueText } from '../../figures/drawings/index.ts';
import type { FigureCell } from '../../sheet/types.ts';
import { isSymbolHidden } from './hidden.ts';
import { givenBehind } from './lookup.ts';
import { figures, unitText, withUnit } from './number.ts';
import { presentSymbol } from './result.ts';
import type { PresentContext } from './types.ts';

/** The values that a figure cell names for a drawing's roles; a role without symbol is absent. */
export function roleValues<Role extends string>(
  cell: FigureCell, roles: readonly Role[], context: PresentContext,
): Partial<Record<Role, FigureValue>> {
  const values: Partial<Record<Role, FigureValue>> = {};
  for (const role of roles) {
    const symbol = cell.values.get(role);
    if (symbol !== undefined) values[role] = figureValue(symbol, cell.givens?.get(role), context);
  }
  return values;
}

/** Writes SI values as the sheet writes those of these roles: in their unit, with places that suit the largest of them. */
export function textLike(cell: FigureCell, roles: readonly string[], usual: Dimension, context: PresentContext): ValueText {
  return valueText(unitAmong(cell, roles, usual, context), largestAmong(cell, roles, context));
}

function figureValue(symbol: string, named: string | undefined, context: PresentContext): FigureValue {
  const state = context.states.symbol(symbol);
  const result = presentSymbol(symbol, context);
  const behind = givenBehind(symbol, context);
  const given = behind ?? (named === undefined ? undefined : givenBehind(named, context));
  return {
    symbol,
    si: state?.status === 'value' ? state.estimate.value : undefined,
    text: result?.kind === 'value' ? withUnit(result.number, result.unit) : '',
    hidden: isSymbolHidden(symbol, context),
    ...(given === undefined ? {} : { given }),
    ...(behind === undefined || behind === symbol ? {} : { names: behind }),
    ...(state?.status === 'value' ? { uncertainty: standardUncertainty(state.estimate) } : {}),
  };
}

/** Display unit of the first of these values that has one, in the reader's system. */
function unitAmong(cell: FigureCell, roles: readonly string[], usual: Dimension, { states, system }: PresentContext): Unit {
  for (const role of roles) {
    const unit = states.symbol(cell.values.get(role) ?? '')?.unit;
    if (unit !== undefined) return counterpart(unit, system);
  }
  return counterpart(coherentUnit(usual), system);
}

/** Greatest of these values, SI: what the figures of all of them are rounded by, so that a small one shows no more places. */
function largestAmong(cell: FigureCell, roles: readonly string[], { states }: PresentContext): number {
  return Math.max(0, ...roles.map((role) => {
    const state = states.symbol(cell.values.get(role) ?? '');
    return state?.status === 'value' ? Math.abs(state.estimate.value) : 0;
  }));
}

/** Four figures for the largest value, the same places for smaller ones. */
function valueText(unit: Unit, largest: number): ValueText {
  const lead = Math.floor(Math.log10(Math.abs(fromSI(largest, unit))));
  return (si) => {
    const value = fromSI(si, unit);
    const own = Math.floor(Math.log10(Math.abs(value)));
    const count = Number.isFinite(lead) && Number.isFinite(own) ? Math.min(4, Math.max(1, 4 - lead + own)) : 4;
    return withUnit(figures(value, count), unitText(unit));
  };
}
