import { fail, ok } from '../../core/problem/index.ts';
import type { Result } from '../../core/problem/index.ts';
import { applyCuts } from '../body-edit.ts';
import type { Cut } from '../body-edit.ts';
import { fieldPlaces, readDelimited, writeField, writeRecord } from './delimited.ts';
import type { FieldPlace, Separator } from './delimited.ts';
import { headerName } from './header.ts';
import * as problems from './row-problems.ts';
import type { RowsText, TableRow } from './rows-text.ts';

/** Rows after a change, before they are read: those that it does not touch are the same objects, of the others there is the text. */
export interface ChangedRows {
  readonly head: string;
  readonly rows: readonly (TableRow | string)[];
}

/** Texts by place of their field. */
type NewFields = ReadonlyMap<number, string>;

/** A row's texts in the order of some columns; undefined leaves what stands there. A row that is not there yet is added. */
export interface RowTexts {
  readonly row: number;
  readonly fields: readonly (string | undefined)[];
}

/** The rows with a block of texts put in from a cell to the right and down. All fields but these stay sign for sign. */
export function setBlock(rows: RowsText, row: number, column: string, block: readonly (readonly string[])[]): Result<ChangedRows> {
  const { shown } = rows;
  const first = shown.findIndex(({ name }) => name === column);
  if (first < 0) return fail(problems.columnGone(column));
  const width = block.reduce((widest, fields) => Math.max(widest, fields.length), 0);
  if (width > shown.length - first) return fail(problems.pasteTooWide(width, shown.length - first));
  return setRows(rows, shown.slice(first, first + width).map(({ name }) => name), block.map((fields, i) => ({ row: row + i, fields })));
}

/** The rows with texts put into some columns of some of them; a column that the text does not have gets its place in the header. */
export function setRows(rows: RowsText, columns: readonly string[], lines: readonly RowTexts[]): Result<ChangedRows> {
  const { separator, header } = rows;
  const target = placesFor(rows, columns);
  if (!target.ok) return target;
  const { places, added } = target.value;
  const set = [...rows.rows] as (TableRow | string)[];
  const more: string[] = [];
  for (const { row, fields } of lines) {
    const next = new Map(fields.flatMap((field, j): [number, string][] => (field === undefined ? [] : [[places[j] ?? 0, field]])));
    const there = rows.rows[row];
    if (there !== undefined) set[row] = changed(there, next, separator);
    else more.push(`${writeRecord(Array.from({ length: header.length + added.length }, (_, place) => next.get(place) ?? ''), separator)}\n`);
  }
  const head = added.length === 0 ? rows.head : withColumns(rows.head, added, separator);
  if (more.length === 0) return ok({ head, rows: set });
  const ended = endingLines({ head, rows: set });
  return ok({ head: ended.head, rows: [...ended.rows, ...more] });
}

/** The same rows, the last of which ends its line, so that another one can follow. */
export function endingLines({ head, rows }: ChangedRows): ChangedRows {
  const last = rows.at(-1);
  const text = last === undefined ? head : textOf(last);
  if (text === '' || text.endsWith('\n')) return { head, rows };
  return last === undefined ? { head: `${head}\n`, rows } : { head, rows: [...rows.slice(0, -1), `${text}\n`] };
}

export function textOf(row: TableRow | string): string {
  return typeof row === 'string' ? row : row.text;
}

/** Places in the text of columns, with the header's words for those that it does not have yet. */
function placesFor({ shown, header, rows }: RowsText, columns: readonly string[]): Result<{ places: readonly number[]; added: readonly string[] }> {
  const added: string[] = [];
  const places = columns.map((name) => {
    const one = shown.find((candidate) => candidate.name === name);
    if (one?.place !== undefined) return one.place;
    added.push(one?.column === undefined ? name : headerName(one.column));
    return header.length + added.length - 1;
  });
  const long = added.length === 0 ? -1 : rows.findIndex(({ fields }) => fields.length > header.length);
  if (long < 0) return ok({ places, added });
  return fail(problems.rowTooLong(long, rows[long]?.fields.length ?? 0, header.length));
}

function withColumns(head: string, added: readonly string[], separator: Separator): string {
  const [header] = readDelimited(head, separator).records;
  return header === undefined ? head : applyCuts(head, [appended(header.end, added, separator)]);
}

function changed(row: TableRow, next: NewFields, separator: Separator): TableRow | string {
  const { text, end, fields } = row;
  if ([...next].every(([place, field]) => (fields[place] ?? '') === field)) return row;
  const last = Math.max(...next.keys());
  const isBlank = [...fields.keys()].every((place) => (next.get(place) ?? fields[place]) === '') && last < fields.length;
  if (isBlank) return applyCuts(text, [{ start: 0, end, text: writeRecord(fields.map(() => ''), separator) }]);
  const places = fieldPlaces(text, { start: 0, end }, separator);
  const cuts = [...next].flatMap(([place, field]): Cut[] => {
    const at = places[place];
    return at === undefined || fields[place] === field ? [] : [{ ...at, text: styled(field, at, text, separator) }];
  });
  const missing = Array.from({ length: Math.max(0, last + 1 - fields.length) }, (_, i) => next.get(fields.length + i) ?? '');
  return applyCuts(text, missing.length === 0 ? cuts : [...cuts, appended(end, missing, separator)]);
}

/** A field written as the one that it replaces was: in quotation marks where that had some. */
function styled(field: string, { start }: FieldPlace, text: string, separator: Separator): string {
  const written = writeField(field, separator);
  return text[start] === '"' && !written.startsWith('"') && field !== '' ? `"${written}"` : written;
}

function appended(at: number, fields: readonly string[], separator: Separator): Cut {
  return { start: at, end: at, text: fields.map((field) => separator + writeField(field, separator)).join('') };
}
