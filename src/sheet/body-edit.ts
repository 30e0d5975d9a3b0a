import { isAlias, isCollection, isMap, isScalar } from 'yaml';
import type { ParsedNode } from 'yaml';
import { lineStart, lineStop, nextLine } from './text-lines.ts';
import { writeScalar } from './scalar-text.ts';
import type { ScalarStyle } from './scalar-text.ts';
import { entriesOf } from './yaml-body.ts';
import type { Entry } from './yaml-body.ts';

/** A change of a text: what stands between two offsets gives way to `text`. */
export interface Cut {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** The text after all cuts, whose places are those of the text before. */
export function applyCuts(text: string, cuts: readonly Cut[]): string {
  let result = '';
  let from = 0;
  for (const cut of cuts.toSorted((a, b) => a.start - b.start)) {
    result += text.slice(from, cut.start) + cut.text;
    from = Math.max(from, cut.end);
  }
  return result + text.slice(from);
}

/** Puts text behind the key of an entry in place of what stands there; comments on the key's line stay. */
export function replaceValue(
  body: string,
  entry: Entry,
  value: string,
  lineEnd: string,
  isInline: boolean,
): readonly Cut[] | undefined {
  const colon = colonAfter(body, entry.keyEnd);
  if (colon === undefined) return undefined;
  const place = valuePlace(body, entry.node, colon + 1);
  const written = writeScalar(value, styleOf(entry.node), isInline);
  const indent = ' '.repeat(entry.keyStart - lineStart(body, entry.keyStart) + 2);
  const lines = (written.lines ?? []).map((line) => (line === '' ? '' : indent + line) + lineEnd);
  const { head } = written;
  const gap = head !== '' && place.start === colon + 1 ? ' ' : '';
  const start = head === '' ? colon + 1 : place.start;
  const cuts: Cut[] = [{ start, end: place.end, text: gap + head }];
  const below = { start: place.below, end: place.belowEnd, text: lines.join('') };
  if (below.end > below.start || below.text !== '') cuts.push(below);
  return cuts;
}

/** A new entry as whole lines, each indented by `column`. */
export function newEntry(key: string, value: string, column: number, lineEnd: string): string {
  const written = writeScalar(value, 'plain', false);
  const indent = ' '.repeat(column);
  const head = `${indent}${writeKey(key)}:${written.head === '' ? '' : ` ${written.head}`}${lineEnd}`;
  return head + (written.lines ?? []).map((line) => (line === '' ? '' : `${indent}  ${line}`) + lineEnd).join('');
}

export function writeKey(key: string): string {
  return writeScalar(key, key.includes(':') ? 'double' : 'plain', true).head;
}

/** The whole lines of an entry, with the comment on its last line. */
export function entryLines(body: string, entry: Entry): { start: number; end: number } {
  return { start: lineStart(body, entry.keyStart), end: entryEnd(body, entry) };
}

/** Just after the last line of an entry. */
export function entryEnd(body: string, entry: Entry): number {
  return entry.broken?.end ?? wholeLines(body, valueEnd(body, entry));
}

/** Just after the last character of an entry's value, or of its colon where it has none. */
export function valueEnd(body: string, { keyEnd, node }: Entry): number {
  const afterColon = (colonAfter(body, keyEnd) ?? keyEnd - 1) + 1;
  return node === undefined || isEmpty(node) ? afterColon : Math.max(afterColon, lastEnd(body, node));
}

/** Whether only blanks stand before an entry on its line, so that it can be taken out line by line. */
export function beginsLine(body: string, entry: Entry): boolean {
  return body.slice(lineStart(body, entry.keyStart), entry.keyStart).trim() === '';
}

function colonAfter(body: string, keyEnd: number): number | undefined {
  const gap = /^[ \t]*:/.exec(body.slice(keyEnd, keyEnd + 200));
  return gap === null ? undefined : keyEnd + gap[0].length - 1;
}

interface ValuePlace {
  /** What the new head replaces. */
  readonly start: number;
  readonly end: number;
  /** Whole lines below that belong to the old value, and where new ones go. */
  readonly below: number;
  readonly belowEnd: number;
}

function valuePlace(body: string, node: ParsedNode | undefined, afterColon: number): ValuePlace {
  const below = nextLine(body, afterColon);
  if (node === undefined || isEmpty(node)) return { start: afterColon, end: afterColon, below, belowEnd: below };
  const end = lastEnd(body, node);
  if (lineStart(body, node.range[0]) > afterColon) {
    return { start: afterColon, end: afterColon, below, belowEnd: wholeLines(body, end) };
  }
  const blanks = /^[ \t]*/.exec(body.slice(afterColon, node.range[0]))?.[0].length ?? 0;
  const start = afterColon + blanks;
  if (isBlockText(node)) {
    const sign = /^\S*/.exec(body.slice(node.range[0], lineStop(body, node.range[0])))?.[0].length ?? 1;
    return { start, end: node.range[0] + sign, below, belowEnd: Math.max(below, end) };
  }
  const after = nextLine(body, end);
  return { start, end, below: after, belowEnd: after };
}

/** Just after the line on which something ends; a block's place ends there already. */
function wholeLines(body: string, end: number): number {
  return end > 0 && /[\r\n]/.test(body.charAt(end - 1)) ? end : nextLine(body, end);
}

/** Where the value of a node ends: a collection's own place takes in comments and blank lines that follow it. */
function lastEnd(body: string, node: ParsedNode): number {
  if (!isCollection(node) || node.flow === true) return node.range[1];
  if (isMap(node)) {
    const last = entriesOf(node).at(-1);
    return last === undefined ? node.range[1] : valueEnd(body, last);
  }
  const item = node.items.at(-1) as ParsedNode | undefined;
  return item === undefined ? node.range[1] : lastEnd(body, item);
}

function isEmpty(node: ParsedNode): boolean {
  return isScalar(node) && node.type === 'PLAIN' && node.source === '';
}

function isBlockText(node: ParsedNode): boolean {
  return isScalar(node) && (node.type === 'BLOCK_LITERAL' || node.type === 'BLOCK_FOLDED');
}

function styleOf(node: ParsedNode | undefined): ScalarStyle {
  if (node === undefined || isAlias(node) || !isScalar(node)) return 'plain';
  if (node.type === 'QUOTE_DOUBLE') return 'double';
  if (node.type === 'QUOTE_SINGLE') return 'single';
  return isBlockText(node) ? 'block' : 'plain';
}
