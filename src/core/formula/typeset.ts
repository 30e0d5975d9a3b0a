import { unitTex } from '../units/index.ts';
import type { ArithmeticOperator, Expression } from './types.ts';
import { symbolTex } from './symbol-tex.ts';

/** How tightly a typeset piece holds together; looser pieces get brackets. */
const CASES = 0;
const OR = 1;
const AND = 2;
const COMPARISON = 3;
const SUM = 4;
const NEGATIVE = 5;
const PRODUCT = 6;
/** A fraction, root or function: needs no brackets among factors, but does under an exponent. */
const TALL = 7;
const POWER = 8;
const ATOM = 9;

interface Piece {
  readonly tex: string;
  readonly level: number;
  /** Ends (starts) in a numeral or a number with unit, so that a neighbour in a product needs a visible dot. */
  readonly endsInNumber?: boolean;
  readonly startsWithNumber?: boolean;
}

interface Style {
  readonly symbol: (name: string) => Piece;
  /** u(name), or its power. */
  readonly uncertainty: (name: string, exponent?: string) => Piece;
  /** In exponents a quotient is written in line. */
  readonly inLine: boolean;
}

type Arithmetic = Extract<Expression, { kind: 'arithmetic' }>;

/** The formula in symbols, as TeX for KaTeX. Everything in it comes from this folder's tables or a checked symbol name. */
export function typeset(e: Expression, named: ReadonlyMap<string, string> = new Map()): string {
  const symbol = (name: string): Piece => {
    const own = named.get(name);
    return own === undefined ? { tex: symbolTex(name), level: ATOM } : { tex: own, level: TALL };
  };
  return piece(e, { symbol, uncertainty: uncertaintyPiece, inLine: false }).tex;
}

/**
 * The formula with each symbol replaced by its number, as TeX.
 * @param numberTex trusted TeX of the symbol's value with its unit, as `101.3\,\mathrm{mm}`; brackets are put where needed
 * @param uncertaintyTex the same for u(symbol); left out, `u(x)` stays as it is
 */
export function typesetSubstituted(
  e: Expression,
  numberTex: (symbolName: string) => string,
  uncertaintyTex?: (symbolName: string) => string,
): string {
  const numbered = (name: string, exponent?: string): Piece => {
    if (uncertaintyTex === undefined) return uncertaintyPiece(name, exponent);
    const number = numberPiece(uncertaintyTex(name));
    return exponent === undefined ? number : raised(number, exponent);
  };
  return piece(e, { symbol: (name) => numberPiece(numberTex(name)), uncertainty: numbered, inLine: false }).tex;
}

function numberPiece(tex: string): Piece {
  const edges = { startsWithNumber: true, endsInNumber: true };
  if (/^\s*[-\u2212]/.test(tex)) return { tex, level: NEGATIVE, ...edges };
  return { tex, level: /^[\d.]+(\\,\d+)*$/.test(tex) ? ATOM : PRODUCT, ...edges };
}

function bracketed(part: Piece, least: number): Piece {
  return part.level >= least ? part : { tex: `\\left(${part.tex}\\right)`, level: ATOM };
}

function piece(e: Expression, style: Style): Piece {
  switch (e.kind) {
    case 'number':
      return literalPiece(e.text);
    case 'symbol':
      return style.symbol(e.name);
    case 'unit': {
      const tex = unitTex(e.unit);
      if (tex === '') return { tex: '1', level: ATOM, startsWithNumber: true, endsInNumber: true };
      return { tex, level: /^\\mathrm\{[A-Za-z]+\}$/.test(tex) ? ATOM : PRODUCT };
    }
    case 'negative':
      return negativePiece(piece(e.operand, style));
    case 'arithmetic':
      return arithmeticPiece(e, style);
    case 'call':
      return callPiece(e.name, e.arguments, style);
    case 'comparison': {
      const sign = { '<': '<', '<=': '\\le', '>': '>', '>=': '\\ge' }[e.operator];
      return { tex: `${inside(e.left, style, SUM)} ${sign} ${inside(e.right, style, SUM)}`, level: COMPARISON };
    }
    case 'and':
    case 'or': {
      const level = e.kind === 'and' ? AND : OR;
      return { tex: `${inside(e.left, style, level)}\\ \\text{${e.kind}}\\ ${inside(e.right, style, level)}`, level };
    }
    case 'not':
      return { tex: `\\text{not}\\ ${inside(e.operand, style, ATOM)}`, level: COMPARISON };
  }
}

