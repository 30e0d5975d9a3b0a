/*
 * Delimited text (RFC 4180, with semicolon or tab in place of the comma where the header has those): split into records
 * and fields, and written back field by field. Meaning (numbers, units) is not looked at here.
 */

export type Separator = ',' | ';' | '\t' | '|';

/** A line of fields; one with line ends in quotation marks may be several lines of the text. */
interface DelimitedRecord {
  /** Offsets of its first character and of the place just after its last, without the line end. */
  readonly start: number;
  readonly end: number;
  /** Without quotation marks; blanks around a field stay. */
  readonly fields: readonly string[];
}

export interface DelimitedText {
  readonly text: string;
  readonly separator: Separator;
  /** The first is the header. Lines with nothing but blanks are none. */
  readonly records: readonly DelimitedRecord[];
  /** Whether a quotation mark opens a field and nothing closes it: what follows then depends on all that comes before. */
  readonly isOpen: boolean;
}

/** A field's place in the text, its quotation marks included. */
export interface FieldPlace {
  readonly start: number;
  readonly end: number;
}

/**
 * Any text as records. A quotation mark opens a field only at its beginning and is a sign like any other where nothing
 * closes it. The time taken grows with the length of the text, whatever it holds.
 */
export function readDelimited(text: string, separator: Separator = separatorOf(text)): DelimitedText {
  return readRecords(text, separator, text.startsWith('\uFEFF') ? 1 : 0);
}

/** `readDelimited` from a place in the text at which a record begins. */
export function readRecords(text: string, separator: Separator, from: number): DelimitedText {
  const records: DelimitedRecord[] = [];
  const marks = { lost: false };
  let at = from;
  while (at < text.length) {
    const lineStop = stopOf(text, at);
    const line = text.slice(at, lineStop);
    if (!line.includes('"')) {
      if (line.trim() !== '' || line.includes(separator)) {
        records.push({ start: at, end: lineStop, fields: line.split(separator) });
      }
      at = afterLineEnd(text, lineStop);
    } else {
      const record = quotedRecord(text, at, separator, marks);
      records.push(record);
      at = afterLineEnd(text, record.end);
    }
  }
  return { text, separator, records, isOpen: marks.lost };
}

/** Places of the fields of a record that stands at a place of a text. */
export function fieldPlaces(text: string, record: FieldPlace, separator: Separator): readonly FieldPlace[] {
  const places: FieldPlace[] = [];
  const whole = text.slice(0, record.end);
  for (let at = record.start; ; ) {
    const end = fieldEnd(whole, at, separator, { lost: false }).end;
    places.push({ start: at, end });
    if (end >= record.end) return places;
    at = end + 1;
  }
}

/** The separator of a text by its first line: a tab, else a semicolon, else a comma, outside of quotation marks. */
export function separatorOf(text: string): Separator {
  const start = /^\uFEFF?\s*/.exec(text)?.[0].replace(/\t+$/, '').length ?? 0;
  const line = text.slice(start, stopOf(text, start)).replace(/"(?:[^"]|"")*"/g, '');
  return line.includes('\t') ? '\t' : line.includes(';') ? ';' : ',';
}

/** A field as it stands in the text: in quotation marks only where it has to be. */
export function writeField(field: string, separator: Separator): string {
  const isPlain = !field.includes(separator) && !/["\r\n]|^\s|\s$/.test(field);
  return isPlain ? field : `"${field.replaceAll('"', '""')}"`;
}

/** A record without its line end; one of empty fields is written so that it is no blank line. */
export function writeRecord(fields: readonly string[], separator: Separator): string {
  const isBlank = fields.every((field) => field === '') && (fields.length === 1 || separator === '\t');
  const line = fields.map((field) => writeField(field, separator)).join(separator);
  return isBlank ? `""${line}` : line;
}

/** What a spreadsheet takes for a formula; a number is none. */
const LIKE_A_FORMULA = /^'*[=+\-@\t]/;
const NUMBER = /^[+-]?(?:\d+[.,]?\d*|[.,]\d+)(?:[eE][+-]?\d+)?$/;

/**
 * A record of a file that leaves. A text that a spreadsheet would take for a formula (`=1+1`) gets the apostrophe that marks text there;
 * numbers stay as they are. `asItWas` takes the apostrophe off again.
 */
export function writeOutgoing(fields: readonly string[], separator: Separator): string {
  return writeRecord(fields.map((field) => (LIKE_A_FORMULA.test(field) && !NUMBER.test(field) ? `'${field}` : field)), separator);
}

/** A field that comes in, without the mark that `writeOutgoing` gave it. */
export function asItWas(field: string): string {
  return /^'+[=+\-@\t]/.test(field) ? field.slice(1) : field;
}

interface Marks {
  /** Set once a quotation mark was found that nothing closes: those after it are looked at no more. */
  lost: boolean;
}

function quotedRecord(text: string, start: number, separator: Separator, marks: Marks): DelimitedRecord {
  const fields: string[] = [];
  for (let at = start; ; ) {
    const { end, field } = fieldEnd(text, at, separator, marks);
    fields.push(field);
    if (text[end] !== separator) return { start, end, fields };
    at = end + 1;
  }
}

function fieldEnd(text: string, start: number, separator: Separator, marks: Marks): { end: number; field: string } {
  const open = afterBlanks(text, start, separator);
  const close = text[open] === '"' && !marks.lost ? closingMark(text, open + 1) : undefined;
  if (text[open] === '"' && close === undefined) marks.lost = true;
  const end = plainEnd(text, close === undefined ? start : close + 1, separator);
  if (close === undefined) return { end, field: text.slice(start, end) };
  return { end, field: text.slice(open + 1, close).replaceAll('""', '"') + text.slice(close + 1, end).trimEnd() };
}

function afterBlanks(text: string, start: number, separator: Separator): number {
  let at = start;
  while (text[at] === ' ' || (text[at] === '\t' && separator !== '\t')) at++;
  return at;
}

function closingMark(text: string, start: number): number | undefined {
  for (let at = text.indexOf('"', start); at >= 0; at = text.indexOf('"', at + 2)) {
    if (text[at + 1] !== '"') return at;
  }
  return undefined;
}

function plainEnd(text: string, start: number, separator: Separator): number {
  let end = start;
  while (end < text.length && text[end] !== separator && text[end] !== '\n' && text[end] !== '\r') end++;
  return end;
}

function stopOf(text: string, start: number): number {
  const feed = text.indexOf('\n', start);
  const stop = feed < 0 ? text.length : feed;
  const line = text.slice(start, stop);
  const carriage = line.indexOf('\r');
  return carriage < 0 ? stop : start + carriage;
}

function afterLineEnd(text: string, stop: number): number {
  return text.startsWith('\r\n', stop) ? stop + 2 : stop + 1;
}
