/**
 * Symbols that stand in sentences as they are typed: `S_ut`, `sigma_a`. Between words they are shown as the equations show them, a letter
 * with its subscript; where text can only be plain (a tooltip, an option, what is read out) the letter and the subscript stand apart.
 */

/** Letters of Greek names. */
export const GREEK_LETTERS: ReadonlyMap<string, string> = new Map([
  ['alpha', 'α'], ['beta', 'β'], ['gamma', 'γ'], ['delta', 'δ'], ['epsilon', 'ε'], ['zeta', 'ζ'], ['eta', 'η'], ['theta', 'θ'],
  ['iota', 'ι'], ['kappa', 'κ'], ['lambda', 'λ'], ['mu', 'μ'], ['nu', 'ν'], ['xi', 'ξ'], ['rho', 'ρ'], ['sigma', 'σ'], ['tau', 'τ'],
  ['upsilon', 'υ'], ['phi', 'φ'], ['chi', 'χ'], ['psi', 'ψ'], ['omega', 'ω'], ['Gamma', 'Γ'], ['Delta', 'Δ'], ['Theta', 'Θ'],
  ['Lambda', 'Λ'], ['Xi', 'Ξ'], ['Pi', 'Π'], ['Sigma', 'Σ'], ['Upsilon', 'Υ'], ['Phi', 'Φ'], ['Psi', 'Ψ'], ['Omega', 'Ω'],
]);

/** A symbol's letters, upright or sloping after the rule of `symbolTex`. */
export interface SymbolText {
  /** As it is typed. */
  readonly name: string;
  readonly head: SymbolLetters;
  readonly below: readonly SymbolLetters[];
}

interface SymbolLetters {
  readonly text: string;
  readonly slopes: boolean;
}

/** A letter by itself in the list of what something waits for, `waits for F, F_0`. */
const WAITED_FOR = '(?<=[Ww]aits for (?:[^,.;:]{1,60}, ){0,5})[A-Za-z](?=[,.]|$| and \\d)';

/**
 * What is a symbol beyond doubt: a letter, a Greek name or `lg` with subscripts. `file_name` is a name of another kind and stays as it is, and
 * so does a symbol without a subscript, which could be a word, but where our own sentences list symbols.
 */
const SYMBOLS = new RegExp(`${WAITED_FOR}|(?<![\\w\\\\.])(?:[A-Za-z]|lg|${[...GREEK_LETTERS.keys(), 'pi'].join('|')})(?:_[A-Za-z0-9]{1,9})+(?!\\w)`, 'gu');

/** Whether a sentence may hold a symbol, told quickly. */
export function mayHoldSymbols(sentence: string): boolean {
  return sentence.includes('_') || sentence.includes('aits for ');
}

/** A sentence in pieces, each symbol one of its own. */
export function withSymbols(sentence: string): readonly (string | SymbolText)[] {
  if (!mayHoldSymbols(sentence)) return [sentence];
  const pieces: (string | SymbolText)[] = [];
  let from = 0;
  for (const { 0: name, index } of sentence.matchAll(SYMBOLS)) {
    if (index > from) pieces.push(sentence.slice(from, index));
    pieces.push(symbolText(name));
    from = index + name.length;
  }
  if (from < sentence.length) pieces.push(sentence.slice(from));
  return pieces;
}

/** A symbol's letters, as a sentence shows them. */
function symbolText(name: string): SymbolText {
  const [head = '', ...below] = name.split('_');
  const letters = (part: string, slopes: RegExp): SymbolLetters => ({ text: GREEK_LETTERS.get(part) ?? part, slopes: GREEK_LETTERS.has(part) || slopes.test(part) });
  return { name, head: letters(head, /^[A-Za-z]$/), below: below.map((part) => letters(part, /^[A-Z]$/)) };
}

/** How a sentence of ours names a symbol: as it is typed, but for a Greek name alone, which is its letter. */
export function symbolInWords(name: string): string {
  return GREEK_LETTERS.get(name) ?? name;
}

/** The sentence with its symbols for the ear and for plain text: `σ a`, `S ut`. */
export function plainSymbols(sentence: string): string {
  if (!mayHoldSymbols(sentence)) return sentence;
  return withSymbols(sentence).map((piece) => (typeof piece === 'string' ? piece : plainSymbol(piece))).join('');
}

function plainSymbol({ head, below }: SymbolText): string {
  return [head, ...below].map(({ text }) => text).join('\u202f');
}
