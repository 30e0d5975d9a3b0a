import { fail, invisibleSign, ok, type Result } from '../problem/index.ts';
import { functionNamed } from './functions.ts';

/** Letters and digits, then subscripts behind underscores. Only names of this form reach the typesetter. */
const SYMBOL_NAME = /^[A-Za-z][A-Za-z0-9]*(_[A-Za-z0-9]+)*$/;
const LONGEST_NAME = 40;

/** Words of the language that are no function. */
const RESERVED: ReadonlySet<string> = new Set(['pi', 'and', 'or', 'not', 'unit']);

/** Whether the name has the form of a symbol, reserved or not. */
export function isSymbolName(name: string): boolean {
  return name.length <= LONGEST_NAME && SYMBOL_NAME.test(name);
}

/**
 * The name itself where a cell may take it as its symbol.
 * Problems: `invisible-sign`, `symbol-name` (not letters, digits and subscripts), `symbol-reserved` (a word of the formula language).
 */
export function checkSymbolName(name: string): Result<string> {
  const unseen = invisibleSign(name);
  if (unseen !== undefined) return fail(unseen);
  if (!isSymbolName(name)) {
    const shown = name.length > LONGEST_NAME ? `${name.slice(0, LONGEST_NAME)}...` : name;
    return fail({
      code: 'symbol-name',
      what: shown === '' ? 'The symbol is empty.' : `"${shown}" can't be a symbol.`,
      mend: 'Use letters and digits, a letter first, and subscripts behind an underscore, as in R_A or sigma_a.',
    });
  }
  if (RESERVED.has(name) || functionNamed(name) !== undefined) {
    return fail({
      code: 'symbol-reserved',
      what: `"${name}" has a meaning of its own in formulas.`,
      mend: `Choose another symbol, for example ${name}_1.`,
    });
  }
  return ok(name);
}
