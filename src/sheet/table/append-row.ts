import { fail, type Result } from '../../core/problem/index.ts';
import { applyEdit, type EditCommand } from '../edit.ts';
import type { SheetDocument, TableColumn } from '../types.ts';
import { notATable } from './row-problems.ts';
import { rowsText } from './rows-text.ts';

/** Other names under which a table may have what a test record calls so. */
const ALIASES: Readonly<Record<string, readonly string[]>> = {
  group: ['team'],
  S: ['sigma_a', 'stress', 'stress amplitude'],
  N: ['cycles', 'life'],
  place: ['x_f', 'place of fracture'],
  note: ['remark', 'remarks'],
};

/**
 * The document with one row more at the end of a table: each text goes into the column of its name; one for which the table
 * has no column is left out. S is in MPa. Problems: those of the table's edits.
 */
export function appendRow(document: SheetDocument, tableId: string, row: ReadonlyMap<string, string>): Result<SheetDocument> {
  const block = document.blocks.find(({ id }) => id === tableId);
  if (block?.kind !== 'cell' || block.cell.kind !== 'table') return fail(notATable());
  const { cell } = block;
  const rows = rowsText(cell);
  const unitOf = (column: TableColumn): string => rows.header.find(({ key }) => key === column.key)?.unit || column.unit;
  const commands = [...row].flatMap(([name, text]): EditCommand[] => {
    const column = columnFor(name, cell.columns);
    if (column === undefined || text === '') return [];
    const written = name === 'S' && unitOf(column) !== 'MPa' ? `${text} MPa` : text;
    return [{ do: 'set table cell', cellId: tableId, row: rows.count, column: column.key, text: written }];
  });
  return applyEdit(document, { do: 'together', commands });
}

function columnFor(name: string, columns: readonly TableColumn[]): TableColumn | undefined {
  const usable = columns.filter(({ type }) => type !== 'derived');
  const names = [name, ...(ALIASES[name] ?? [])];
  return usable.find(({ key }) => names.includes(key)) ?? usable.find(({ label }) => names.includes(label.toLowerCase()));
}
