import type { Expression } from '../core/formula/types.ts';
import { parseFormula, referencedSymbols } from '../core/formula/index.ts';
import { rememberedTexts } from '../core/remembered/index.ts';

/** `parseFormula` with the last few thousand texts remembered: an expression keeps its identity while its text stays. */
export const parseRemembered = rememberedTexts(5000, (text) => parseFormula(text));

/** Symbols that a text reads, if it is a formula. */
export function symbolsOf(text: string): readonly string[] {
  const read = parseRemembered(text);
  return read.ok ? referencedSymbols(read.value) : [];
}

/** Symbols read by any of the expressions, in order of first mention. */
export function readsOf(expressions: readonly Expression[]): readonly string[] {
  return [...new Set(expressions.flatMap((expression) => referencedSymbols(expression)))];
}
