import type { SheetDocument, TableCell } from '../types.ts';
import { rowsText } from './rows-text.ts';
import type { RowStretch } from './rows-text.ts';

/** Names beyond these would be no groups but specimens. */
const MOST_GROUPS = 200;

const known = new WeakMap<TableCell, readonly string[]>();

/** Groups that the rows of a table name under `group`, in order of first appearance. */
function groupNames(cell: TableCell): readonly string[] {
  const remembered = known.get(cell);
  if (remembered !== undefined) return remembered;
  const { stretches, shown } = rowsText(cell);
  const place = shown.find(({ name }) => name === 'group')?.place;
  const names = new Set<string>();
  for (const stretch of place === undefined ? [] : stretches) {
    for (const name of namesIn(stretch, place ?? 0)) if (names.size < MOST_GROUPS) names.add(name);
  }
  const groups = [...names];
  known.set(cell, groups);
  return groups;
}

const inStretch = new WeakMap<RowStretch, { readonly place: number; readonly names: ReadonlySet<string> }>();

function namesIn(stretch: RowStretch, place: number): ReadonlySet<string> {
  const before = inStretch.get(stretch);
  if (before?.place === place) return before.names;
  const names = new Set(stretch.records.map(({ fields }) => fields[place]?.trim() ?? '').filter((name) => name !== ''));
  inStretch.set(stretch, { place, names });
  return names;
}

/** Groups that a choice may name beside its options: those of the tables whose fits take their group from it. */
export function groupsBehind(document: SheetDocument, choiceId: string): readonly string[] {
  const cells = document.blocks.flatMap((block) => (block.kind === 'cell' ? [block.cell] : []));
  const tables = new Set(cells.flatMap((cell) =>
    (cell.kind === 'fit' && cell.group !== undefined && 'by' in cell.group && cell.group.by === choiceId ? [cell.table] : [])));
  if (tables.size === 0) return [];
  return [...new Set(cells.flatMap((cell) => (cell.kind === 'table' && tables.has(cell.id) ? groupNames(cell) : [])))];
}
