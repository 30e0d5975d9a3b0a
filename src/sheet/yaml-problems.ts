import type { YAMLError } from 'yaml';
import { writingProblem } from './body-problem.ts';
import type { BodyProblem } from './body-problem.ts';
import { lineStart, lineStop, lineText, rowAt, splitLines } from './lines.ts';

/*
 * What the YAML reader complains of, in the sheet's own words. Its codes say what it stumbled over, not what the writer
 * meant; the sign that begins the value tells more, so that both are looked at.
 */

/** The slip that the reader met first in one entry; `text` is the entry. */
export function slipProblem(errors: readonly YAMLError[], text: string, key: string | undefined): BodyProblem {
  const [first] = errors;
  const code = first?.code ?? 'IMPOSSIBLE';
  const offset = Math.min(first?.pos[0] ?? 0, text.length);
  const row = rowAt(text, offset);
  const line = text.slice(lineStart(text, offset), lineStop(text, offset));
  if (code === 'TAB_AS_INDENT') return tabProblem(row, key);
  if (code === 'RESOURCE_EXHAUSTION') return tooDeepProblem(row);
  if (code === 'BAD_DQ_ESCAPE') return escapeProblem(row, text.slice(offset, offset + 2), key);
  if (code === 'NON_STRING_KEY') return keyNotTextProblem(row);
  const colon = colonProblem(errors, text, row, line, key);
  if (colon !== undefined) return colon;
  const start = valueStart(text, offset);
  const signed = start.key === undefined ? undefined : signProblem(code, line, start, key);
  if (signed !== undefined) return signed;
  if (code === 'BAD_INDENT') return indentationProblem(row, key);
  return unreadableProblem(row, key);
}

/** Two colons in one line, or none. */
function colonProblem(
  errors: readonly YAMLError[],
  text: string,
  row: number,
  line: string,
  key: string | undefined,
): BodyProblem | undefined {
  const code = errors[0]?.code;
  if (code === 'BLOCK_AS_IMPLICIT_KEY') {
    const broken = errors.find((error) => error.code === 'MULTILINE_IMPLICIT_KEY');
    return broken === undefined ? secondColonProblem(row, line, key) : indentationProblem(rowAt(text, broken.pos[1]), key);
  }
  const keyAlone = errors[0]?.message.startsWith('Implicit map keys need') === true;
  if (code === 'MULTILINE_IMPLICIT_KEY' || (code === 'MISSING_CHAR' && keyAlone)) return noKeyValueProblem(line, row);
  return undefined;
}

interface ValueStart {
  /** The key on that line, which may be one inside `key`; `-` for an item of a list, undefined where neither stands there. */
  readonly key: string | undefined;
  /** The value's own first sign and the rest of its line. */
  readonly value: string;
  readonly row: number;
}

/** Where the value begins that the reader was in: on the nearest line, going up from the slip, that holds a colon or a dash. */
function valueStart(text: string, offset: number): ValueStart {
  let end = lineStop(text, offset);
  for (;;) {
    const start = lineStart(text, Math.min(offset, end));
    const line = text.slice(start, end);
    const [, key, value] = /^\s*(?:-\s+)?([\p{L}_][\p{L}\p{N}_]*\s*:|-)(?:\s+(.*))?$/u.exec(line) ?? [];
    if (key !== undefined || start === 0) {
      return { key: key?.replace(/\s*:$/, ''), value: (value ?? line).trim(), row: rowAt(text, start) };
    }
    end = start - (text.slice(start - 2, start) === '\r\n' ? 2 : 1);
    offset = end;
  }
}

