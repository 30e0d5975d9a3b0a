/*
 * Text as YAML writes it, in the plainest form that reads back exactly: plain, in single or double quotation marks, or,
 * for several lines, as a block under `|`.
 */

export type ScalarStyle = 'plain' | 'single' | 'double' | 'block';

interface WrittenScalar {
  /** What stands behind the colon: the value itself, or the sign that opens a block. */
  readonly head: string;
  /** Lines of a block, without indentation and line ends; absent where the head is all. */
  readonly lines?: readonly string[];
}

// Controls, byte order mark, line and paragraph separators, halves of pairs: kept in a file only as escapes.
const UNWRITTEN = /[\u0000-\u001f\u007f-\u009f\u2028\u2029\ufeff\ufffe\uffff]/;
const HALF_PAIR = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/;
const NEEDS_ESCAPE = new RegExp(`${UNWRITTEN.source}|${HALF_PAIR.source}`);
const NEEDS_ESCAPE_EACH = new RegExp(NEEDS_ESCAPE.source, 'g');
const NAMED_ESCAPES: Readonly<Record<string, string>> = { '\n': '\\n', '\r': '\\r', '\t': '\\t' };

/**
 * @param style the style of the text that is replaced, kept where it can be
 * @param isInline within brackets or braces
 */
export function writeScalar(text: string, style: ScalarStyle, isInline: boolean): WrittenScalar {
  if (text === '') return { head: '' };
  const block = isInline || (style !== 'block' && !text.includes('\n')) ? undefined : writeBlock(text);
  if (block !== undefined && style !== 'double') return block;
  if (NEEDS_ESCAPE.test(text) || style === 'double') return { head: doubleQuoted(text) };
  if (style !== 'single' && isPlain(text, isInline)) return { head: text };
  return { head: style !== 'single' && !/["\\]/.test(text) ? doubleQuoted(text) : singleQuoted(text) };
}

/** A block keeps its lines as they are, so that long text stays readable; not every text can stand in one. */
function writeBlock(text: string): WrittenScalar | undefined {
  const lines = text.split('\n');
  const ends = text.endsWith('\n');
  if (ends) lines.pop();
  const first = lines.find((line) => line !== '');
  const isSound =
    first !== undefined &&
    !/^\s/.test(first) &&
    lines.at(-1) !== '' &&
    areLinesOfBlock(lines);
  return isSound ? { head: ends ? '|' : '|-', lines } : undefined;
}

/** Whether lines can stand as they are among the others of a block under `|`. */
export function areLinesOfBlock(lines: readonly string[]): boolean {
  return lines.every((line) => !NEEDS_ESCAPE.test(line.replaceAll('\t', '')) && (line === '' || /\S/.test(line)));
}

/** Whether the text can stand without quotation marks; when in doubt, no. */
function isPlain(text: string, isInline: boolean): boolean {
  if (/^\s|\s$|:$|: | #|[\t\r\n]/.test(text) || NEEDS_ESCAPE.test(text)) return false;
  if (isInline && /[,[\]{}:]/.test(text)) return false;
  return /^(?:[\p{L}\p{N}(<+=~$^_/\\;.×±µΔ°]|-[^\s-])/u.test(text) && !/^(?:---|\.\.\.)/.test(text);
}

function singleQuoted(text: string): string {
  return `'${text.replaceAll("'", "''")}'`;
}

function doubleQuoted(text: string): string {
  const escaped = text.replace(/["\\]/g, '\\$&').replace(NEEDS_ESCAPE_EACH, (sign) => {
    const code = sign.charCodeAt(0);
    return NAMED_ESCAPES[sign] ?? (code < 0x100 ? `\\x${hex(code, 2)}` : `\\u${hex(code, 4)}`);
  });
  return `"${escaped}"`;
}

function hex(code: number, digits: number): string {
  return code.toString(16).toUpperCase().padStart(digits, '0');
}
