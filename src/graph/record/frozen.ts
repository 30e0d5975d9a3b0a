import { standardUncertainty } from '../../core/estimate/index.ts';
import { fail, ok, type Problem, type Result } from '../../core/problem/index.ts';
import { fromSI, intervalFromSI, intervalToSI, numberText, ONE, quantityText, readQuantity, toSI } from '../../core/units/index.ts';
import type { SymbolState } from '../types.ts';
import type { FrozenValue } from './types.ts';

/** A value with its standard uncertainty and unit, in digits that read back to the same double: `318400.5 ± 2100.25 cycles`. */
export function frozenText(state: SymbolState | undefined): string {
  if (state?.status === 'range') return state.word;
  if (state?.status !== 'value') return 'no value';
  const { unit, estimate } = state;
  const number = fromSI(estimate.value, unit);
  const u = intervalFromSI(standardUncertainty(estimate), unit);
  if (u === 0) return quantityText(number, unit);
  return `${numberText(number)} ± ${quantityText(u, unit)}`;
}

/** Reads it back. Undefined where there was no value at the start. Problem: `frozen-unread`. */
export function readFrozen(symbol: string, text: string): Result<FrozenValue | undefined> {
  if (!/\d/.test(text)) return ok(undefined);
  const [, left = text, u = '0', rest = ''] = /^(.*\S)\s*±\s*(\S+)(.*)$/.exec(text) ?? [];
  const read = readQuantity(`${left}${rest}`, 'ask');
  const spread = Number(u);
  if (!read.ok || !Number.isFinite(spread)) return fail(unread(symbol, text));
  const unit = read.value.unit ?? ONE;
  return ok({ value: toSI(read.value.number, unit), standardUncertainty: intervalToSI(spread, unit), unit });
}

function unread(symbol: string, text: string): Problem {
  return {
    code: 'frozen-unread',
    what: `What was predicted for ${symbol} at the start, “${text}”, can't be read any more.`,
    mend: 'Put back what stood there, for instance with undo.',
    key: 'frozen',
  };
}