/** Values that begin with a sign of which YAML thinks something else than the writer. */
function signProblem(code: string, line: string, place: ValueStart, key: string | undefined): BodyProblem | undefined {
  const { value, row } = place;
  const sign = value.charAt(0);
  const mend = quotationMend(place.key, value);
  if (sign === '*') return foreignSignProblem('alias', '*', row, key);
  if (sign === '&') return foreignSignProblem('anchor', '&', row, key);
  if (sign === '!') return foreignSignProblem('tag', '!', row, key);
  if (sign === '"' || sign === "'") {
    const closed = value.length > 1 && value.lastIndexOf(sign) > 0;
    if (code === 'UNEXPECTED_TOKEN' || closed)
      return writingProblem('text-after-quote', row, 'there is text after the closing quotation mark.', 'Close the quotation marks at the end of the value.', key);
    return writingProblem('quote-open', row, `the quotation mark ${sign} that opens here is never closed.`, `Put a closing ${sign} at the end of the value.`, key);
  }
  if (sign === '[' || sign === '{') {
    const closing = sign === '[' ? ']' : '}';
    if (!value.includes(closing))
      return writingProblem('bracket-open', row, `the bracket ${sign} that opens here is never closed.`, `Put a closing ${closing} at its end, or put the whole value in quotation marks if it is text.`, key);
    return writingProblem('text-after-bracket', row, `a value that begins with ${sign} is read as a list or a group, and this one can't be.`, mend, key);
  }
  if ((sign === '>' || sign === '|') && !/^[>|][-+\d]{0,2}(?:\s+#.*)?$/.test(value))
    return writingProblem('sign-needs-quotes', row, `a value that begins with ${sign} needs quotation marks.`, mend, key);
  if (code === 'BAD_SCALAR_START' || /^[@`%\]},?]/.test(value))
    return writingProblem('sign-needs-quotes', row, `a value can't begin with ${sign} unless it stands in quotation marks.`, mend, key);
  if (code === 'UNEXPECTED_TOKEN' && /^-\s/.test(value) && line.includes(':'))
    return writingProblem('list-on-line', row, 'a list begins on the line below its key.', 'Begin a new line for each item, such as `  - first item`; put the value in quotation marks if it is text.', key);
  return undefined;
}

function quotationMend(key: string | undefined, value: string): string {
  const before = key === undefined || key === '-' ? '- ' : `${key}: `;
  return `Put the whole value in quotation marks: \`${before}${quoted(value)}\`.`;
}

function quoted(value: string): string {
  const plain = value.length > 60 ? `${value.slice(0, 60)}...` : value;
  return plain.includes('"') ? `'${plain.replaceAll("'", "''")}'` : `"${plain.replaceAll('\\', '\\\\')}"`;
}

function tabProblem(row: number, key: string | undefined): BodyProblem {
  return writingProblem('tab', row, 'this line is indented with a tab.', 'Indent it with blanks.', key);
}

export function tooDeepProblem(row = 0): BodyProblem {
  return writingProblem('too-deep', row, 'lists and groups stand inside each other too deeply to be read.', 'Write the value as text in quotation marks, or with fewer brackets.');
}

export function tooManyProblem(): BodyProblem {
  return writingProblem('too-many-entries', 0, 'what begins here holds too much to be read.', 'Split it into several cells.');
}

function escapeProblem(row: number, escape: string, key: string | undefined): BodyProblem {
  return writingProblem('escape-unknown', row, `\`${escape}\` means nothing inside double quotation marks.`, 'Write two backslashes for one, or use single quotation marks.', key);
}

function keyNotTextProblem(row: number): BodyProblem {
  return writingProblem('key-not-text', row, 'a list or group stands here where a key is expected.', 'Begin the line with a key that is a plain word.');
}

function secondColonProblem(row: number, line: string, key: string | undefined): BodyProblem {
  const [, inner, value] = /^\s*(?:-\s+)?([^:]*):\s+(.*)$/.exec(line) ?? [];
  const mend = quotationMend(inner, value?.trim() ?? '');
  return writingProblem('second-colon', row, 'there is a second colon with a blank after it.', mend, key);
}

export function indentationProblem(row: number, key: string | undefined): BodyProblem {
  return writingProblem('indentation', row, 'this line begins at another column than the lines it belongs with.', 'Begin all keys of a cell, and all items of a list, at the same column.', key);
}

function unreadableProblem(row: number, key: string | undefined): BodyProblem {
  return writingProblem('line-unreadable', row, "this line can't be read.", 'Put the value in quotation marks if it holds signs such as a colon, #, [ or {.', key);
}

/** A line that is no `key: value`. */
export function noKeyValueProblem(line: string, row: number): BodyProblem {
  const [, key, value] = /^(?:-\s+)?([\p{L}_][\p{L}\p{N}_]*):(\S.*)$/u.exec(line.trim()) ?? [];
  if (key !== undefined && value !== undefined)
    return writingProblem('blank-missing', row, 'there is no blank after the colon.', `Write \`${key}: ${value}\`.`, key);
  return writingProblem(
    'no-key-value',
    row,
    'this line has no `key: value`.',
    'Write a key, a colon, a blank and the value, such as `unit: mm`; indent the line if it continues the one above.',
  );
}

/** A text that holds no key at all. */
export function noKeysProblem(text: string): BodyProblem {
  const lines = splitLines(text);
  const row = lines.findIndex((line) => /^\s*[^#\s]/.test(line));
  return noKeyValueProblem(lineText(lines[row] ?? ''), Math.max(row, 0));
}

export function markerProblem(row: number): BodyProblem {
  return writingProblem('marker-line', row, 'a line that begins with ---, ... or % has no place here.', 'Delete the line, or indent it if it belongs to a text.');
}

export function foreignSignProblem(
  sign: 'alias' | 'anchor' | 'tag',
  written: string,
  row: number,
  key: string | undefined,
): BodyProblem {
  const what = {
    alias: `\`${written}\` stands for a value written elsewhere, which a sheet does not use.`,
    anchor: `\`${written}\` gives the value a name, which a sheet does not use.`,
    tag: `\`${written}\` says how to read the value, which a sheet does not use.`,
  }[sign];
  return writingProblem(sign, row, what, 'Write the value itself; put it in quotation marks if it begins with *, & or !.', key);
}

export function keyTwiceProblem(key: string, row: number): BodyProblem {
  return writingProblem('key-twice', row, `the key \`${key}\` stands twice here.`, 'Delete one of the two lines; the first one counts.', key);
}
