/** The sentences for formulas that can't be read, built from what was found and where. */
import { fail, type Span } from '../problem/index.ts';
import type { FunctionDescription } from './functions.ts';
import { isSymbolName } from './symbol-name.ts';

export function problemAt(text: string, span: Span, code: string, what: string, mend: string) {
  return fail({ code, what, mend, text, span });
}

/** A piece of the reader's text, short enough to stand in a sentence. */
export function quoted(text: string): string {
  return text.length > 40 ? `${text.slice(0, 37)}...` : text;
}

/** What is written where the formula language has something else. Longest first, as they are tried in this order. */
const UNWANTED: readonly (readonly [sign: string, code: string, what: string, mend: string])[] = [
  ['**', 'power-sign', '** is not how formulas write a power.', 'Write ^, as in d^4.'],
  ['==', 'equals-sign', 'Formulas have no ==: measured values are never exactly equal.', 'Compare the difference, as in abs(a - b) < c.'],
  ['!=', 'equals-sign', 'Formulas have no !=: measured values are never exactly equal.', 'Compare the difference, as in abs(a - b) > c.'],
  ['≠', 'equals-sign', 'Formulas have no ≠: measured values are never exactly equal.', 'Compare the difference, as in abs(a - b) > c.'],
  ['=<', 'comparison-sign', '=< is not a comparison.', 'Write <=.'],
  ['=>', 'comparison-sign', '=> is not a comparison.', 'Write >=.'],
  ['=', 'equals-sign', 'A formula holds only what stands right of the equals sign.', 'Take away = and what stands before it.'],
  ['&&', 'word-and', '&& is not a word of formulas.', 'Write and.'],
  ['&', 'word-and', '& is not a word of formulas.', 'Write and.'],
  ['||', 'word-or', '|| is not a word of formulas.', 'Write or.'],
  ['|', 'magnitude-bars', 'Formulas do not read | |.', 'Write abs(x) for the magnitude, or the word or.'],
  ['!', 'word-not', '! is not a word of formulas.', 'Write not.'],
  ['[', 'square-bracket', 'Formulas pick no elements out of lists and use no square brackets.', 'Use round brackets ( ), or a symbol with a subscript, as in s_1.'],
  [']', 'square-bracket', 'Formulas pick no elements out of lists and use no square brackets.', 'Use round brackets ( ), or a symbol with a subscript, as in s_1.'],
  ['{', 'curly-bracket', 'Formulas use no curly brackets.', 'Use round brackets ( ).'],
  ['}', 'curly-bracket', 'Formulas use no curly brackets.', 'Use round brackets ( ).'],
  ['"', 'text-in-formula', 'A formula holds no text.', 'Take the quotation marks away.'],
  ["'", 'text-in-formula', 'A formula holds no text.', 'Take the quotation marks away; a primed symbol can be written with a subscript.'],
  ['`', 'text-in-formula', 'A formula holds no text.', 'Take the quotation marks away.'],
  ['.', 'member-access', 'A point stands where formulas have no use for one.', 'Join the parts of a symbol with an underscore, as in R_A.'],
  [';', 'semicolon', 'A formula is one expression, without semicolons.', 'Separate arguments with a comma; put a second formula into a step of its own.'],
  ['%', 'percent-sign', 'Formulas do not read %.', 'Divide by 100, or write unit(%).'],
  ['√', 'root-sign', 'Formulas do not read √.', 'Write sqrt( ).'],
  ['²', 'superscript', 'Formulas do not read raised digits.', 'Write ^2.'],
  ['³', 'superscript', 'Formulas do not read raised digits.', 'Write ^3.'],
  ['⁴', 'superscript', 'Formulas do not read raised digits.', 'Write ^4.'],
  ['π', 'greek-letter', 'Formulas do not read π.', 'Write pi.'],
  ['°', 'unit-outside', '° is a unit, and units stand in unit( ).', 'Write, for example, 30*unit(deg).'],
];

