/**
 * Text of a document among words of ours. A sign of direction in it, closed or not, may turn what stands behind it (Unicode
 * Standard Annex 9: an embedding or override lasts to the end of its paragraph, and letters of scripts from the right draw numbers
 * beside them along). Between an isolate's two signs it turns nothing but itself; the text keeps every sign of its own.
 */

const FIRST_STRONG = '\u2068';
const END = '\u2069';

/** Signs of direction, and letters of the scripts that run from the right (blocks that are theirs in the Unicode character database). */
const TURNS = /[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;
const SIGNS = /[\u202a-\u202e\u2066-\u2069]/u;
const BEGINS = /[\u2066-\u2068]/;

/** What ends a paragraph for the algorithm, and with it every isolate; browsers make no line of some of them. */
const PARAGRAPH_ENDS = /([\n\r\u001c-\u001e\u0085\u2029])/u;

/** The text so that nothing in it turns what stands beside it. As it is where it holds nothing that could, or is isolated already. */
export function isolated(text: string): string {
  if (!TURNS.test(text) || isSelfContained(text)) return text;
  return text.split(PARAGRAPH_ENDS).map((piece) => (TURNS.test(piece) && !isSelfContained(piece) ? enclosed(piece) : piece)).join('');
}

/**
 * The same for a sentence of ours that was composed already: what it quotes, between backticks or quotation marks, is isolated piece
 * by piece. A text that holds such marks itself is only cut into more pieces.
 */
export function isolatedQuotes(sentence: string): string {
  if (!TURNS.test(sentence) || isSelfContained(sentence)) return sentence;
  return SIGNS.test(sentence) ? sentence.split(/([`“”])/u).map(isolated).join('') : isolated(sentence);
}

/** A sentence of ours with each text put into it isolated: composed`${label}, reading ${i}`. */
export function composed(strings: TemplateStringsArray, ...insertions: readonly (string | number)[]): string {
  return strings.map((part, i) => part + (insertions[i] === undefined ? '' : isolated(String(insertions[i])))).join('');
}

/** Whatever could turn its surroundings stands between an isolate's signs, each of which has its other. */
function isSelfContained(text: string): boolean {
  let depth = 0;
  for (const sign of text) {
    if (BEGINS.test(sign)) depth += 1;
    else if (sign === END && depth > 0) depth -= 1;
    else if (depth === 0 ? TURNS.test(sign) : PARAGRAPH_ENDS.test(sign)) return false;
  }
  return depth === 0;
}

/** An end that ends nothing would end ours, so it gets a beginning; a beginning without end gets one. */
function enclosed(piece: string): string {
  let [open, stray] = [0, 0];
  for (const sign of piece) {
    if (BEGINS.test(sign)) open += 1;
    else if (sign === END && open > 0) open -= 1;
    else if (sign === END) stray += 1;
  }
  return FIRST_STRONG.repeat(1 + stray) + piece + END.repeat(1 + open);
}
