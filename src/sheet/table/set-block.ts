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

/** The rows with a block of texts put in from a cell to the right and down. All fields but these stay sign for sign. */
export function setBlock(rows: RowsPart, row: number, column: string, block: readonly (readonly string[])[]): Result<string> {
  const { delimited, shown } = rows;
  const first = shown.findIndex(({ name }) => name === column);
  if (first < 0) return fail(problems.columnGone(column));
  const width = block.reduce((widest, fields) => Math.max(widest, fields.length), 0);
  if (width > shown.length - first) return fail(problems.pasteTooWide(width, shown.length - first));
  const target = placesFor(rows, first, width);
  if (!target.ok) return target;
  const { places, added } = target.value;
  const cuts: Cut[] = [];
  const newRows: string[] = [];
  const [header] = delimited.records;
  const columns = rows.header.length + added.length;
  if (header !== undefined && added.length > 0) cuts.push(appended(header, added, delimited));
  block.forEach((fields, i) => {
    const next = new Map(fields.map((field, j) => [places[j] ?? 0, field]));
    const record = delimited.records[row + 1 + i];
    if (record !== undefined) cuts.push(...changed(record, next, delimited));
    else newRows.push(writeRecord(Array.from({ length: columns }, (_, place) => next.get(place) ?? ''), delimited.separator));
  });
  const text = applyCuts(delimited.text, cuts);
  return ok(newRows.length === 0 ? text : `${text}${text.endsWith('\n') || text === '' ? '' : '\n'}${newRows.join('\n')}\n`);
}

/** Places in the text of shown columns, with the header's words for those that it does not have yet. */
function placesFor(rows: RowsPart, first: number, width: number): Result<{ places: readonly number[]; added: readonly string[] }> {
  const added: string[] = [];
  const places = rows.shown.slice(first, first + width).map(({ place, column }) => {
    if (place !== undefined || column === undefined) return place ?? 0;
    added.push(headerName(column));
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
