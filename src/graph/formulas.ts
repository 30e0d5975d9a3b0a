import type { Expression } from '../core/formula/types.ts';
import { parseFormula, referencedSymbols } from '../core/formula/index.ts';

const parsed = new Map<string, ReturnType<typeof parseFormula>>();
const PARSED_LIMIT = 5000;

/** `parseFormula` with the last few thousand texts remembered: an expression keeps its identity while its text stays. */
export function parseRemembered(text: string): ReturnType<typeof parseFormula> {
  const known = parsed.get(text);
  if (known !== undefined) return known;
  if (parsed.size >= PARSED_LIMIT) parsed.clear();
  const result = parseFormula(text);
  parsed.set(text, result);
  return result;
}

/** Symbols that a text reads, if it is a formula. */
export function symbolsOf(text: string): readonly string[] {
  const read = parseRemembered(text);
  return read.ok ? referencedSymbols(read.value) : [];
}

/** Symbols read by any of the expressions, in order of first mention. */
export function readsOf(expressions: readonly Expression[]): readonly string[] {
  return [...new Set(expressions.flatMap((expression) => referencedSymbols(expression)))];
}
