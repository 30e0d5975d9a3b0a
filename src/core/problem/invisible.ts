import type { Problem } from './types.ts';

/** Signs that leave nothing to see and come along when text is copied from pages, letters and spreadsheets. */
const INVISIBLE = /\p{Default_Ignorable_Code_Point}/u;
const EVERY_INVISIBLE = /\p{Default_Ignorable_Code_Point}/gu;

/** By code, in plain words after the Unicode character database; of the rest the code alone is told. */
const NAMES: ReadonlyMap<number, string> = new Map([
  [0xad, 'soft hyphen'],
  [0x61c, 'Arabic letter mark'],
  [0x200b, 'zero-width space'],
  [0x200c, 'zero-width non-joiner'],
  [0x200d, 'zero-width joiner'],
  [0x200e, 'left-to-right mark'],
  [0x200f, 'right-to-left mark'],
  [0x202a, 'left-to-right embedding'],
  [0x202b, 'right-to-left embedding'],
  [0x202c, 'end of a direction'],
  [0x202d, 'left-to-right override'],
  [0x202e, 'right-to-left override'],
  [0x2060, 'word joiner'],
  [0x2061, 'function application'],
  [0x2062, 'invisible times'],
  [0x2063, 'invisible separator'],
  [0x2064, 'invisible plus'],
  [0x2066, 'left-to-right isolate'],
  [0x2067, 'right-to-left isolate'],
  [0x2068, 'first strong isolate'],
  [0x2069, 'end of an isolate'],
  [0xfeff, 'byte order mark'],
]);

/** What the invisible signs of formulas set by machine stand for, where they do. */
const MEANT: ReadonlyMap<number, string> = new Map([
  [0x2062, '*'],
  [0x2063, ','],
  [0x2064, '+'],
]);

/**
 * The problem with the first invisible sign of a text in which none may stand, a number or a formula: which it is, and what it
 * stands after. Nothing is taken away unasked. Undefined where every sign can be seen.
 */
export function invisibleSign(text: string): Problem | undefined {
  const found = INVISIBLE.exec(text);
  if (found === null) return undefined;
  const code = found[0].codePointAt(0) ?? 0;
  const name = NAMES.get(code) ?? (code >= 0xe0000 && code <= 0xe007f ? 'tag character' : undefined);
  const sign = name === undefined ? codeName(code) : `${name} (${codeName(code)})`;
  const meant = MEANT.get(code);
  const span = { start: found.index, end: found.index + found[0].length };
  return {
    code: 'invisible-sign',
    what: `An invisible sign, ${sign}, stands ${placeOf(text, span.start, span.end)}.`,
    mend: meant === undefined ? 'Delete it, or type this anew.' : `Delete it, or write ${meant} in its place.`,
    text,
    span,
  };
}

/** A text to be shown beside a problem, with each invisible sign as its code: `12⟨U+200B⟩.5`. */
export function withSignsShown(text: string): string {
  return text.replace(EVERY_INVISIBLE, (sign) => `\u27e8${codeName(sign.codePointAt(0) ?? 0)}\u27e9`);
}

function codeName(code: number): string {
  return `U+${code.toString(16).toUpperCase().padStart(4, '0')}`;
}

/** Where a reader who cannot see the sign finds it: by the word before it, else by the one behind. */
function placeOf(text: string, start: number, end: number): string {
  const before = /(\S{1,20})\s*$/u.exec(text.slice(0, start).replace(EVERY_INVISIBLE, ''))?.[1];
  if (before !== undefined) return `after \u201c${before}\u201d`;
  const behind = /^\s*(\S{1,20})/u.exec(text.slice(end).replace(EVERY_INVISIBLE, ''))?.[1];
  return behind === undefined ? 'here, and nothing else' : `before \u201c${behind}\u201d`;
}
