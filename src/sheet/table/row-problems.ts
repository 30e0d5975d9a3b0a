import type { Problem } from '../../core/problem/index.ts';

/* Why a command leaves the rows of a table as they were. */

export function rowGone(row: number, count: number): Problem {
  return {
    code: 'row-gone',
    what: `This table has no row ${row + 1}: it has ${count === 1 ? '1 row' : `${count} rows`}.`,
    mend: 'Look at the table as it stands now.',
    key: 'rows',
  };
}

export function columnGone(column: string): Problem {
  return {
    code: 'column-gone',
    what: `This table has no column “${column}” that text can be put into.`,
    mend: 'Look at the table as it stands now.',
    key: 'rows',
  };
}

export function pasteTooWide(width: number, room: number): Problem {
  return {
    code: 'paste-too-wide',
    what: `What you paste is ${width} columns wide; from here the table has room for ${room}.`,
    mend: 'Begin further to the left, or copy fewer columns.',
    key: 'rows',
  };
}

export function rowTooLong(row: number, fields: number, columns: number): Problem {
  return {
    code: 'row-too-long',
    what: `Row ${row + 1} has ${fields} fields, but the header names ${columns} columns: a new column would take in what is left over.`,
    mend: 'Mend that row first.',
    key: 'rows',
  };
}

export function orderIncomplete(count: number): Problem {
  return {
    code: 'order-incomplete',
    what: `An order of the rows has to name each of the ${count} rows once.`,
    mend: 'Look at the table as it stands now.',
    key: 'rows',
  };
}

export function columnThere(key: string): Problem {
  return { code: 'column-there', what: `This table has a column \`${key}\` already.`, mend: 'Give the new one another name.', key: 'columns' };
}

export function formulaEmpty(key: string): Problem {
  return { code: 'column-formula-empty', what: `The column \`${key}\` has no formula yet.`, mend: 'Write one, for example log10(N).', key: 'columns' };
}

export function notATable(): Problem {
  return {
    code: 'not-a-table',
    what: 'This cell is no table.',
    mend: 'Look at the sheet as it stands now.',
  };
}
