import type { Problem, Result } from '../../core/problem/index.ts';
import { fail, ok } from '../../core/problem/index.ts';
import { describeDimensionWithArticle, ONE, parseUnit, sameDimension } from '../../core/units/index.ts';
import type { Unit } from '../../core/units/index.ts';
import { fieldsOfRow, rowsText } from '../../sheet/index.ts';
import type { RowsText, TableCell, TableColumn } from '../../sheet/index.ts';
import { rowsMeeting } from './conditions.ts';
import { addDerived } from './derived.ts';
import * as problems from './field-problems.ts';
import { numberMarks } from './decimal-comma.ts';
import { columnReader, readColumns, type ColumnReader } from './read-columns.ts';
import { countRows, filterRows, placesOf, rowTable } from '../../core/rows/index.ts';
import type { ColumnState, SheetSymbols, TableState } from './types.ts';

const NO_SYMBOLS: SheetSymbols = { dimensionOf: () => undefined, value: () => NaN, standardUncertainty: () => NaN, names: [] };

/**
 * The rows of a table as typed columns. A cell that can't be read is marked, and its row is in `all` but not in `usable`;
 * nothing is left out without being counted. The time taken grows with the length of the text.
 * @param sheet what formulas of derived columns may read beside the columns
 */
export function readTable(cell: TableCell, sheet: SheetSymbols = NO_SYMBOLS): TableState {
  const text = rowsText(cell);
  const told: Problem[] = [];
  const columns = columnsOf(text, told);
  const readers = readersOf(columns, text, told);
  const { values, blank, out, marks, echoes } = readColumns(text.rows, text.header.length, readers);
  const rowCount = text.rows.length;
  const isWhole = !told.some(({ code }) => code === 'column-missing' || code === 'column-unit' || code === 'header-unit');
  const keeps = (row: number): boolean => isWhole && out[row] === 0 && blank[row] === 0;
  const derived = addDerived(cell.columns, columns, rowTable(values), sheet, keeps);
  const all = derived.rows;
  const allColumns = [...columns, ...derived.columns];
  const where = cell.where === undefined ? undefined : rowsMeeting(cell.where, allColumns, all, sheet);
  if (where !== undefined && !where.ok) told.push({ ...where.problem, key: 'where' });
  const met = where?.ok === true ? where.value : undefined;
  const sound = filterRows(all, keeps);
  // A condition that can't be read leaves nothing in: rows must not count that were meant not to.
  const usable = where === undefined ? sound : filterRows(sound, (row) => met?.[row] === 1);
  const outRows = [...placesOf(filterRows(all, (row) => blank[row] === 0 && !keeps(row)))];
  const blankCount = blank.reduce((sum, one) => sum + one, 0);
  const here = (problem: Problem): Problem => ({ key: 'rows', ...problem, cell: cell.id });
  return Object.freeze({
    cellId: cell.id,
    columns: allColumns,
    all,
    usable,
    rowCount,
    leftOut: outRows.length,
    blank: blankCount,
    ...(met === undefined ? {} : { where: { condition: cell.where ?? '', met } }),
    notCounted: met === undefined ? 0 : countRows(sound) - countRows(usable),
    marks: [...marks, ...derived.marks],
    problems: [...told, ...derived.problems].map(here),
    warnings: warningsOf(text, isWhole ? outRows : [], rowCount - blankCount).map(here),
    echoes: [...headerEchoes(text), ...echoes],
    surplus: (row: number) => fieldsOfRow(text, row).slice(text.header.length),
    field: (row: number, { place }: ColumnState) => (place === undefined ? '' : fieldsOfRow(text, row)[place] ?? ''),
  });
}

/** How each column is read; a column that is needed and not there, and what is wrong with ranges, are told. */
function readersOf(columns: readonly ColumnState[], text: RowsText, told: Problem[]): readonly ColumnReader[] {
  const written = numberMarks(text);
  return columns.map((state) => {
    const { column, place } = state;
    const isLost = place === undefined && column !== undefined && isNeeded(column);
    if (isLost) told.push(problems.columnMissing(column));
    const reader = columnReader(state, isLost, written, column?.type === 'count' && text.separator !== ',');
    told.push(...reader.problems.map((problem) => ({ ...problem, key: 'columns' })));
    return reader;
  });
}

/** Columns with the unit that their bare numbers are in. A unit that can't be used is told. */
function columnsOf(text: RowsText, told: Problem[]): readonly ColumnState[] {
  let others = 0;
  return text.shown.map(({ name, column, place }): ColumnState => {
    const at = place === undefined ? {} : { place };
    if (column === undefined) return { name: `other ${++others}`, typed: name, ...at };
    if (column.type !== 'quantity' && column.type !== 'count') return { name, typed: name, column, ...at };
    const own = parseUnit(column.unit);
    const unit = columnUnit(column, place === undefined ? '' : text.header[place]?.unit ?? '');
    if (!unit.ok) told.push(unit.problem);
    return { name, typed: name, column, ...at, unit: unit.ok ? unit.value : own.ok ? own.value : ONE };
  });
}

function columnUnit(column: TableColumn, inHeader: string): Result<Unit> {
  const own = parseUnit(column.unit);
  if (!own.ok) return fail({ ...own.problem, code: 'column-unit', key: 'columns' });
  if (inHeader === '') return own;
  const stated = parseUnit(inHeader);
  if (!stated.ok) return fail(problems.headerUnit(column, inHeader, stated.problem));
  if (sameDimension(stated.value.dimension, own.value.dimension)) return ok(stated.value);
  const [asked, found] = [own.value, stated.value].map(({ dimension }) => describeDimensionWithArticle(dimension));
  const what = `The column takes ${asked}, such as in ${own.value.name}, and this is the unit of ${found}.`;
  return fail(problems.headerUnit(column, inHeader, { what, mend: 'Write the unit that the numbers are in.' }));
}

/** Whether a row without it can't be used. */
export function isNeeded(column: TableColumn): boolean {
  const isOpen = column.optional || column.default !== undefined;
  return !isOpen && (column.type === 'quantity' || column.type === 'count' || column.type === 'option');
}

/** Columns that the header calls by another name than the table does. */
function headerEchoes({ header }: RowsText): readonly string[] {
  return header.flatMap(({ typed, key, isOther }) => (isOther === true ? [`the column “${typed}” is read as ${key ?? ''}`] : []));
}

function warningsOf(text: RowsText, outRows: readonly number[], filled: number): readonly Problem[] {
  const again = text.header.filter(({ ignored }) => ignored === 'again');
  const unknown = text.header.filter(({ key, ignored, typed }) => key === undefined && ignored === undefined && typed !== '');
  return [
    ...(outRows.length > 0 ? [problems.rowsLeftOut(outRows, filled)] : []),
    ...again.map(({ typed }) => problems.headerAgain(typed)),
    ...(unknown.length > 0 ? [problems.headerUnknown(unknown.map(({ typed }) => typed), text.shown.flatMap(({ column, place }) => (column !== undefined && place === undefined ? [column.key] : [])))] : []),
  ];
}
