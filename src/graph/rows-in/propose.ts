import { asItWas, headerName, readHeader, rowsText, splitText, writeRecord, type EditCommand, type TableCell } from '../../sheet/index.ts';
import { numberMarks } from '../table/decimal-comma.ts';
import { isNeeded, readTable } from '../table/read-table.ts';
import { columnOf, columnsIn, isNumbers, ownName, tableUnit } from './columns-in.ts';
import { findHead } from './find-head.ts';
import { sortRows, type SortedRows } from './sort-rows.ts';
import type { ColumnIn, How, RowsCount, RowsIn, RowsInProposal, RowsQuestion } from './types.ts';
import { fieldWriters } from './write-fields.ts';

const known = new WeakMap<RowsIn, RowsInProposal>();

/**
 * What would become of rows on their way into a table: how each column is read, what is still asked, and the one edit that
 * brings them in once nothing is. Nothing is decided field by field, and no row is lost without being counted.
 */
export function proposeRowsIn(source: RowsIn, cell: TableCell): RowsInProposal {
  const before = known.get(source);
  if (before?.cell === cell) return before;
  const proposal = makeProposal(source, cell);
  known.set(source, proposal);
  return proposal;
}

/** A row of the text with the number of its line, the lines of blanks not counted. */
interface NumberedRow {
  readonly line: number;
  readonly fields: readonly string[];
}

function makeProposal(source: RowsIn, cell: TableCell): RowsInProposal {
  const { answers } = source;
  const { between, lines } = splitText(source.text, answers.between);
  const at = findHead(lines, cell.columns, answers.hasHead);
  const header = at === undefined ? [] : readHeader(lines[at] ?? [], cell.columns);
  const all = lines.map((fields, i): NumberedRow => ({ line: i + 1, fields })).slice(at === undefined ? 0 : at + 1);
  const isLong = ({ fields }: NumberedRow): boolean => header.length > 0 && fields.slice(header.length).some((field) => field !== '');
  const long = all.filter(isLong);
  const rows = all.filter((line) => !isLong(line));
  const columns = columnsIn({ between, header, rows: rows.map(({ fields }) => fields) }, source, cell);
  const there = rowsText(cell).rows.length;
  const how = answers.how ?? (source.at !== undefined && header.length === 0 ? 'here' : 'add');
  const written = writeRows(rows, columns, cell, isNew(how, there));
  const incoming = readTable({ ...cell, symbols: [], rows: written.text });
  const sorted = sortRows(incoming, readTable(cell), source, how);
  const isOrderAsked = header.length === 0 && how !== 'here' && !answers.orderIsRight && rows.length > 0;
  const questions: readonly RowsQuestion[] = [
    ...(long.length === 0 || answers.longAreLeftOut ? [] : [{ about: 'long' as const, count: long.length, first: long[0]?.line ?? 0, fields: long[0]?.fields.length ?? 0, columns: header.length }]),
    ...(isOrderAsked ? [{ about: 'order' as const }] : []),
    ...(how === 'here' || rows.length === 0 ? [] : missingOf(columns, cell, source)),
    ...columns.flatMap(columnQuestions),
    ...(sorted.asked === undefined ? [] : [{ about: 'again' as const, ...sorted.asked }]),
  ];
  const marked = new Set(incoming.marks.filter(({ leavesOut, row }) => leavesOut && sorted.goesIn.has(row)).map(({ row }) => row)).size;
  const counts: RowsCount = {
    there, read: rows.length, added: sorted.added.length, replaced: sorted.set.map(({ row }) => row), same: sorted.same, stay: sorted.stay,
    long: long.length, unfit: written.unfit, above: lines.slice(0, at ?? 0).map((fields) => fields.join(' ')), marked,
  };
  const command = questions.length === 0 ? commandOf(cell, how, columns, { rows, written, sorted }) : undefined;
  return { cell, between, hasHead: header.length > 0, columns, questions, how, counts, incoming, isAsTyped: written.isAsTyped, ...(command === undefined ? {} : { command }) };
}

/** Whether the table's text begins anew, with a head of its own. */
function isNew(how: How, there: number): boolean {
  return how === 'replace all' || there === 0;
}

interface WrittenRows {
  /** The rows that fit, with a head, as a table reads them. */
  readonly text: string;
  /** Their places among the rows that came. */
  readonly kept: readonly number[];
  readonly unfit: RowsCount['unfit'];
  /** Whether every field stands there as it came. */
  readonly isAsTyped: boolean;
}

