import { remembered } from '../../core/remembered/index.ts';
import { cellsOf } from '../../sheet/index.ts';
import type { ChoiceOption, FitCell, SheetDocument } from '../../sheet/types.ts';
import { symbolsOf } from '../formulas.ts';

/** Code of the trouble that the symbols of a fit have while no line has been taken yet. Their readers make it their own. */
export const LINE_AWAITED = 'line-awaited';

/** Symbols of fits that still wait for a line from another sheet. */
const awaitedSymbols = remembered((document: SheetDocument): ReadonlySet<string> =>
  new Set(cellsOf(document, 'fit').filter(awaitsLine).flatMap(({ symbols }) => [...symbols.values()])));

/** Whether a fit still waits for a line from another sheet. */
export function awaitsLine(cell: FitCell): boolean {
  return cell.finds === 'line' && cell.snapshot === undefined && cell.table === '' && cell.of === undefined;
}

/** Whether an option that says what it may lack does lack it: it sets nothing, or reads a line that has still to be taken. */
export function isMissing(option: ChoiceOption, document: SheetDocument): boolean {
  if (option.missing === undefined) return false;
  const symbols = awaitedSymbols(document);
  return option.sets.size === 0 || [...option.sets.values()].some((text) => symbolsOf(text).some((symbol) => symbols.has(symbol)));
}
