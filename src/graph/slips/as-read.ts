import type { SheetStates, SymbolState } from '../types.ts';

const ENDING = ' as read';

/** Name of a given's value as it was read, while a slip stands in its place. No formula can call it that. */
export function asRead(symbol: string): string {
  return symbol + ENDING;
}

export function isAsRead(name: string): boolean {
  return name.endsWith(ENDING);
}

/** A given's state as it was read, whatever slip stands in its place. */
export function stateAsRead(symbol: string, states: Pick<SheetStates, 'symbol'>): SymbolState | undefined {
  return states.symbol(asRead(symbol)) ?? states.symbol(symbol);
}