function inside(e: Expression, style: Style, least: number): string {
  return bracketed(piece(e, style), least).tex;
}

/** `1e3` is a power of ten; digits stay as they were typed. */
function literalPiece(text: string): Piece {
  if (text === 'pi') return { tex: '\\pi', level: ATOM };
  const edges = { startsWithNumber: true, endsInNumber: true };
  const [mantissa = '', exponent] = text.toLowerCase().split('e');
  const digits = mantissa.replace(/^\./, '0.').replace(/\.$/, '');
  if (exponent === undefined) return { tex: digits, level: ATOM, ...edges };
  const power = `10^{${Number(exponent)}}`;
  return Number(digits) === 1
    ? { tex: power, level: POWER, ...edges }
    : { tex: `${digits} \\cdot ${power}`, level: PRODUCT, ...edges };
}

function negativePiece(operand: Piece): Piece {
  const { tex } = bracketed(operand, PRODUCT);
  return { tex: `-${tex}`, level: NEGATIVE, startsWithNumber: true, ...(operand.endsInNumber === true ? { endsInNumber: true } : {}) };
}

function arithmeticPiece(e: Arithmetic, style: Style): Piece {
  switch (e.operator) {
    case '+':
    case '-':
      return sumPiece(e.operator, piece(e.left, style), piece(e.right, style));
    case '*':
      return productPiece(piece(e.left, style), piece(e.right, style));
    case '/':
      return quotientPiece(e, style);
    case '^':
      return powerPiece(e, style);
  }
}

function powerPiece(e: Arithmetic, style: Style): Piece {
  const exponent = piece(e.right, { ...style, inLine: true }).tex;
  // The GUM writes the square of u(x) as u^2(x).
  if (e.left.kind === 'call' && e.left.name === 'u') return style.uncertainty(uncertainSymbol(e.left.arguments), exponent);
  return raised(piece(e.left, style), exponent);
}

function raised(base: Piece, exponent: string): Piece {
  return { tex: `${bracketed(base, ATOM).tex}^{${exponent}}`, level: POWER };
}

function sumPiece(operator: ArithmeticOperator, left: Piece, right: Piece): Piece {
  // a + (b - c) and a + b - c are the same; a - (b - c) is not.
  const leastRight = operator === '+' && right.level === SUM ? SUM : PRODUCT;
  return { tex: `${bracketed(left, SUM).tex} ${operator} ${bracketed(right, leastRight).tex}`, level: SUM };
}

/** Letters stand side by side with a thin space; a number behind something, or two numbers, with a dot. */
function productPiece(left: Piece, right: Piece): Piece {
  const first = bracketed(left, NEGATIVE);
  const second = bracketed(right, PRODUCT);
  const dot = second.startsWithNumber === true || (right.startsWithNumber === true && left.endsInNumber === true);
  return {
    tex: `${first.tex}${dot ? ' \\cdot ' : '\\,'}${second.tex}`,
    level: first.level === NEGATIVE ? NEGATIVE : PRODUCT,
    startsWithNumber: first.startsWithNumber === true,
    endsInNumber: second.endsInNumber === true,
  };
}

/** A fraction; in line in exponents, and where a single symbol is divided by a unit, as ISO 80000-1 writes its numerical value. */
function quotientPiece(e: Arithmetic, style: Style): Piece {
  const left = piece(e.left, style);
  const right = piece(e.right, style);
  const ofUnit = e.right.kind === 'unit' && left.level === ATOM && left.endsInNumber !== true;
  if (style.inLine || ofUnit) {
    const above = bracketed(left, NEGATIVE);
    return { tex: `${above.tex}/${bracketed(right, TALL).tex}`, level: above.level === NEGATIVE ? NEGATIVE : PRODUCT };
  }
  return { tex: `\\frac{${left.tex}}{${right.tex}}`, level: TALL };
}

