import { composed, nearNames, type Problem } from '../../core/problem/index.ts';
import type { Unit } from '../../core/units/index.ts';
import type { TableColumn } from '../../sheet/index.ts';
import { optionNear } from './outcome-words.ts';

/* What is told at a cell of a table, and at its header. */

export function fieldEmpty({ label }: TableColumn): Problem {
  return { code: 'field-empty', what: composed`${label} is empty here.`, mend: 'Fill it in, or delete the row.' };
}

export function fieldSize({ label }: TableColumn, typed: string): Problem {
  return { code: 'field-size', what: composed`${label} can't be “${typed}”: it is too large to reckon with (up to 1e300 in SI units).`, mend: 'Look for a slipped exponent.' };
}

export function notPossible({ label }: TableColumn, typed: string, words: string): Problem {
  return { code: 'field-not-possible', what: composed`${label} is ${typed}, but has to be ${words}.`, mend: 'Look at what was typed.' };
}

export function implausible({ label }: TableColumn, typed: string, words: string): Problem {
  return { code: 'implausible', what: composed`${label} is ${typed}; usual is ${words}.`, mend: 'It is used all the same: look at what was typed.' };
}

export function countNotWhole({ label }: TableColumn, typed: string): Problem {
  return { code: 'count-not-whole', what: composed`${label} is ${typed}, which is no whole number.`, mend: 'It is used all the same: look at what was typed.' };
}

export function countSeparators({ label }: TableColumn, typed: string): Problem {
  const whole = typed.replaceAll('.', '');
  return {
    code: 'count-separators',
    what: composed`${label} is written ${typed}, which can mean ${whole} or ${typed.replace('.', ',')} with a decimal comma.`,
    mend: `Write ${whole} if that is meant.`,
  };
}

export function optionUnknown({ label, options }: TableColumn, typed: string): Problem {
  const meant = optionNear(typed, options);
  const all = `one of: ${options.join(', ')}`;
  return { code: 'table-option-unknown', what: composed`${label} can't be “${typed}”.`, mend: meant === undefined ? `Write ${all}.` : `Write ${meant} if that is meant, or else ${all}.` };
}

export function notYesOrNo({ label }: TableColumn, typed: string): Problem {
  return { code: 'not-yes-or-no', what: composed`${label} is either yes or no, not “${typed}”.`, mend: 'Write yes or no.' };
}

export function rowTooLong(fields: number, columns: number): Problem {
  return {
    code: 'field-surplus',
    what: `This row has ${fields} fields, but the header names ${columns} columns.`,
    mend: 'A comma inside a field needs quotation marks around the field; with decimal commas, separate the columns by semicolons.',
  };
}

export function columnMissing({ key, label }: TableColumn): Problem {
  return {
    code: 'column-missing',
    what: composed`The rows have no column ${label === key ? key : `${key} (${label})`}, so none of them can be used.`,
    mend: `Name it ${key} in the first line.`,
  };
}

export function headerUnit({ label }: TableColumn, typed: string, { what, mend }: Pick<Problem, 'what' | 'mend'>): Problem {
  return { code: 'header-unit', what: composed`The unit of ${label} in the first line, “${typed}”, can't be used. ${what}`, mend };
}

export function headerAgain(typed: string): Problem {
  return {
    code: 'header-twice',
    what: `“${typed}” names a column that the first line has already.`,
    mend: 'The first one counts; give the other another name.',
  };
}

export function headerUnknown(names: readonly string[], missing: readonly string[]): Problem {
  const near = names.flatMap((name) => nearNames(name.replace(/\s*[[(/].*$/, ''), missing).map((meant) => `“${name}” ${meant}`))[0];
  const shown = names.map((name) => `“${name}”`).join(', ');
  return { code: 'column-unknown', what: `The table does not understand: ${shown}.`, mend: near === undefined ? 'It is kept and shown as it is.' : `Name ${near} if that is meant; it is kept as it is.` };
}

export function rowsLeftOut(rows: readonly number[], count: number, most = 8): Problem {
  const first = rows.slice(0, most).map((row) => row + 1).join(', ');
  const more = rows.length > most ? ` and ${rows.length - most} more` : '';
  return {
    code: 'rows-left-out',
    what: `${rows.length} of ${count} rows ${rows.length === 1 ? 'is' : 'are'} left out: row${rows.length === 1 ? '' : 's'} ${first}${more}.`,
    mend: 'Mend the marked cells, or delete the rows.',
  };
}

export function derivedNoValue({ label }: TableColumn): Problem {
  return { code: 'derived-no-value', what: composed`${label} has no value here: its formula has none for this row.`, mend: 'The row is used all the same.' };
}

export function noCondition(): Problem {
  return { code: 'table-condition', what: 'This is a number, and rows are picked by a statement that holds or does not.', mend: 'Compare two values, for example S > 300*unit(MPa).' };
}

export function derivedUnitTooLarge({ label }: TableColumn, unit: string): Problem {
  return { code: 'derived-unit-too-large', what: composed`${label} would be in ${unit}; powers of a unit go up to 12.`, mend: 'Look at the exponents in its formula.' };
}

export function derivedTruth({ key }: TableColumn): Problem {
  return { code: 'derived-truth', what: `The formula of ${key} is a condition, not a quantity.`, mend: 'Write a formula that gives a number.' };
}

export function derivedUnit({ key, unit }: TableColumn, found: string): Problem {
  return { code: 'derived-unit', what: `${key} is given in ${unit}, but its formula gives ${found}.`, mend: 'Change the unit or the formula.' };
}

/** @param loop `a → b → a` */
export function derivedLoop(loop: string): Problem {
  return {
    code: 'derived-loop',
    what: `These columns are computed from each other in a loop: ${loop} (each reads the next).`,
    mend: 'Change one of the formulas so that it no longer needs the others.',
  };
}

export function aggregateColumn(column: string): Problem {
  return { code: 'aggregate-column', what: `The column ${column} has no values to put together.`, mend: 'Mend that column first.', key: 'symbols' };
}

export function aggregateUnit(column: string, unit: Unit): Problem {
  return {
    code: 'aggregate-unit',
    what: `The column ${column} holds quantities such as in ${unit.name}, and states no unit.`,
    mend: `Give the column a unit, for example \`unit: ${unit.name}\`.`,
    key: 'columns',
  };
}

export function aggregateLine(column: string, on: string, least: number): Problem {
  return {
    code: 'aggregate-line',
    what: `A line of ${column} on ${on} asks for ${least} rows at least, with different ${on}.`,
    mend: 'Add rows.',
    key: 'rows',
  };
}

export function aggregateTooLong(rows: number, most: number): Problem {
  return {
    code: 'aggregate-rows',
    what: `${rows} rows are too many to put together in one formula of the sheet.`,
    mend: `Put rows of the same kind together first; ${most} can be used.`,
    key: 'rows',
  };
}

export function aggregateLong(column: string, most: number): Problem {
  return {
    code: 'aggregate-long',
    what: `Written out through the columns that it reads, the formula of \`${column}\` has more than ${most} parts.`,
    mend: 'Let fewer columns build on one another, or type one of them in.',
    key: 'symbols',
  };
}

export function aggregateGap(column: string, row: number): Problem {
  return {
    code: 'aggregate-gap',
    what: `Row ${row + 1} has no ${column}, so it can’t be put together with the others.`,
    mend: 'Fill the field in, or mark the row as not counting.',
    key: 'rows',
  };
}
