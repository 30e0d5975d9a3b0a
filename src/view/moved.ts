import type { SheetStates, SymbolState } from '../graph/types.ts';

/** How a result moved with the last edit. */
export interface Moved {
  readonly direction: 'up' | 'down' | 'other';
  /** `1.2 %`, without sign; or what happened where there is no ratio. */
  readonly text: string;
  /** For the ear: `up 1.2 %`. */
  readonly spoken: string;
  /** How far it moved, for comparison: the logarithm of the ratio, without sign; infinite where there is none. */
  readonly size: number;
}

export function isSameMove(a: Moved | undefined, b: Moved | undefined): boolean {
  return a === b || (a !== undefined && a.direction === b?.direction && a.text === b.text);
}

/** Smaller relative changes are the last bits of the arithmetic, not of the edit. */
const NOISE = 1e-12;

/** Symbols whose value differs between two states of the sheet, and how. Those that did not move are not in it. */
export function movedSymbols(before: SheetStates, after: SheetStates): ReadonlyMap<string, Moved> {
  const moved = new Map<string, Moved>();
  for (const symbol of after.symbols) {
    const change = movedBetween(before.symbol(symbol), after.symbol(symbol));
    if (change !== undefined) moved.set(symbol, change);
  }
  return moved;
}

/** How a symbol moved between two states; undefined where it did not, or where it was not there before. */
export function movedBetween(before: SymbolState | undefined, after: SymbolState | undefined): Moved | undefined {
  if (before === after || before === undefined || after === undefined) return undefined;
  if (before.status === 'value' && after.status === 'value') {
    return movedValue(before.estimate.value, after.estimate.value);
  }
  if (after.status === 'value') return { direction: 'other', text: 'has a value now', spoken: 'has a value now', size: Number.POSITIVE_INFINITY };
  if (before.status === 'value') return { direction: 'other', text: 'has no value now', spoken: 'has no value now', size: Number.POSITIVE_INFINITY };
  if (before.status === 'range' && after.status === 'range' && before.word !== after.word) {
    return { direction: 'other', text: after.word, spoken: `now ${after.word}`, size: Number.POSITIVE_INFINITY };
  }
  return undefined;
}

function movedValue(before: number, after: number): Moved | undefined {
  const change = after - before;
  if (Math.abs(change) <= NOISE * Math.max(Math.abs(before), Math.abs(after))) return undefined;
  const direction = change > 0 ? 'up' : 'down';
  const text = changeText(before, after);
  const ratio = after / before;
  const size = ratio > 0 ? Math.abs(Math.log(ratio)) : Number.POSITIVE_INFINITY;
  return { direction, text, spoken: `${direction} ${text}`, size };
}

/** Two figures of the relative change; times where it more than doubled; words where there is no ratio. */
function changeText(before: number, after: number): string {
  if (before === 0) return 'from zero';
  if (after === 0) return 'to zero';
  if (Math.sign(before) !== Math.sign(after)) return 'changed sign';
  const ratio = Math.abs(after / before);
  if (ratio >= 10 || ratio <= 0.1) return `× ${figures(ratio)}`;
  const percent = 100 * Math.abs(ratio - 1);
  return percent < 0.001 ? 'below 0.001 %' : `${figures(percent)} %`;
}

function figures(value: number): string {
  const rounded = Number(value.toPrecision(2));
  const exponent = Math.floor(Math.log10(rounded));
  if (exponent > 5 || exponent < -4) {
    return `${(rounded / 10 ** exponent).toFixed(1)}·10${[...String(exponent)].map((digit) => SUPERSCRIPTS[digit] ?? '').join('')}`;
  }
  return rounded.toFixed(Math.max(0, 1 - exponent));
}

const SUPERSCRIPTS: Readonly<Record<string, string>> = {
  '-': '⁻', '0': '⁰', '1': '¹', '2': '²', '3': '³', '4': '⁴', '5': '⁵', '6': '⁶', '7': '⁷', '8': '⁸', '9': '⁹',
};
