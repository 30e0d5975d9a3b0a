import { cellIn, rowLines } from '../../sheet/index.ts';
import type { HeldState, SheetDocument, TableCell } from '../../sheet/types.ts';
import { referenceContext } from './held.ts';
import type { HeldRow } from './held-types.ts';
import { cellAt, findCell } from './lookup.ts';
import type { PresentContext } from './types.ts';

/* Rows of tables in held states: how many there are, and how many of them do not stand in the sheet now. */

/** Tables whose rows are not the same everywhere. */
export function rowsOfTables(held: readonly HeldState[], [now, ...others]: readonly PresentContext[]): readonly HeldRow[] {
  const ids = [...new Set(held.flatMap(({ rows }) => [...(rows?.keys() ?? [])]))];
  return ids.flatMap((id): readonly HeldRow[] => {
    const table = now === undefined ? undefined : tableOf(id, now.document);
    if (table === undefined) return [];
    const there = others.map(({ document }) => tableOf(id, document));
    if (there.every((other) => isSame(other, table))) return [];
    const cells = [table, ...there].map((one) => ({ text: one === undefined ? '' : rowsWords(rowLines(one), rowLines(table)) }));
    return [{ symbol: id, label: `Rows of the table: ${table.label ?? id}`, isQuantity: false, cells }];
  });
}

/** Beside a table: what it was in the reference, where its rows are others; undefined where they are not, or without a reference. */
export function presentRowsThen(table: TableCell, context: PresentContext): string | undefined {
  const reference = referenceContext(context);
  const then = reference?.held.rows?.has(table.id) === true ? cellIn(cellAt(table.id, reference), 'table') : undefined;
  if (reference === undefined || then === undefined || isSame(then, table)) return undefined;
  return `In “${reference.held.name}”: ${rowsWords(rowLines(then), rowLines(table))}.`;
}

function tableOf(id: string, document: SheetDocument): TableCell | undefined {
  return cellIn(findCell(document, id), 'table');
}

/** A table that is not held is the same object, whose text is not put together. */
function isSame(a: TableCell | undefined, b: TableCell): boolean {
  return a === b || a?.rows.trimEnd() === b.rows.trimEnd();
}

/** `12 rows, 3 of them not there now`; the order of the rows does not count. */
function rowsWords(lines: readonly string[], present: readonly string[]): string {
  const left = new Map<string, number>();
  for (const line of present) left.set(line, (left.get(line) ?? 0) + 1);
  let others = 0;
  for (const line of lines) {
    const there = left.get(line) ?? 0;
    if (there === 0) others++;
    else left.set(line, there - 1);
  }
  const count = lines.length === 0 ? 'no rows' : lines.length === 1 ? '1 row' : `${lines.length} rows`;
  return others === 0 ? count : `${count}, ${others === lines.length ? 'none' : `${others}`} of them ${others === lines.length ? 'there' : 'not there'} now`;
}
