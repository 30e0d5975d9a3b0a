import type { Group, Tree } from './tree.ts';
import { looksTooDeep } from './yaml-guard.ts';

/*
 * Most bodies are lines `key: value` with texts, groups and lists below a key, written plainly. They are read here, in a tenth of the time that a reader of all
 * of YAML takes; whatever is written in another way, however slightly, is left to that reader. Both read the same, and a property test says so.
 */

/** A longer body is left to the other reader, which has limits of its own, and so is one that is deeper. */
const LONGEST = 12_000;
const MOST_LINES = 1_000;
const DEEPEST = 6;
const LONGEST_KEY = 200;

/** Signs that end lines, have no width or are none: the other reader has its own mind about each. */
const ODD = /[\0-\x09\x0b-\x1f\x7f-\x84\x86-\x9f\u0085\u2028\u2029\ufeff\ufffe\uffff]/;
/** Most keys; the browser takes a millisecond to make what knows all letters. */
const USUAL_KEY = /^[A-Za-z_]\w*$/;
const KEY = /^[\p{L}_][\p{L}\p{N}_-]*(?: [\p{L}\p{N}_-]+)*$/u;
/** With these a text begins that is not plain. */
const MARKS = new Set('-?:,[]{}#&*!|>\'"%@`');

interface Line {
  readonly indent: number;
  /** Without what it is indented by and without blanks at its end. */
  readonly text: string;
  readonly whole: string;
}

/** What is left of the lines, and how to say that they are not plain. */
interface Reading {
  readonly lines: readonly Line[];
  at: number;
}

/** The keys of a plainly written body; undefined where it is written in any other way. */
export function plainGroup(body: string): Group | undefined {
  if (body.length > LONGEST || ODD.test(body) || (body.length > 200 && looksTooDeep(body))) return undefined;
  const lines = body.split('\n').map((whole): Line => {
    const text = whole.replace(/^ +/, '');
    return { indent: whole.length - text.length, text: text.replace(/ +$/, ''), whole };
  });
  if (lines.length > MOST_LINES) return undefined;
  const reading: Reading = { lines, at: 0 };
  if ((nextLine(reading)?.indent ?? 0) > 0) return undefined;
  const group = groupAt(reading, 0, 0, 1);
  return group !== undefined && nextLine(reading) === undefined ? group : undefined;
}

/** Passes blank lines over. */
function nextLine(reading: Reading): Line | undefined {
  while (reading.lines[reading.at]?.text === '') reading.at++;
  return reading.lines[reading.at];
}

/** Lines `key: value` that begin at one column; those of the first may begin behind the hyphen of a list, whose `text` is given then. */
function groupAt(reading: Reading, indent: number, row: number, depth: number, firstText?: string): Group | undefined {
  const entries = new Map<string, Tree>();
  let text = firstText;
  for (;;) {
    const line = text === undefined ? nextLine(reading) : reading.lines[reading.at];
    if (line === undefined || (text === undefined && line.indent < indent)) return { kind: 'group', entries, row };
    if (text === undefined && line.indent > indent) return undefined;
    const written = text ?? line.text;
    text = undefined;
    const colon = written.search(/:(?: |$)/);
    const key = written.slice(0, Math.max(0, colon));
    if (colon < 0 || colon > LONGEST_KEY || !isKey(key) || entries.has(key) || depth > DEEPEST) return undefined;
    const value = valueAt(reading, written.slice(colon + 1).replace(/^ +/, ''), indent, depth);
    if (value === undefined) return undefined;
    entries.set(key, value);
  }
}

function isKey(written: string): boolean {
  return USUAL_KEY.test(written) || KEY.test(written);
}

/** What stands behind a key, or below it. */
function valueAt(reading: Reading, written: string, indent: number, depth: number): Tree | undefined {
  const row = reading.at;
  reading.at++;
  if (written === '|') return blockAt(reading, row, indent);
  if (written !== '') return onOneLine(reading, written, row, indent);
  const below = nextLine(reading);
  if (below === undefined || below.indent < indent) return { kind: 'text', text: '', row };
  if (below.indent === indent) return below.text.startsWith('-') ? undefined : { kind: 'text', text: '', row };
  return below.text.startsWith('- ') ? listAt(reading, below.indent, row, depth + 1) : groupAt(reading, below.indent, row, depth + 1);
}

/** A text on the line of its key: plain, or quoted with nothing that means something else. */
function onOneLine(reading: Reading, written: string, row: number, indent: number): Tree | undefined {
  // A plain text goes on in deeper lines.
  const next = nextLine(reading);
  if (next !== undefined && next.indent > indent) return undefined;
  const quoted = /^"([^"\\]*)"$|^'([^']*)'$/.exec(written);
  if (quoted !== null) return { kind: 'text', text: quoted[1] ?? quoted[2] ?? '', row };
  return isPlain(written) ? { kind: 'text', text: written, row } : undefined;
}

function isPlain(written: string): boolean {
  const isMarked = MARKS.has(written.charAt(0)) && !/^-[^ \-?:,[\]{}]/.test(written);
  return !isMarked && !written.includes(': ') && !written.includes(' #') && !written.endsWith(':');
}

/** Items behind hyphens at one column: texts, or groups of keys. */
function listAt(reading: Reading, indent: number, row: number, depth: number): Tree | undefined {
  const items: Tree[] = [];
  for (;;) {
    const line = nextLine(reading);
    if (line === undefined || line.indent < indent) return { kind: 'list', items, row };
    if (line.indent > indent || !line.text.startsWith('- ')) return undefined;
    const text = line.text.slice(2).replace(/^ +/, '');
    const inner = indent + line.text.length - text.length;
    const item = /^[^"'][^"']*?:(?: |$)/.test(text) ? groupAt(reading, inner, reading.at, depth + 1, text) : itemAt(reading, text, indent);
    if (item === undefined) return undefined;
    items.push(item);
  }
}

function itemAt(reading: Reading, text: string, indent: number): Tree | undefined {
  const row = reading.at;
  reading.at++;
  return text === '' ? undefined : onOneLine(reading, text, row, indent);
}

/** Lines as they stand, up to the first that is not indented as far as the first of them. */
function blockAt(reading: Reading, row: number, indent: number): Tree | undefined {
  const first = reading.lines[reading.at];
  if (first === undefined || first.text === '' || first.indent <= indent) return undefined;
  const from = reading.at;
  let end = from;
  for (; reading.at < reading.lines.length; reading.at++) {
    const line = reading.lines[reading.at];
    if (line === undefined || (line.text !== '' && line.indent < first.indent)) break;
    // Blank lines that are indented are lines of the text or none: left to who knows.
    if (line.text === '' && line.whole !== '') return undefined;
    if (line.text !== '') end = reading.at + 1;
  }
  const next = reading.lines[reading.at];
  // A line between the key and the text would be a slip.
  if (next !== undefined && next.indent > indent) return undefined;
  return { kind: 'text', text: `${reading.lines.slice(from, end).map(({ whole }) => whole.slice(first.indent)).join('\n')}\n`, row };
}
