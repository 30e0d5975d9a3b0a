import type { Outcome, Specimens } from '../../core/fatigue/index.ts';
import { fail, ok, type Problem, type Result } from '../../core/problem/index.ts';
import { remembered, rememberedByName } from '../../core/remembered/index.ts';
import { numbersOf, placesOf, rowsWith, valuesOf } from '../../core/rows/index.ts';
import type { TableState } from '../table/index.ts';

/** Specimens of a table, or of one group among them, with the places of their rows. */
interface ChosenSpecimens {
  readonly specimens: Specimens;
  readonly rows: ArrayLike<number>;
}

/**
 * The rows of a group (`all` for every one) that are valid; outcomes decide on the rest.
 * Problems: `fit-column`, `fit-group`. Several cells ask for the same specimens, and read the same ones faster.
 */
export const specimensOf = rememberedByName((table: TableState, group: string): Result<ChosenSpecimens> => {
  for (const name of ['S', 'N']) if (!hasColumn(table, name)) return fail(columnMissing(name));
  if (group !== 'all' && !groupsIn(table).includes(group)) return fail(groupUnknown(group, namedGroups(table)));
  const valid = hasColumn(table, 'valid') ? rowsWith(table.usable, 'valid', true) : table.usable;
  const used = group === 'all' || !hasColumn(table, 'group') ? valid : rowsWith(valid, 'group', group);
  const rows = placesOf(used);
  return ok({
    specimens: {
      stressMpa: numbersOf(used, 'S').map((pascals) => pascals / 1e6),
      cycles: numbersOf(used, 'N'),
      outcomes: (hasColumn(table, 'outcome') ? valuesOf(used, 'outcome') : Array(rows.length).fill('fracture')) as readonly Outcome[],
    },
    rows,
  });
});

/** Groups that the rows name, in order of first appearance. */
export function namedGroups(table: TableState): readonly string[] {
  return groupsIn(table).filter((name) => name !== '');
}

const groupsIn = remembered((table: TableState): readonly string[] => [...new Set(everyRow(table, 'group', ''))]);

export function hasColumn(table: TableState, name: string): boolean {
  return table.columns.some((column) => column.name === name);
}

/** The values of a column, or a usual one in every row where there is no such column. */
export function everyRow<T>(table: TableState, name: string, usual: T): readonly T[] {
  return hasColumn(table, name) ? (valuesOf(table.all, name) as readonly T[]) : Array<T>(table.rowCount).fill(usual);
}

/** The table that a cell names is not there, or none is named. */
export function tableMissing(tableId: string): Problem {
  return {
    code: 'fit-table',
    what: tableId === '' ? 'This fit names no table yet.' : `There is no table called ${tableId} in this sheet.`,
    mend: 'Name the table that holds the specimens.',
    key: 'table',
  };
}

function columnMissing(name: string): Problem {
  return {
    code: 'fit-column',
    what: `The table has no column ${name}.`,
    mend: 'A fit needs a column S for the stress amplitude and a column N for the cycles.',
    key: 'table',
  };
}

function groupUnknown(group: string, known: readonly string[]): Problem {
  return {
    code: 'fit-group',
    what: `The table has no group “${group}”.`,
    mend: known.length > 0 ? `Its groups are: ${known.slice(0, 12).join(', ')}.` : 'Add a column group, or fit all rows.',
    key: 'group',
  };
}
