import type { Problem, Result } from '../../core/problem/index.ts';
import { fail, ok } from '../../core/problem/index.ts';
import { describeDimensionWithArticle, ONE, parseUnit, sameDimension } from '../../core/units/index.ts';
import type { Unit } from '../../core/units/index.ts';
import { fieldsOfRow, rowsText } from '../../sheet/index.ts';
import type { RowsText, TableCell, TableColumn } from '../../sheet/index.ts';
import { rowsMeeting } from './conditions.ts';
import { addDerived } from './derived.ts';
import * as problems from './field-problems.ts';
import { groupedByPoints, writesDecimalComma } from './decimal-comma.ts';
import { joinedColumn, joinedEchoes, joinedFlags, joinedMarks } from './join-readings.ts';
import { columnReader, readStretch } from './read-stretch.ts';
import { filterRows, rowTable } from './rows.ts';
import type { RowValues } from './rows.ts';
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
  const decimalComma = writesDecimalComma(text);
  const grouped = groupedByPoints(text);
  const readers = columns.map((column) => {
    const isLost = column.place === undefined && column.column !== undefined && isNeeded(column.column);
    if (isLost && column.column !== undefined) told.push(problems.columnMissing(column.column));
    const reader = columnReader(column, isLost, decimalComma, grouped.has(column.place ?? -1) || (column.column?.type === 'count' && text.separator !== ','));
    told.push(...reader.problems.map((problem) => ({ ...problem, key: 'columns' })));
    return reader;
  });
  const rules = { columns: cell.columns, header: text.header, decimalComma, grouped: [...grouped].join(' ') };
  const stretches = text.stretches.map((stretch) => readStretch(stretch, rules, readers));
  const readings = { stretches, firstRows: text.firstRows, count: text.count };
  const blank = joinedFlags(readings, 'blank');
  const out = joinedFlags(readings, 'out');
  const isWhole = !told.some(({ code }) => code === 'column-missing' || code === 'header-unit');
  const keeps = (row: number): boolean => isWhole && out[row] === 0 && blank[row] === 0;
  const values = new Map(readers.map(({ state, kind }, place): [string, RowValues] => [state.name, joinedColumn(readings, place, kind, cell.columns)]));
  const derived = addDerived(cell.columns, columns, values, sheet, keeps);
  const all = rowTable(derived.values);
  const allColumns = [...columns, ...derived.columns];
  const where = whereOf(cell, allColumns, derived.values, sheet, text.count);
  if (where !== undefined && !where.ok) told.push({ ...where.problem, key: 'where' });
  const met = where?.ok === true ? where.value : undefined;
  let notCounted = 0;
  for (let row = 0; met !== undefined && row < text.count; row++) if (met[row] === 0 && keeps(row)) notCounted++;
  const outRows: number[] = [];
  for (let row = 0; row < text.count; row++) if (blank[row] === 0 && !keeps(row)) outRows.push(row);
  const blankCount = blank.reduce((sum, one) => sum + one, 0);
  return Object.freeze({
    cellId: cell.id,
    columns: allColumns,
    all,
    // A condition that can't be read leaves nothing in: rows must not count that were meant not to.
    usable: filterRows(all, (row) => keeps(row) && (where === undefined || met?.[row] === 1)),
    rowCount: text.count,
    leftOut: outRows.length,
    blank: blankCount,
    ...(met === undefined ? {} : { where: { condition: cell.where ?? '', met } }),
    notCounted,
    marks: [...joinedMarks(readings, readers), ...derived.marks],
    problems: [...told, ...derived.problems].map((problem) => ({ key: 'rows', ...problem, cell: cell.id })),
    warnings: warningsOf(text, isWhole ? outRows : [], text.count - blankCount).map((problem) => ({ key: 'rows', ...problem, cell: cell.id })),
    echoes: [...headerEchoes(text), ...joinedEchoes(readings, readers.length)],
    surplus: (row: number) => fieldsOfRow(text, row).slice(text.header.length),
    field: (row: number, { place }: ColumnState) => (place === undefined ? '' : fieldsOfRow(text, row)[place] ?? ''),
  });
}

/** The rows that meet the table's own condition; undefined where it has none. */
function whereOf(
  { where }: TableCell, columns: readonly ColumnState[], values: ReadonlyMap<string, RowValues>, sheet: SheetSymbols, count: number,
): Result<Uint8Array> | undefined {
  return where === undefined ? undefined : rowsMeeting(where, columns, (name) => values.get(name) ?? [], sheet, count);
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
  if (!own.ok) return fail({ ...own.problem, code: 'header-unit', key: 'columns' });
  if (inHeader === '') return own;
  const stated = parseUnit(inHeader);
  if (!stated.ok) return fail(problems.headerUnit(column, inHeader, stated.problem));
  if (sameDimension(stated.value.dimension, own.value.dimension)) return ok(stated.value);
  const [asked, found] = [own.value, stated.value].map(({ dimension }) => describeDimensionWithArticle(dimension));
  const what = `The column takes ${asked}, such as in ${own.value.name}, and this is the unit of ${found}.`;
  return fail(problems.headerUnit(column, inHeader, { code: 'unit-dimension', what, mend: 'Write the unit that the numbers are in.' }));
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
