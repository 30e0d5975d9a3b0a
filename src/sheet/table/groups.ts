import { remembered } from '../../core/remembered/index.ts';
import { cellsOf } from '../cells-of.ts';
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
  const tables = new Set(cellsOf(document, 'fit').flatMap(({ group, table }) => (group !== undefined && 'by' in group && group.by === choiceId ? [table] : [])));
  if (tables.size === 0) return [];
  return [...new Set(cellsOf(document, 'table').flatMap((cell) => (tables.has(cell.id) ? groupNames(cell) : [])))];
}
