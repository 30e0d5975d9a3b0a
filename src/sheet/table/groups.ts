import { remembered } from '../../core/remembered/index.ts';
import type { SheetDocument, TableCell } from '../types.ts';
import { rowsText } from './rows-text.ts';

/** Names beyond these would be no groups but specimens. */
const MOST_GROUPS = 200;

/** Groups that the rows of a table name under `group`, in order of first appearance. */
const groupNames = remembered((cell: TableCell): readonly string[] => {
  const { rows, shown } = rowsText(cell);
  const place = shown.find(({ name }) => name === 'group')?.place;
  const names = new Set(place === undefined ? [] : rows.map(({ fields }) => fields[place]?.trim() ?? '').filter((name) => name !== ''));
  return [...names].slice(0, MOST_GROUPS);
});

/** Groups that a choice may name beside its options: those of the tables whose fits take their group from it. */
export function groupsBehind(document: SheetDocument, choiceId: string): readonly string[] {
  const cells = document.blocks.flatMap((block) => (block.kind === 'cell' ? [block.cell] : []));
  const tables = new Set(cells.flatMap((cell) =>
    (cell.kind === 'fit' && cell.group !== undefined && 'by' in cell.group && cell.group.by === choiceId ? [cell.table] : [])));
  if (tables.size === 0) return [];
  return [...new Set(cells.flatMap((cell) => (cell.kind === 'table' && tables.has(cell.id) ? groupNames(cell) : [])))];
}
