import { fail, ok } from '../../core/problem/index.ts';
import type { Result } from '../../core/problem/index.ts';
import { applyCuts } from '../body-edit.ts';
import type { Cut } from '../body-edit.ts';
import { fieldPlaces, writeField, writeRecord } from './delimited.ts';
import type { DelimitedRecord, DelimitedText, FieldPlace } from './delimited.ts';
import { headerName } from './header.ts';
import * as problems from './row-problems.ts';
import type { RowsText } from './rows-text.ts';

/** Rows that stand together, with a header before them, as one text. */
export interface RowsPart extends Pick<RowsText, 'header' | 'shown'> {
  readonly delimited: DelimitedText;
}

/** Texts by place of their field. */
type NewFields = ReadonlyMap<number, string>;

/** A row's texts in the order of some columns; undefined leaves what stands there. A row that is not there yet is added. */
export interface RowTexts {
  readonly row: number;
  readonly fields: readonly (string | undefined)[];
}

/** The rows with a block of texts put in from a cell to the right and down. All fields but these stay sign for sign. */
export function setBlock(rows: RowsPart, row: number, column: string, block: readonly (readonly string[])[]): Result<string> {
  const { shown } = rows;
  const first = shown.findIndex(({ name }) => name === column);
  if (first < 0) return fail(problems.columnGone(column));
  const width = block.reduce((widest, fields) => Math.max(widest, fields.length), 0);
  if (width > shown.length - first) return fail(problems.pasteTooWide(width, shown.length - first));
  return setRows(rows, shown.slice(first, first + width).map(({ name }) => name), block.map((fields, i) => ({ row: row + i, fields })));
}

/** The rows with texts put into some columns of some of them; a column that the text does not have gets its place in the header. */
export function setRows(rows: RowsPart, columns: readonly string[], lines: readonly RowTexts[]): Result<string> {
  const { delimited } = rows;
  const target = placesFor(rows, columns);
  if (!target.ok) return target;
  const { places, added } = target.value;
  const cuts: Cut[] = [];
  const newRows: string[] = [];
  const [header] = delimited.records;
  const width = rows.header.length + added.length;
  if (header !== undefined && added.length > 0) cuts.push(appended(header, added, delimited));
  for (const { row, fields } of lines) {
    const next = new Map(fields.flatMap((field, j): [number, string][] => (field === undefined ? [] : [[places[j] ?? 0, field]])));
    const record = delimited.records[row + 1];
    if (record !== undefined) cuts.push(...changed(record, next, delimited));
    else newRows.push(writeRecord(Array.from({ length: width }, (_, place) => next.get(place) ?? ''), delimited.separator));
  }
  const text = applyCuts(delimited.text, cuts);
  return ok(newRows.length === 0 ? text : `${text}${text.endsWith('\n') || text === '' ? '' : '\n'}${newRows.join('\n')}\n`);
}

/** Places in the text of columns, with the header's words for those that it does not have yet. */
function placesFor(rows: RowsPart, columns: readonly string[]): Result<{ places: readonly number[]; added: readonly string[] }> {
  const added: string[] = [];
  const places = columns.map((name) => {
    const shown = rows.shown.find((one) => one.name === name);
    if (shown?.place !== undefined) return shown.place;
    added.push(shown?.column === undefined ? name : headerName(shown.column));
    return rows.header.length + added.length - 1;
  });
  const long = added.length === 0 ? -1 : rows.delimited.records.findIndex(({ fields }) => fields.length > rows.header.length);
  if (long < 0) return ok({ places, added });
  return fail(problems.rowTooLong(long - 1, rows.delimited.records[long]?.fields.length ?? 0, rows.header.length));
}

function changed(record: DelimitedRecord, next: NewFields, delimited: DelimitedText): readonly Cut[] {
  const { fields } = record;
  const isSame = [...next].every(([place, text]) => (fields[place] ?? '') === text);
  if (isSame) return [];
  const places = fieldPlaces(delimited, record);
  const cuts = [...next].flatMap(([place, text]): Cut[] => {
    const at = places[place];
    return at === undefined || fields[place] === text ? [] : [{ ...at, text: styled(text, at, delimited) }];
  });
  const last = Math.max(...next.keys());
  if (last >= fields.length) {
    const missing = Array.from({ length: last + 1 - fields.length }, (_, i) => next.get(fields.length + i) ?? '');
    cuts.push(appended(record, missing, delimited));
  }
  const isBlank = [...fields.keys()].every((place) => (next.get(place) ?? fields[place]) === '') && last < fields.length;
  return isBlank ? [{ start: record.start, end: record.end, text: writeRecord(fields.map(() => ''), delimited.separator) }] : cuts;
}

/** A field written as the one that it replaces was: in quotation marks where that had some. */
function styled(text: string, { start }: FieldPlace, { text: whole, separator }: DelimitedText): string {
  const written = writeField(text, separator);
  return whole[start] === '"' && !written.startsWith('"') && text !== '' ? `"${written}"` : written;
}

function appended(record: DelimitedRecord, fields: readonly string[], { separator }: DelimitedText): Cut {
  const text = fields.map((field) => separator + writeField(field, separator)).join('');
  return { start: record.end, end: record.end, text };
}
