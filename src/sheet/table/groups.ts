import type { SheetDocument, TableCell } from '../types.ts';
import { readDelimited } from './delimited.ts';
import { rowsText } from './rows-text.ts';

/** Names beyond these would be no groups but specimens. */
const MOST_GROUPS = 200;

const known = new WeakMap<TableCell, readonly string[]>();

/** Groups that the rows of a table name under `group`, in order of first appearance. */
export function groupNames(cell: TableCell): readonly string[] {
  const remembered = known.get(cell);
  if (remembered !== undefined) return remembered;
  const place = rowsText(cell).shown.find(({ name }) => name === 'group')?.place;
  const names = new Set<string>();
  if (place !== undefined) {
    for (const { fields } of readDelimited(cell.rows).records.slice(1)) {
      const name = fields[place]?.trim() ?? '';
      if (name !== '' && names.size < MOST_GROUPS) names.add(name);
    }
  }
  const groups = [...names];
  known.set(cell, groups);
  return groups;
}

/** Groups that a choice may name beside its options: those of the tables whose fits take their group from it. */
export function groupsBehind(document: SheetDocument, choiceId: string): readonly string[] {
  const cells = document.blocks.flatMap((block) => (block.kind === 'cell' ? [block.cell] : []));
  const tables = new Set(cells.flatMap((cell) =>
    (cell.kind === 'fit' && cell.group !== undefined && 'by' in cell.group && cell.group.by === choiceId ? [cell.table] : [])));
  if (tables.size === 0) return [];
  return [...new Set(cells.flatMap((cell) => (cell.kind === 'table' && tables.has(cell.id) ? groupNames(cell) : [])))];
}
