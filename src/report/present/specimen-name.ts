import { isolated } from '../../core/problem/index.ts';
import type { TableState } from '../../graph/index.ts';

/** What the table calls the specimen in a row, or else the row. */
export function specimenName(place: number, table: TableState | undefined): string {
  const column = table?.columns.find(({ name }) => name === 'specimen');
  const name = table === undefined || column === undefined ? '' : isolated(table.field(place, column).trim());
  return name === '' ? `row ${place + 1}` : name;
}
