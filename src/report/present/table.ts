import { remembered } from '../../core/remembered/index.ts';
import { fromSI } from '../../core/units/index.ts';
import { composed, type Problem } from '../../core/problem/index.ts';
import { groupRows, numbersOf, rollUp, valuesOf } from '../../core/rows/index.ts';
import type { CellMark, ColumnState, TableState } from '../../graph/index.ts';
import type { TableCell, TableSymbol } from '../../sheet/types.ts';
import { isHidden, isSymbolHidden } from './hidden.ts';
import { notesOf } from './notes.ts';
import { decimalText, figures, unitText } from './number.ts';
import { presentSymbol } from './result.ts';
import { symbolOf } from './symbol.ts';
import type { PresentContext, PresentedColumn, PresentedField, PresentedRow, PresentedTable, PresentedTableSymbol } from './types.ts';

/** Figures of a derived value, which has no uncertainty of its own to be rounded by. */
const DERIVED_FIGURES = 5;
/** Told with the counts; more than these would be a list. */
const MOST_GROUPS = 12;

/** A table with its heads and counts; its rows are presented as they are asked for. */
export function presentTable(cell: TableCell, context: PresentContext): PresentedTable {
  const state = context.states.cell(cell.id)?.table;
  const notes = notesOf(cell, context);
  if (state === undefined) {
    return { ...notes, gives: [], columns: [], rowCount: 0, counts: 'no rows yet', groups: [], echoes: [], rows: () => [], nextLeftOut: () => undefined };
  }
  const index = indexOf(state);
  // What is computed row by row from a result that is still asked for would give it away.
  const isWithheld = isHidden(cell.id, context);
  return {
    ...notes,
    gives: cell.symbols.flatMap((given) => presentTableSymbol(given, context)),
    columns: state.columns.map(presentColumn),
    rowCount: state.rowCount,
    counts: countsOf(state),
    ...(cell.where === undefined ? {} : { where: cell.where }),
    groups: index.groups,
    echoes: state.echoes,
    rows: (start, end) => {
      const first = Math.max(0, start);
      const length = Math.max(0, Math.min(end, state.rowCount) - first);
      return Array.from({ length }, (_, i) => presentRow(first + i, state, index, isWithheld));
    },
    nextLeftOut: (start) => index.leftOut.find((row) => row >= start) ?? index.leftOut[0],
  };
}

function presentTableSymbol({ symbol, of, column, on }: TableSymbol, context: PresentContext): readonly PresentedTableSymbol[] {
  const result = presentSymbol(symbol, context);
  if (result === undefined) return [];
  const from = {
    sum: `\\sum ${symbolOf(column)}`,
    mean: `\\overline{${symbolOf(column)}}`,
    min: `\\min ${symbolOf(column)}`,
    max: `\\max ${symbolOf(column)}`,
    count: '\\text{number of rows}',
    slope: `\\text{slope of }${symbolOf(column)}\\text{ on }${symbolOf(on)}`,
    intercept: `\\text{intercept of }${symbolOf(column)}\\text{ on }${symbolOf(on)}`,
    scatter: `\\text{scatter of }${symbolOf(column)}\\text{ about its line on }${symbolOf(on)}`,
  }[of];
  return [{ symbol, symbolTex: symbolOf(symbol), prefixTex: `${symbolOf(symbol)} = ${from} =`, result, hidden: isSymbolHidden(symbol, context) }];
}

/** What is looked up row by row, worked out once for a state of the table. */
interface TableIndex {
  readonly marks: ReadonlyMap<number, readonly CellMark[]>;
  /** Numbers of the rows with a mark that leaves them out, rising. */
  readonly leftOut: readonly number[];
  readonly groups: readonly string[];
  values(name: string): readonly (string | boolean | number)[];
}

const indexOf = remembered((state: TableState): TableIndex => {
  const marks = new Map<number, CellMark[]>();
  for (const mark of state.marks) {
    const there = marks.get(mark.row);
    if (there === undefined) marks.set(mark.row, [mark]);
    else there.push(mark);
  }
  const columns = new Map<string, readonly (string | boolean | number)[]>();
  const values = (name: string): readonly (string | boolean | number)[] => {
    const found = columns.get(name) ?? valuesOf(state.all, name);
    columns.set(name, found);
    return found;
  };
  return {
    marks,
    leftOut: [...new Set(state.marks.filter(({ leavesOut }) => leavesOut).map(({ row }) => row))].sort((a, b) => a - b),
    groups: groupsOf(state),
    values,
  };
});

