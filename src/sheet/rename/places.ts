import { isMap, isScalar, isSeq } from 'yaml';
import type { ParsedNode } from 'yaml';
import type { Holds } from '../reference/holds.ts';
import { entriesOf, type Entry } from '../yaml-body.ts';

/** A stretch of a body in which symbols may stand, and how they stand there. */
interface SymbolPlace {
  readonly start: number;
  readonly end: number;
  readonly how: Extract<Holds, string>;
}

/** Every such stretch below keys of a body. @param holds what each key holds */
export function symbolPlaces(entries: readonly Entry[], holds: Readonly<Record<string, Holds | undefined>>): readonly SymbolPlace[] {
  return entries.flatMap(({ key, node }) => {
    const held = Object.hasOwn(holds, key) ? holds[key] : undefined;
    return held === undefined || node === undefined ? [] : placesIn(node, held);
  });
}

function placesIn(node: ParsedNode, holds: Holds): readonly SymbolPlace[] {
  if (isSeq(node)) return (node.items as ParsedNode[]).flatMap((item) => placesIn(item, holds));
  if (typeof holds === 'string') {
    if (isScalar(node)) return node.range ? [{ start: node.range[0], end: node.range[1], how: holds }] : [];
    // A list of texts may have keys of its own, as an item that was ticked.
    return isMap(node) ? entriesOf(node).flatMap((entry) => (entry.node === undefined ? [] : placesIn(entry.node, holds))) : [];
  }
  if (!isMap(node)) return [];
  const entries = entriesOf(node);
  if ('keys' in holds) return symbolPlaces(entries, holds.keys);
  const { names, values } = holds;
  return entries.flatMap((entry) => [
    ...(names === undefined ? [] : [{ start: entry.keyStart, end: entry.keyEnd, how: names } as const]),
    ...(values === undefined || entry.node === undefined ? [] : placesIn(entry.node, values)),
  ]);
}

const WORD = /[A-Za-z][A-Za-z0-9_]*/uy;
const NUMBER = /(?:\d+(?:\.\d*|,\d+)?|\.\d+)(?:[eE][+-]?\d+)?/uy;
/** Behind a number: a unit as it is written, up to a blank, a bracket or a word that joins two quantities. */
const UNIT_BEHIND = /\s*[A-Za-z°µμ%Ω][A-Za-z0-9°µμ%·*/^.²³-]*/uy;

/** The text with one symbol in place of another, by how symbols stand in it. */
export function withSymbol(text: string, how: SymbolPlace['how'], from: string, to: string): string {
  if (how === 'told') return text.replace(/\{=([^{}\n]*)\}/gu, (whole, inner: string) => (inner.trim() === from ? `{=${to}}` : whole));
  if (how === 'lines') return text.replace(/([^;'"]+?)(\s+(?:at once|left out)\s*(?:;|$|['"]))/gu, (whole, id: string, rest: string) => (id.trim() === from ? id.replace(from, to) + rest : whole));
  // The id of a choice follows.
  if (/^['"]?(?:choice|by)\s/u.test(text)) return text;
  let result = '';
  for (let at = 0; at < text.length;) {
    const [piece, word] = pieceAt(text, at, how);
    result += word === from && isSymbolHere(text, at, word, how) ? to : piece;
    at += piece.length;
  }
  return result;
}

/** What stands at a place as one piece, and the word that it is, where it is one. */
function pieceAt(text: string, at: number, how: SymbolPlace['how']): readonly [piece: string, word: string | undefined] {
  const word = matchAt(WORD, text, at);
  if (word === 'unit' && how !== 'symbols' && /^unit\s*\(/u.test(text.slice(at, at + 20))) return [unitCall(text, at), undefined];
  if (word !== undefined) return [word, word];
  const number = matchAt(NUMBER, text, at);
  if (number === undefined) return [text[at] ?? '', undefined];
  return [number + (how === 'mixed' ? (matchAt(UNIT_BEHIND, text, at + number.length) ?? '') : ''), undefined];
}

/** No function, and no name behind a point: `radius` in `I.radius`. */
function isSymbolHere(text: string, at: number, word: string, how: SymbolPlace['how']): boolean {
  return how === 'symbols' ? text[at - 1] !== '.' : !/^\s*\(/u.test(text.slice(at + word.length));
}

function unitCall(text: string, at: number): string {
  let depth = 0;
  for (let i = at; i < text.length; i += 1) {
    if (text[i] === '(') depth += 1;
    if (text[i] === ')') depth -= 1;
    if (text[i] === ')' && depth === 0) return text.slice(at, i + 1);
  }
  return text.slice(at);
}

function matchAt(pattern: RegExp, text: string, at: number): string | undefined {
  pattern.lastIndex = at;
  return pattern.exec(text)?.[0];
}
