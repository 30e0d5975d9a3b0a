import { valuesOf } from '../../core/rows/index.ts';
import type { TableState } from '../table/index.ts';

/** Rows of a table by the specimen they hold. */
interface SpecimensThere {
  /** The rows that can hold the specimen of a row of another table, and what is known of both agrees. */
  readonly rowsLike: (other: TableState, row: number) => readonly number[];
}

/** Columns that tell specimens of one name apart where both rows say something. */
const APART = ['team', 'group'] as const;

export function specimensThere(table: TableState): SpecimensThere {
  const byName = new Map<string, number[]>();
  for (let row = 0; row < table.rowCount; row++) {
    const name = textOf(table, 'specimen', row);
    const rows = byName.get(name);
    if (rows === undefined) byName.set(name, [row]);
    else rows.push(row);
  }
  return {
    rowsLike: (other, row) => {
      const name = textOf(other, 'specimen', row);
      return (name === '' ? [] : (byName.get(name) ?? [])).filter((there) => APART.every((key) => {
        const [here, said] = [textOf(table, key, there), textOf(other, key, row)];
        return here === '' || said === '' || here === said;
      }));
    },
  };
}

const known = new WeakMap<TableState, Map<string, readonly (string | boolean | number)[]>>();

function valuesIn(table: TableState, name: string): readonly (string | boolean | number)[] {
  const columns = known.get(table) ?? new Map<string, readonly (string | boolean | number)[]>();
  known.set(table, columns);
  const found = columns.get(name) ?? (table.columns.some((column) => column.name === name) ? [...valuesOf(table.all, name)] : []);
  columns.set(name, found);
  return found;
}

function textOf(table: TableState, name: string, row: number): string {
  return String(valuesIn(table, name)[row] ?? '').trim().toLowerCase();
}

/** Whether a row of the table says all that a row on its way says. */
export function saysTheSame(coming: TableState, row: number, table: TableState, there: number): boolean {
  return coming.columns.every((column) => {
    if (column.place === undefined || column.column?.type === 'derived' || coming.field(row, column).trim() === '') return true;
    const same = table.columns.find(({ typed }) => typed === column.typed);
    if (same === undefined) return false;
    const [one, other] = [valuesIn(coming, column.name)[row], valuesIn(table, same.name)[there]];
    if (typeof one !== 'number' || typeof other !== 'number') return String(one).trim() === String(other).trim();
    if (Number.isNaN(one) || Number.isNaN(other)) return coming.field(row, column).trim() === table.field(there, same).trim();
    return Math.abs(one - other) <= 1e-9 * Math.abs(one);
  });
}
