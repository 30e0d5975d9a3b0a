import type { Problem, Result } from '../../core/problem/index.ts';
import { fail, ok } from '../../core/problem/index.ts';
import { describeDimensionWithArticle, ONE, parseUnit, sameDimension } from '../../core/units/index.ts';
import type { Unit } from '../../core/units/index.ts';
import { rowsText } from '../../sheet/index.ts';
import type { RowsText, TableCell, TableColumn } from '../../sheet/index.ts';
import { addDerived } from './derived.ts';
import * as problems from './field-problems.ts';
import { writesDecimalComma } from './decimal-comma.ts';
import { fillColumn, Ledger } from './fill-column.ts';
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
  const ledger = new Ledger(text.count);
  const records = text.delimited.records;
  const fields = (row: number): readonly string[] => records[row + 1]?.fields ?? [];
  let blank = 0;
  for (let row = 0; row < text.count; row++) {
    if (fields(row).every((field) => field.trim() === '')) {
      ledger.blank(row);
      blank++;
    } else tellLongRow(text, row, ledger);
  }
  const comma = writesDecimalComma(text);
  const values = new Map<string, RowValues>();
  for (const column of columns) {
    const isLost = column.place === undefined && column.column !== undefined && isNeeded(column.column);
    if (isLost && column.column !== undefined) told.push(problems.columnMissing(column.column));
    values.set(column.name, fillColumn(column, text, comma, ledger, told, isLost));
  }
  const isWhole = !told.some(({ code }) => code === 'column-missing' || code === 'header-unit');
  const keeps = (row: number): boolean => isWhole && !ledger.isOut(row);
  const derived = addDerived(cell.columns, columns, values, sheet, ledger, keeps);
  const all = rowTable(derived.values);
  const outRows = [...Array(text.count).keys()].filter((row) => !keeps(row) && !ledger.isBlank(row));
  return Object.freeze({
    cellId: cell.id,
    columns: [...columns, ...derived.columns],
    all,
    usable: filterRows(all, keeps),
    rowCount: text.count,
    leftOut: outRows.length,
    blank,
    marks: ledger.marks,
    problems: [...told, ...derived.problems].map((problem) => ({ key: 'rows', ...problem, cell: cell.id })),
    warnings: warningsOf(text, outRows, isWhole, ledger).map((problem) => ({ key: 'rows', ...problem, cell: cell.id })),
    echoes: ledger.echoes(),
    surplus: (row: number) => fields(row).slice(text.header.length),
    field: (row: number, { place }: ColumnState) => (place === undefined ? '' : fields(row)[place] ?? ''),
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
  if (!own.ok) return fail({ ...own.problem, code: 'header-unit', key: 'columns' });
  if (inHeader === '') return own;
  const stated = parseUnit(inHeader);
  if (!stated.ok) return fail(problems.headerUnit(column, inHeader, stated.problem));
  if (sameDimension(stated.value.dimension, own.value.dimension)) return ok(stated.value);
  const [asked, found] = [own.value, stated.value].map(({ dimension }) => describeDimensionWithArticle(dimension));
  const what = `The column takes ${asked}, such as in ${own.value.name}, and this is the unit of ${found}.`;
  return fail(problems.headerUnit(column, inHeader, { code: 'unit-dimension', what, mend: 'Write the unit that the numbers are in.' }));
}

function isNeeded(column: TableColumn): boolean {
  const isOpen = column.optional || column.default !== undefined;
  return !isOpen && (column.type === 'quantity' || column.type === 'count' || column.type === 'option');
}

/** A row with more fields than the header names would put values into the wrong columns without anyone seeing it. */
function tellLongRow({ delimited, header }: RowsText, row: number, ledger: Ledger): void {
  const fields = delimited.records[row + 1]?.fields ?? [];
  if (fields.length <= header.length || fields.slice(header.length).every((field) => field.trim() === '')) return;
  ledger.mark(row, undefined, problems.rowTooLong(fields.length, header.length), true);
}

function warningsOf(text: RowsText, outRows: readonly number[], isWhole: boolean, ledger: Ledger): readonly Problem[] {
  const again = text.header.filter(({ ignored }) => ignored === 'again');
  const unknown = text.header.filter(({ key, ignored, typed }) => key === undefined && ignored === undefined && typed !== '');
  return [
    ...(isWhole && outRows.length > 0 ? [problems.rowsLeftOut(outRows, text.count - ledger.blankCount)] : []),
    ...again.map(({ typed }) => problems.headerAgain(typed)),
    ...(unknown.length > 0 ? [problems.headerUnknown(unknown.map(({ typed }) => typed))] : []),
  ];
}