/** Functions with upright names of their own in TeX. */
const NAMES: ReadonlyMap<string, string> = new Map([
  ['ln', '\\ln'], ['log10', '\\log_{10}'], ['exp', '\\exp'], ['normal', '\\Phi'], ['min', '\\min'], ['max', '\\max'], ['mean', '\\operatorname{mean}'],
  ['sin', '\\sin'], ['cos', '\\cos'], ['tan', '\\tan'], ['asin', '\\arcsin'], ['acos', '\\arccos'], ['atan', '\\arctan'],
  ['reversals', '\\operatorname{reversals}'],
]);

function callPiece(name: string, parts: readonly Expression[], style: Style): Piece {
  if (name === 'u') return style.uncertainty(uncertainSymbol(parts));
  const distribution = distributionPiece(name, parts, style);
  if (distribution !== undefined) return distribution;
  const texts = parts.map((part) => piece(part, style).tex);
  const list = texts.join(',\\, ');
  switch (name) {
    case 'sqrt':
      return { tex: `\\sqrt{${list}}`, level: TALL };
    case 'cbrt':
      return { tex: `\\sqrt[3]{${list}}`, level: TALL };
    case 'abs':
      return { tex: `\\left\\lvert ${list}\\right\\rvert`, level: ATOM };
    case 'best':
      // A number put in for the symbol stands for itself.
      return parts[0]?.kind === 'symbol' && texts[0] === symbolTex(parts[0].name) ? { tex: `\\widehat{${list}}`, level: ATOM } : style.symbol(uncertainSymbol(parts));
    case 'macaulay':
      return { tex: `\\left\\langle ${list}\\right\\rangle`, level: ATOM };
    case 'if':
      return { tex: `\\begin{cases} ${texts[1]} & \\text{if}\\ ${texts[0]} \\\\ ${texts[2]} & \\text{otherwise} \\end{cases}`, level: CASES };
    default: {
      const upright = NAMES.get(name);
      if (upright === undefined) throw new Error(`${name} can't be typeset.`);
      return { tex: `${upright}\\left(${list}\\right)`, level: TALL };
    }
  }
}

/** Letters of distributions, as the trade's tables head them. */
const DISTRIBUTIONS: ReadonlyMap<string, string> = new Map([['normal', 'z'], ['student', 't'], ['chi_square', '\\chi^2'], ['fisher', 'F']]);

/** A quantile has share and degrees of freedom below its letter; a share is a probability, with the degrees of freedom below the letter. */
function distributionPiece(name: string, parts: readonly Expression[], style: Style): Piece | undefined {
  const [, distribution = '', what] = /^(.*?)(_density|_quantile)?$/.exec(name) ?? [];
  const letter = DISTRIBUTIONS.get(distribution);
  const [first] = parts;
  if (letter === undefined || first === undefined || name === 'normal') return undefined;
  const [x = '', ...degrees] = parts.map((part, i) => piece(part, i > 0 || what === '_quantile' ? { ...style, inLine: true } : style).tex);
  if (what === '_quantile') return { tex: `${letter}_{${[x, ...degrees].join(',\\,')}}`, level: TALL };
  const below = `_{${degrees.join(',\\,')}}`;
  const tex = what === '_density' ? `f_{${letter}${below}}\\left(${x}\\right)` : `P\\left(${letter}${below} \\le ${x}\\right)`;
  return { tex, level: TALL };
}

function uncertainSymbol([symbol]: readonly Expression[]): string {
  if (symbol?.kind !== 'symbol') throw new Error('u( ) and best( ) take a symbol.');
  return symbol.name;
}

function uncertaintyPiece(name: string, exponent?: string): Piece {
  const letter = exponent === undefined ? 'u' : `u^{${exponent}}`;
  return { tex: `${letter}\\left(${symbolTex(name)}\\right)`, level: exponent === undefined ? ATOM : POWER };
}
