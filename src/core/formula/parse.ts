import { nearNames, type Result, type Span } from '../problem/index.ts';
import type { Expression } from './types.ts';
import { FUNCTIONS, functionNamed } from './functions.ts';
import { argumentCount, decimalComma, impliedProduct, problemAt, quoted, unknownFunction } from './parse-problems.ts';
import { current, deeper, firstMixed, isSign, made, type Reading } from './reading.ts';
import { tokenise, type Sign, type Token } from './tokenise.ts';

/** Longer text is no formula that a reader could check. */
const LONGEST_FORMULA = 5000;
type Word = Extract<Token, { kind: 'word' }>;
type Binary = Exclude<Sign, 'not' | '(' | ')' | ','>;

const LEVELS: Readonly<Record<Binary, number>> = {
  or: 1, and: 2, '<': 3, '<=': 3, '>': 3, '>=': 3, '+': 4, '-': 4, '*': 5, '/': 5, '^': 7,
};
const COMPARISON = LEVELS['<'];

/**
 * Reads a formula. The tree keeps no brackets; a bracketed part's span includes them.
 *
 *     or         = and { "or" and }            comparison = sum [ ("<" | "<=" | ">" | ">=") sum ]
 *     and        = not { "and" not }           sum        = product { ("+" | "-") product }
 *     not        = { "not" } comparison        product    = signed { ("*" | "/") signed }
 *     signed     = { "-" | "+" } power         power      = primary [ "^" signed ]
 *     primary    = number | "pi" | symbol | "unit(" UNIT ")" | function "(" or { "," or } ")" | "(" or ")"
 *
 * Every problem carries the text and the span. Truths and numbers come back unmixed: conditions hold comparisons only.
 */
export function parseFormula(text: string): Result<Expression> {
  if (text.length > LONGEST_FORMULA) {
    return problemAt(text, { start: LONGEST_FORMULA, end: text.length }, 'formula-long',
      `The formula has ${text.length} characters, and ${LONGEST_FORMULA} is the most.`, 'Split it into several steps.');
  }
  const tokens = tokenise(text);
  if (!tokens.ok) return tokens;
  const reading: Reading = { text, tokens: tokens.value, place: 0, nesting: 0, heights: new WeakMap() };
  if (current(reading).kind === 'end') {
    return problemAt(text, { start: 0, end: text.length }, 'formula-empty', 'The formula is empty.', 'Write an expression, for example F*a/2.');
  }
  const e = readLevel(reading, 1);
  if (!e.ok) return e;
  const rest = current(reading);
  if (rest.kind === 'end') return e;
  return isSign(rest, ')')
    ? problemAt(text, rest.span, 'bracket-unopened', 'This closing bracket has no opening one.', 'Take it away, or add ( where it belongs.')
    : problemAt(text, rest.span, 'comma', 'A comma only separates the arguments of a function.',
        'Take it away; a decimal number has a point, as in 4.51.');
}

function binarySign(token: Token): Binary | undefined {
  return token.kind === 'sign' && token.text in LEVELS ? (token.text as Binary) : undefined;
}

/** Operations of this level and above, left to right (precedence climbing). */
function readLevel(reading: Reading, level: number): Result<Expression> {
  let left = readSigned(reading);
  while (left.ok) {
    const token = current(reading);
    const sign = binarySign(token);
    if (sign === undefined || LEVELS[sign] < level) return left;
    reading.place += 1;
    const right = readLevel(reading, LEVELS[sign] + 1);
    if (!right.ok) return right;
    left = combined(reading, sign, left.value, right.value);
  }
  return left;
}

