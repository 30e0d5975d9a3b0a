import type { RecordCell, SheetDocument } from '../../sheet/types.ts';
import { formOf } from '../forms.ts';
import type { SheetStates } from '../types.ts';
import { frozenText } from './frozen.ts';

/**
 * What is predicted now, and all that is typed: symbol, or `choice ID`, to text. A symbol that the record asks for stands
 * there with its value, any other given as it was typed.
 */
export function predictionNow(cell: RecordCell, document: SheetDocument, states: SheetStates): ReadonlyMap<string, string> {
  const carried = keptForRow(cell).filter((symbol) => states.symbol(symbol)?.status === 'value');
  const texts = new Map<string, string>([...cell.watches.values(), ...carried].map((symbol) => [symbol, frozenText(states.symbol(symbol))]));
  const valueOf = (symbol: string): string => frozenText(states.symbol(symbol));
  for (const block of document.blocks) {
    const kept = block.kind === 'cell' ? formOf(block.cell).atStart?.(block.cell, valueOf) : undefined;
    if (kept !== undefined && !texts.has(kept[0])) texts.set(...kept);
  }
  return texts;
}

/** Column of the row that is known only after the test, and stands as it does then. */
const AFTER_THE_TEST = 'S_break';

/** Symbols whose values the row of the specimen carries as they were at the start. */
export function keptForRow({ row }: RecordCell): readonly string[] {
  return [...row].flatMap(([key, name]) => (key === AFTER_THE_TEST || name.startsWith('choice ') ? [] : [name]));
}

export interface ChangedInput {
  /** Symbol, or `choice ID`. */
  readonly name: string;
  readonly atStart: string;
  /** '' where it is no longer in the sheet. */
  readonly now: string;
}

/** What stands otherwise in the sheet than it did at the start; what came into the sheet since is not among it. */
export function changedSince(cell: RecordCell, document: SheetDocument, states: SheetStates): readonly ChangedInput[] {
  const present = predictionNow(cell, document, states);
  return [...cell.frozen].flatMap(([name, atStart]) => {
    const now = present.get(name) ?? '';
    return now === atStart ? [] : [{ name, atStart, now }];
  });
}
