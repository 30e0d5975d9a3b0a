import type { BodyProblem } from './body-problem.ts';
import { lineText, splitLines } from './text-lines.ts';

/*
 * The sentences about the writing of a line. They follow `Line 14: `, say what is there in plain words, and what to write
 * instead; none speaks of YAML.
 */

type Sentence = readonly [what: string, mend: string];

const ITSELF = 'Write the value itself; put it in quotation marks if it begins with *, & or !.';

const SENTENCES = {
  'no-key-value': [
    'this line has no `key: value`.',
    'Write a key, a colon, a blank and the value, such as `unit: mm`; indent the line if it continues the one above.',
  ],
  indentation: [
    'this line begins at another column than the lines it belongs with.',
    'Begin all keys of a cell, and all items of a list, at the same column.',
  ],
  tab: ['this line is indented with a tab.', 'Indent it with blanks.'],
  'text-after-quote': [
    'there is text after the closing quotation mark.',
    'Close the quotation marks at the end of the value.',
  ],
  'list-on-line': [
    'a list begins on the line below its key.',
    'Begin a new line for each item, such as `  - first item`; put the value in quotation marks if it is text.',
  ],
  'key-not-text': [
    'a list or group stands here where a key is expected.',
    'Begin the line with a key that is a plain word.',
  ],
  'marker-line': [
    'a line that begins with ---, ... or % has no place here.',
    'Delete the line, or indent it if it belongs to a text.',
  ],
  'too-deep': [
    'lists and groups stand inside each other too deeply to be read.',
    'Write the value as text in quotation marks, or with fewer brackets.',
  ],
  'too-many-entries': ['what begins here holds too much to be read.', 'Split it into several cells.'],
  'line-unreadable': [
    "this line can't be read.",
    'Put the value in quotation marks if it holds signs such as a colon, #, [ or {.',
  ],
} as const satisfies Readonly<Record<string, Sentence>>;

/** A problem whose sentence needs no more than its code. */
export function writingProblem(code: keyof typeof SENTENCES, row: number, key?: string): BodyProblem {
  return problem(code, row, SENTENCES[code], key);
}

function problem(code: string, row: number, [what, mend]: Sentence, key: string | undefined): BodyProblem {
  return { code, what, mend, row, tellsLine: true, ...(key === undefined ? {} : { key }) };
}

/** A line that is no `key: value`; where only the blank is missing, it says so. */
export function noKeyValueProblem(line: string, row: number): BodyProblem {
  const [, key, value] = /^(?:-\s+)?([\p{L}_][\p{L}\p{N}_]*):(\S.*)$/u.exec(line.trim()) ?? [];
  if (key === undefined || value === undefined) return writingProblem('no-key-value', row);
  return problem('blank-missing', row, ['there is no blank after the colon.', `Write \`${key}: ${value}\`.`], key);
}

/** A text that holds no key at all. */
export function noKeysProblem(text: string): BodyProblem {
  const lines = splitLines(text);
  const row = lines.findIndex((line) => /^\s*[^#\s]/.test(line));
  return noKeyValueProblem(lineText(lines[row] ?? ''), Math.max(row, 0));
}

export function keyTwiceProblem(key: string, row: number): BodyProblem {
  const what = `the key \`${key}\` stands twice here.`;
  return problem('key-twice', row, [what, 'Delete one of the two lines; the first one counts.'], key);
}

export function quoteOpenProblem(mark: string, row: number, key?: string): BodyProblem {
  const what = `the quotation mark ${mark} that opens here is never closed.`;
  return problem('quote-open', row, [what, `Put a closing ${mark} at the end of the value.`], key);
}

export function bracketOpenProblem(bracket: '[' | '{', row: number, key?: string): BodyProblem {
  const closing = bracket === '[' ? ']' : '}';
  const what = `the bracket ${bracket} that opens here is never closed.`;
  const mend = `Put a closing ${closing} at its end, or put the whole value in quotation marks if it is text.`;
  return problem('bracket-open', row, [what, mend], key);
}

export function escapeProblem(escape: string, row: number, key?: string): BodyProblem {
  const what = `\`${escape}\` means nothing inside double quotation marks.`;
  return problem('escape-unknown', row, [what, 'Write two backslashes for one, or use single quotation marks.'], key);
}

export function foreignSignProblem(kind: 'alias' | 'anchor' | 'tag', sign: string, row: number, key?: string): BodyProblem {
  const does = {
    alias: 'stands for a value written elsewhere',
    anchor: 'gives the value a name',
    tag: 'says how to read the value',
  }[kind];
  return problem(kind, row, [`\`${sign}\` ${does}, which a sheet does not use.`, ITSELF], key);
}

/** A line as it was meant: the key on it (`-` or none for an item) and the value that needs quotation marks. */
export interface Unquoted {
  readonly key: string | undefined;
  readonly value: string;
}

/** A value that YAML takes for something else than text. `outer` is the key of the cell that it belongs to. */
export function quotesNeededProblem(
  code: 'sign-needs-quotes' | 'second-colon' | 'text-after-bracket',
  what: string,
  line: Unquoted,
  row: number,
  outer?: string,
): BodyProblem {
  const before = line.key === undefined || line.key === '-' ? '- ' : `${line.key}: `;
  const mend = `Put the whole value in quotation marks: \`${before}${quoted(line.value)}\`.`;
  return problem(code, row, [what, mend], outer);
}

function quoted(value: string): string {
  const shown = value.length > 60 ? `${value.slice(0, 60)}...` : value;
  return shown.includes('"') ? `'${shown.replaceAll("'", "''")}'` : `"${shown.replaceAll('\\', '\\\\')}"`;
}