function combined(reading: Reading, sign: Binary, left: Expression, right: Expression): Result<Expression> {
  const span = { start: left.span.start, end: right.span.end };
  const wanted = sign === 'and' || sign === 'or' ? 'truth' : 'number';
  const mixed = firstMixed(reading, wanted, sign, [left, right]);
  if (mixed !== undefined) return mixed;
  switch (sign) {
    case 'and':
    case 'or':
      return made(reading, { kind: sign, left, right, span });
    case '<':
    case '<=':
    case '>':
    case '>=': {
      const chained = chainedComparison(reading, sign, left, right);
      return chained ?? made(reading, { kind: 'comparison', operator: sign, left, right, span });
    }
    default:
      return made(reading, { kind: 'arithmetic', operator: sign, left, right, span });
  }
}

/** `a < b < c`: after a whole comparison another comparison sign. */
function chainedComparison(reading: Reading, sign: Binary, left: Expression, right: Expression): Result<Expression> | undefined {
  const next = binarySign(current(reading));
  if (next === undefined || LEVELS[next] !== COMPARISON) return undefined;
  reading.place += 1;
  const third = readLevel(reading, COMPARISON + 1);
  if (!third.ok) return third;
  const piece = (e: Expression) => quoted(reading.text.slice(e.span.start, e.span.end));
  return problemAt(reading.text, { start: left.span.start, end: third.value.span.end }, 'chained-comparison',
    'Two comparisons stand in one.',
    `Write ${piece(left)} ${sign} ${piece(right)} and ${piece(right)} ${next} ${piece(third.value)}.`);
}

/** A sign or `not` in front, then a power; a minus binds looser than ^, so -x^2 is -(x^2). */
function readSigned(reading: Reading): Result<Expression> {
  const token = current(reading);
  if (isSign(token, '+')) {
    reading.place += 1;
    return deeper(reading, () => readSigned(reading));
  }
  if (!isSign(token, '-') && !isSign(token, 'not')) return readPower(reading);
  reading.place += 1;
  const negative = isSign(token, '-');
  const operand = deeper(reading, () => (negative ? readSigned(reading) : readLevel(reading, COMPARISON)));
  if (!operand.ok) return operand;
  const mixed = firstMixed(reading, negative ? 'number' : 'truth', negative ? '-' : 'not', [operand.value]);
  if (mixed !== undefined) return mixed;
  const span = { start: token.span.start, end: operand.value.span.end };
  return made(reading, { kind: negative ? 'negative' : 'not', operand: operand.value, span });
}

/** Right associative: the exponent may have a sign and a power of its own. */
function readPower(reading: Reading): Result<Expression> {
  const base = readPrimary(reading);
  if (!base.ok) return base;
  const token = current(reading);
  if (!isSign(token, '^')) return base;
  reading.place += 1;
  const exponent = deeper(reading, () => readSigned(reading));
  return exponent.ok ? combined(reading, '^', base.value, exponent.value) : exponent;
}

function readPrimary(reading: Reading): Result<Expression> {
  const token = current(reading);
  const primary = readOperand(reading, token);
  if (!primary.ok) return primary;
  const next = current(reading);
  if (isSign(next, 'not')) {
    return problemAt(reading.text, next.span, 'word-not', 'Before not something is missing.', 'Write and not, or take not away.');
  }
  if (next.kind === 'sign' ? next.text !== '(' : next.kind === 'end') return primary;
  return impliedProduct(reading.text, primary.value.span, isSign(next, '(') ? bracketSpan(reading) : next.span);
}

function readOperand(reading: Reading, token: Token): Result<Expression> {
  if (token.kind === 'number' || token.kind === 'unit') {
    reading.place += 1;
    return made(reading, token);
  }
  if (token.kind === 'word') {
    reading.place += 1;
    return readWord(reading, token);
  }
  if (isSign(token, '(')) return readBracket(reading, token.span);
  return missingOperand(reading, token);
}

function missingOperand(reading: Reading, token: Token) {
  const before = reading.tokens[reading.place - 1];
  if (before === undefined) {
    const sign = reading.text.slice(token.span.start, token.span.end);
    return problemAt(reading.text, token.span, 'operand-missing', `Nothing stands before ${sign}.`, `Write a number or a symbol before ${sign}.`);
  }
  const sign = reading.text.slice(before.span.start, before.span.end);
  return problemAt(reading.text, before.span, 'operand-missing', `Nothing stands after ${sign}.`, `Write a number or a symbol after ${sign}.`);
}