/** The problem with the character at `start`, which begins no word of the language. */
export function strayCharacter(text: string, start: number) {
  const found = UNWANTED.find(([sign]) => text.startsWith(sign, start));
  if (found !== undefined) {
    const [sign, code, what, mend] = found;
    return problemAt(text, { start, end: start + sign.length }, code, what, mend);
  }
  const point = text.codePointAt(start) ?? 0;
  const character = String.fromCodePoint(point);
  const span = { start, end: start + character.length };
  if (/\p{Script=Greek}/u.test(character)) {
    return problemAt(text, span, 'greek-letter', `Formulas do not read ${character}.`, 'Write the name of the letter, as in sigma_a.');
  }
  const visible = /^[\p{L}\p{N}\p{P}\p{S}]$/u.test(character);
  const shown = visible ? character : `The hidden character U+${point.toString(16).toUpperCase().padStart(4, '0')}`;
  return problemAt(text, span, 'character', `${shown} has no meaning in a formula.`, 'Take it away.');
}

export function decimalComma(text: string, span: Span, inArguments: boolean) {
  const piece = text.slice(span.start, span.end);
  const one = piece.replace(',', '.');
  return inArguments
    ? problemAt(text, span, 'decimal-comma', `${piece} can be read as one number or as two.`,
        `Write ${one} for one number, or ${piece.replace(',', ', ')} with a space for two.`)
    : problemAt(text, span, 'decimal-comma', `${piece} has a decimal comma.`, `Write ${one}.`);
}

/**
 * A number with a unit after it, as on paper. What is advised reads as it stands there, so that a quotient keeps its meaning.
 * A small letter alone is a symbol more often than a unit.
 */
export function bareUnit(text: string, span: Span, number: Span, inQuotient: boolean) {
  const digits = text.slice(number.start, number.end);
  const name = text.slice(number.end, span.end).trim();
  const bracketed = (product: string): string => (inQuotient ? `(${product})` : product);
  const asUnit = bracketed(`${digits}*unit(${name.replaceAll(' ', '')})`);
  const asSymbol = bracketed(`${digits}*${name}`);
  if (/^[a-z]$/.test(name)) return problemAt(text, span, 'bare-unit', 'A multiplication sign is missing.', `Write ${asSymbol}, or ${asUnit} for the unit.`);
  const also = isSymbolName(name) ? ` If ${name} is a symbol, write ${asSymbol}.` : '';
  return problemAt(text, span, 'bare-unit', 'A unit stands in unit( ) in a formula.', `Write ${asUnit}.${also}`);
}

export function impliedProduct(text: string, left: Span, right: Span) {
  const [first, second] = [text.slice(left.start, left.end), text.slice(right.start, right.end)];
  return problemAt(text, { start: left.start, end: right.end }, 'implied-product',
    'A multiplication sign is missing.', `Write ${quoted(first)}*${quoted(second)}.`);
}

/** Names that other places use for what formulas call differently. */
const OTHER_NAMES: ReadonlyMap<string, string> = new Map([
  ['log', 'log10( ) or ln( )'], ['lg', 'log10( )'], ['loge', 'ln( )'], ['pow', '^, as in d^4'], ['power', '^, as in d^4'],
  ['root', 'sqrt( ), or ^(1/n)'], ['arcsin', 'asin( )'], ['arccos', 'acos( )'], ['arctan', 'atan( )'], ['average', 'mean( )'],
  ['avg', 'mean( )'], ['minimum', 'min( )'], ['maximum', 'max( )'], ['units', 'unit( )'],
]);

export function unknownFunction(text: string, span: Span, name: string, near: readonly string[]) {
  const other = OTHER_NAMES.get(name.toLowerCase());
  const meant = other ?? near.map((candidate) => `${candidate}( )`).join(' or ');
  return problemAt(text, span, 'unknown-function', `${quoted(name)}( ) is not a function of formulas.`,
    meant === '' ? `For a product write ${quoted(name)}*( ).` : `Write ${meant}.`);
}

export function argumentCount(text: string, span: Span, { name, arguments: args, fewest, most }: FunctionDescription, found: number) {
  const wanted = fewest === most ? `${most}` : `${fewest} to ${most}`;
  return problemAt(text, span, 'argument-count',
    `${name}( ) takes ${wanted} ${most === 1 ? 'argument' : 'arguments'}, and ${found} ${found === 1 ? 'stands' : 'stand'} here.`,
    `Write ${name}(${args})${most === 1 ? '' : ', with commas between the arguments'}.`);
}