/** The rows as text of a table of their own, in the units that they will stand in. */
function writeRows(rows: readonly NumberedRow[], columns: readonly ColumnIn[], cell: TableCell, keepsUnits: boolean): WrittenRows {
  const writers = fieldWriters(columns, cell, keepsUnits, 'point');
  const head = columns.flatMap((column): string[] => (column.target === 'out' ? [] : [headOf(column, cell, keepsUnits)]));
  const lines: string[] = [];
  const kept: number[] = [];
  const unfit: { line: number; text: string }[] = [];
  let isAsTyped = true;
  rows.forEach(({ line, fields }, i) => {
    const texts = writers.map(({ place, write }) => write(asItWas((fields[place] ?? '').trim())));
    isAsTyped &&= writers.every(({ place }, j) => texts[j] === (fields[place] ?? '').trim());
    const misfit = texts.indexOf(undefined);
    if (misfit >= 0) unfit.push({ line, text: fields[writers[misfit]?.place ?? 0] ?? '' });
    else {
      lines.push(writeRecord(texts.map((text) => text ?? ''), ','));
      kept.push(i);
    }
  });
  return { text: head.length === 0 ? '' : `${[writeRecord(head, ','), ...lines].join('\n')}\n`, kept, unfit, isAsTyped };
}

function headOf(columnIn: ColumnIn, cell: TableCell, keepsUnits: boolean): string {
  const { target, unit } = columnIn;
  const column = columnOf(target, cell);
  if (column === undefined) return target === 'own' ? ownName(columnIn, cell) : target.slice(3);
  const own = tableUnit(column, rowsText(cell));
  const stated = keepsUnits && column.type === 'quantity' ? (unit?.unit ?? own) : own;
  return isNumbers(column) ? headerName({ ...column, unit: stated }) : column.key;
}

/** Columns without which no row can be used, or whose empty fields mean something. */
function missingOf(columns: readonly ColumnIn[], cell: TableCell, { answers }: RowsIn): readonly RowsQuestion[] {
  return cell.columns
    .filter((column) => (isNeeded(column) || (column.type === 'option' && column.default !== undefined)) && !answers.without.has(column.key))
    .filter(({ key }) => !columns.some(({ target }) => target === `as ${key}`))
    .map((column) => ({ about: 'missing', column: column.key, label: column.label, standsFor: column.default ?? '' }));
}

function columnQuestions({ place, unit, mark, words }: ColumnIn): readonly RowsQuestion[] {
  return [
    ...(unit !== undefined && unit.unit === undefined ? [{ about: 'unit' as const, place }] : []),
    ...(mark !== undefined && mark.mark === undefined ? [{ about: 'mark' as const, place }] : []),
    ...(words?.some(({ meaning }) => meaning === undefined) === true ? [{ about: 'words' as const, place }] : []),
  ];
}

interface RowsToBring {
  readonly rows: readonly NumberedRow[];
  readonly written: WrittenRows;
  readonly sorted: SortedRows;
}

function commandOf(cell: TableCell, how: How, columns: readonly ColumnIn[], { rows, written, sorted }: RowsToBring): EditCommand | undefined {
  if (sorted.added.length === 0 && sorted.set.length === 0) return undefined;
  const text = rowsText(cell);
  if (isNew(how, text.rows.length)) {
    const [head = '', ...lines] = recordsOf(written.text);
    return { do: 'replace rows', cellId: cell.id, text: `${[head, ...sorted.added.map((row) => lines[row] ?? '')].join('\n')}\n` };
  }
  const writers = fieldWriters(columns, cell, false, numberMarks(text).decimalComma ? 'comma' : 'point');
  const fieldsOf = (row: number): readonly string[] => writers.map(({ place, write }) => write(asItWas((rows[written.kept[row] ?? 0]?.fields[place] ?? '').trim())) ?? '');
  const over = (row: number): readonly (string | undefined)[] => fieldsOf(row).map((field) => (how === 'here' || field !== '' ? field : undefined));
  return {
    do: 'bring rows', cellId: cell.id, columns: writers.map(({ name }) => name),
    set: sorted.set.map(({ row, by }) => ({ row, fields: over(by) })),
    added: sorted.added.map(fieldsOf),
  };
}

/** The lines of a text that was written here: a field with line ends in it is in quotation marks. */
function recordsOf(text: string): readonly string[] {
  return text.match(/(?:"(?:[^"]|"")*"|[^\n"])+/g) ?? [];
}