/** Groups of the rows that can be used, with the number of rows in each; none where all rows are of one. */
function groupsOf(state: TableState): readonly string[] {
  if (!state.columns.some(({ name, column }) => name === 'group' && column !== undefined)) return [];
  const groups = rollUp(groupRows(state.usable, ['group']));
  const [names, sizes] = [valuesOf(groups, 'group').map(String), numbersOf(groups, 'count')];
  if (names.length < 2) return [];
  const told = names.slice(0, MOST_GROUPS).map((name, i) => composed`${name === '' ? 'without a group' : name} (${decimalText(String(sizes[i] ?? 0), 0)})`);
  return names.length > MOST_GROUPS ? [...told, `and ${names.length - MOST_GROUPS} more`] : told;
}

function presentColumn({ typed, column, unit, place }: ColumnState): PresentedColumn {
  const isFigures = unit !== undefined || column?.type === 'derived';
  const unitName = unit === undefined ? '' : unitText(unit);
  const label = column?.label ?? typed;
  const name = isFigures || column === undefined ? typed : label;
  const head = unitName === '' ? name : composed`${name} / ${/[\s·/]/.test(unitName) ? `(${unitName})` : unitName}`;
  const [, letter, below = ''] = /^([A-Za-z])_(\w+)$/.exec(name) ?? [];
  return {
    typed,
    label,
    head,
    ...(letter === undefined ? {} : { subscripted: [letter, below, head.slice(name.length)] }),
    isFigures,
    isDerived: column?.type === 'derived',
    isPresent: place !== undefined || column?.type === 'derived',
    standsFor: column?.default ?? (column?.type === 'yes-no' ? 'yes' : ''),
    options: column?.type === 'yes-no' ? ['yes', 'no'] : column?.type === 'option' ? column.options : [],
  };
}

function countsOf({ rowCount, blank, leftOut, where, notCounted }: TableState): string {
  const filled = rowCount - blank;
  if (filled === 0) return 'no rows yet';
  const count = (rows: number): string => decimalText(String(rows), 0);
  return [
    `${count(filled)} ${filled === 1 ? 'row' : 'rows'}`,
    ...(leftOut === 0 ? [] : [`${count(leftOut)} left out`]),
    ...(where === undefined ? [] : [`${count(notCounted)} not counted, for which ${where.condition} does not hold`]),
  ].join(', ');
}

function presentRow(row: number, state: TableState, index: TableIndex, isWithheld: boolean): PresentedRow {
  const marks = index.marks.get(row) ?? [];
  return {
    number: row + 1,
    fields: state.columns.map((column) => (isWithheld && column.column?.type === 'derived' ? WITHHELD_FIELD : presentField(row, column, marks, state, index))),
    marks: marks.filter(({ column }) => column === undefined).map(({ problem }) => problem),
    isLeftOut: marks.some(({ leavesOut }) => leavesOut),
    isNotCounted: state.where?.met[row] === 0,
  };
}

const WITHHELD_FIELD: PresentedField = { text: '', printed: '…', marks: [], isWrong: false };

function presentField(row: number, column: ColumnState, rowMarks: readonly CellMark[], state: TableState, index: TableIndex): PresentedField {
  const here = rowMarks.filter((mark) => mark.column === column.name);
  const marks: readonly Problem[] = here.map(({ problem }) => problem);
  const isWrong = here.some(({ leavesOut }) => leavesOut);
  if (column.column?.type === 'derived') {
    const text = derivedText(valueAt(row, column, index), column);
    return { text, printed: text, marks, isWrong };
  }
  const text = state.field(row, column);
  return { text, printed: isWrong ? text : printedText(text, column, column.column?.type === 'option' ? valueAt(row, column, index) : undefined), marks, isWrong };
}

function valueAt(row: number, { name }: ColumnState, index: TableIndex): string | boolean | number | undefined {
  return index.values(name)[row];
}

function derivedText(value: string | boolean | number | undefined, { unit }: ColumnState): string {
  if (typeof value !== 'number' || Number.isNaN(value)) return '';
  return figures(unit === undefined ? value : fromSI(value, unit), DERIVED_FIGURES);
}

const PLAIN_NUMBER = /^-?\d+(?:\.\d+)?$/;

/** A field that says what it is read as stays as typed, but for groups of digits; an outcome is said in the table's own word. */
function printedText(text: string, { name, column, unit }: ColumnState, value: string | boolean | number | undefined): string {
  const typed = text.trim();
  if (unit !== undefined) return PLAIN_NUMBER.test(typed) ? decimalText(typed, 0) : typed;
  if (column?.type !== 'option' || typeof value !== 'string' || value === '') return typed;
  return name === 'outcome' && (value === 'runout' || value === 'suspended') ? `${value} →` : value;
}