function readBracket(reading: Reading, open: Span): Result<Expression> {
  reading.place += 1;
  const inner = deeper(reading, () => readLevel(reading, 1));
  if (!inner.ok) return inner;
  const close = current(reading);
  if (!isSign(close, ')')) {
    return isSign(close, ',')
      ? problemAt(reading.text, close.span, 'comma-in-brackets', 'A comma only separates the arguments of a function.',
          'Take it away; a decimal number has a point, as in 4.51.')
      : unclosed(reading, open);
  }
  reading.place += 1;
  return made(reading, { ...inner.value, span: { start: open.start, end: close.span.end } });
}

function unclosed(reading: Reading, open: Span) {
  return problemAt(reading.text, open, 'bracket-unclosed', 'This bracket is not closed.', 'Add ) where it ends.');
}

/** The bracket that begins here, up to its end or the end of the formula. */
function bracketSpan(reading: Reading): Span {
  const start = current(reading).span.start;
  let depth = 0;
  for (const token of reading.tokens.slice(reading.place)) {
    if (isSign(token, '(')) depth += 1;
    if (isSign(token, ')')) depth -= 1;
    if (depth === 0 || token.kind === 'end') return { start, end: token.span.end };
  }
  return { start, end: reading.text.length };
}

function readWord(reading: Reading, word: Word): Result<Expression> {
  const known = functionNamed(word.text);
  const open = current(reading);
  if (!isSign(open, '(')) {
    if (known === undefined) return made(reading, { kind: 'symbol', name: word.text, span: word.span });
    return problemAt(reading.text, word.span, 'function-brackets', `${word.text} needs its argument in brackets.`,
      `Write ${word.text}(${known.arguments}).`);
  }
  if (known === undefined) {
    return unknownFunction(reading.text, word.span, word.text, nearNames(word.text, FUNCTIONS.map((entry) => entry.name)));
  }
  return readCall(reading, word, open.span);
}

function readCall(reading: Reading, word: Word, open: Span): Result<Expression> {
  reading.place += 1;
  const args: Expression[] = [];
  while (!isSign(current(reading), ')') || args.length > 0) {
    const argument = deeper(reading, () => readLevel(reading, 1));
    if (!argument.ok) return argument;
    args.push(argument.value);
    const after = current(reading);
    if (isSign(after, ')')) break;
    if (!isSign(after, ',')) return unclosed(reading, open);
    reading.place += 1;
  }
  const span = { start: word.span.start, end: current(reading).span.end };
  reading.place += 1;
  const wrong = wrongArguments(reading, word.text, args, span);
  return wrong ?? made(reading, { kind: 'call', name: word.text, arguments: args, span });
}

function wrongArguments(reading: Reading, name: string, args: readonly Expression[], span: Span) {
  const known = functionNamed(name);
  if (known === undefined) throw new Error(`No function ${name}.`);
  if (args.length < known.fewest || args.length > known.most) {
    const comma = /(?<![\d.])\d+,\d+/.exec(reading.text.slice(span.start, span.end));
    if (comma === null) return argumentCount(reading.text, span, known, args.length);
    const start = span.start + comma.index;
    return decimalComma(reading.text, { start, end: start + comma[0].length }, true);
  }
  const [first, ...others] = args;
  if ((name === 'u' || name === 'best') && first?.kind !== 'symbol') {
    return problemAt(reading.text, first?.span ?? span, 'uncertainty-symbol', `${name}( ) takes one symbol and nothing else.`,
      `Give the expression a step of its own, and write ${name}( ) of its symbol.`);
  }
  if (name === 'if' && first !== undefined) {
    return firstMixed(reading, 'truth', 'if( )', [first]) ?? firstMixed(reading, 'number', 'if( )', others);
  }
  return firstMixed(reading, 'number', `${name}( )`, args);
}
