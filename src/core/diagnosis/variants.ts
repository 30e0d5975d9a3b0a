import { dependsOn, literalNumber, operandsOf, referencedSymbols } from '../formula/index.ts';
import type { Expression } from '../formula/types.ts';
import { counterpart, sameDimension } from '../units/index.ts';
import type { Unit } from '../units/types.ts';
import type { Quantity, Slip, Working } from './types.ts';

/** A formula with one thing done wrongly in it. */
interface Variant {
  readonly formula: Expression;
  readonly slip: Slip;
  readonly tier: number;
}

type Arithmetic = Extract<Expression, { kind: 'arithmetic' }>;
type Call = Extract<Expression, { kind: 'call' }>;
type Wrongly = Omit<Variant, 'formula'> & { readonly to: Expression };

const NOWHERE = { start: 0, end: 0 };

const binary = (operator: Arithmetic['operator'], left: Expression, right: Expression): Expression => ({ kind: 'arithmetic', operator, left, right, span: NOWHERE });
const unitNode = (unit: Unit): Expression => ({ kind: 'unit', unit, span: NOWHERE });
const call = (name: string, ...args: readonly Expression[]): Expression => ({ kind: 'call', name, arguments: args, span: NOWHERE });

/** Everything that can be done wrongly at one place of a formula, and with one of its symbols wherever it stands. */
export function* variantsOf(formula: Expression, working: Working): Iterable<Variant> {
  yield* atEachPlace(formula, working);
  yield* throughout(formula, working);
}

function* atEachPlace(e: Expression, working: Working): Iterable<Variant> {
  for (const { to, slip, tier } of here(e, working)) yield { formula: to, slip, tier };
  const parts = operandsOf(e);
  for (const [i, part] of parts.entries()) {
    for (const { formula, slip, tier } of atEachPlace(part, working)) yield { formula: withOperand(e, i, formula), slip, tier };
  }
}

/** The expression with another one in the place of its operand `i`, counted as `operandsOf` does. */
function withOperand(e: Expression, i: number, operand: Expression): Expression {
  switch (e.kind) {
    case 'number':
    case 'symbol':
    case 'unit':
      return e;
    case 'negative':
    case 'not':
      return { ...e, operand };
    case 'call':
      return { ...e, arguments: e.arguments.map((one, place) => (place === i ? operand : one)) };
    default:
      return i === 0 ? { ...e, left: operand } : { ...e, right: operand };
  }
}

function here(e: Expression, working: Working): readonly Wrongly[] {
  if (e.kind === 'symbol') return atSymbol(e, working);
  if (e.kind === 'arithmetic') return atArithmetic(e, working);
  if (e.kind === 'call') return atCall(e);
  if (e.kind === 'negative') return [{ to: e.operand, slip: { kind: 'sign inside', part: e }, tier: 1.8 }];
  return e.kind === 'number' ? atNumber(e) : [];
}

/** At one of the places where a symbol stands alone: the same throughout is found elsewhere. */
function atSymbol({ name }: Extract<Expression, { kind: 'symbol' }>, working: Working): readonly Wrongly[] {
  const own = working.quantity(name);
  return referencedSymbols(working.formula).flatMap((taken): Wrongly[] => {
    const other = working.quantity(taken);
    if (taken === name || own === undefined || other === undefined || !sameDimension(own.unit.dimension, other.unit.dimension)) return [];
    return [{ to: { kind: 'symbol', name: taken, span: NOWHERE }, slip: { kind: 'another symbol', symbol: name, taken }, tier: 2.6 }];
  });
}

/** π forgotten; other numbers are looked at where they multiply or divide. */
function atNumber(e: Extract<Expression, { kind: 'number' }>): readonly Wrongly[] {
  if (e.text === 'pi') return [{ to: literalNumber(1), slip: { kind: 'left out', part: e }, tier: 2 }];
  return [];
}

function atArithmetic(e: Arithmetic, working: Working): readonly Wrongly[] {
  const { left, right } = e;
  switch (e.operator) {
    case '+':
    case '-':
      return [
        { to: binary(e.operator === '+' ? '-' : '+', left, right), slip: { kind: 'sign inside', part: e }, tier: 1.8 },
        ...(reads(right) ? [{ to: left, slip: { kind: 'left out', part: right }, tier: 2 } as const] : []),
        ...(reads(left) ? [{ to: e.operator === '+' ? right : ({ kind: 'negative', operand: right, span: NOWHERE } as const), slip: { kind: 'left out', part: left }, tier: 2 } as const] : []),
      ];
    case '*':
      return [
        ...leftOut(left, right, working), ...leftOut(right, left, working),
        ...[[left, right] as const, [right, left] as const].flatMap(([one, other]): Wrongly[] =>
          (one.kind === 'symbol' && reads(other) ? [{ to: binary('/', other, overItsSquare(one, working)), slip: { kind: 'divided', part: one }, tier: 3 }] : [])),
      ];
    case '/':
      return [
        ...without(right, working).map(({ to, part }): Wrongly => ({ to: binary('/', left, to), slip: { kind: 'left out', part }, tier: 2 })),
        ...without(left, working).map(({ to, part }): Wrongly => ({ to: binary('/', to, right), slip: { kind: 'left out', part }, tier: 2 })),
        { to: binary('*', left, overItsSquare(right, working)), slip: { kind: 'multiplied', part: right }, tier: 3 },
        ...(reads(left) && reads(right) ? [{ to: turned(e, working), slip: { kind: 'turned over', part: e }, tier: 3 } as const] : []),
      ];
    case '^':
      return atPower(left, right, working);
  }
}

const reads = (e: Expression): boolean => referencedSymbols(e).length > 0;

function leftOut(part: Expression, rest: Expression, working: Working): readonly Wrongly[] {
  return without(part, working).map(({ to, part: gone }) => ({ to: binary('*', to, rest), slip: { kind: 'left out', part: gone }, tier: 2 }));
}

/** A factor by the unit that its number stands in: what is left where its number is forgotten. Only a plain symbol, a power of one, or a number has one. */
function without(part: Expression, working: Working): readonly { readonly to: Expression; readonly part: Expression }[] {
  const unit = unitOf(part, working);
  return unit === undefined ? [] : [{ to: unit, part }];
}

/** What stands for 1 in the unit of a factor. */
function unitOf(part: Expression, working: Working): Expression | undefined {
  if (part.kind === 'number') return part.value === 1 || part.text === 'pi' ? undefined : literalNumber(1);
  if (part.kind === 'symbol') {
    const unit = working.quantity(part.name)?.unit;
    return unit === undefined || unit.offset !== 0 ? undefined : unitNode(unit);
  }
  if (part.kind === 'arithmetic' && part.operator === '^' && part.left.kind === 'symbol') {
    const unit = unitOf(part.left, working);
    return unit === undefined ? undefined : binary('^', unit, part.right);
  }
  return undefined;
}

/** A quantity over the square of its unit: `a * b` for `a / b`, or `a / b` for `a * b`, as it comes out in numbers. */
function overItsSquare(divisor: Expression, working: Working): Expression {
  const unit = numbersUnit(divisor, working);
  return unit === undefined ? divisor : binary('/', divisor, binary('^', unit, literalNumber(2)));
}

/** The product of the units in which the numbers of a product, a quotient or a power stand; undefined where a sum or a function is among them. */
function numbersUnit(e: Expression, working: Working): Expression | undefined {
  if (e.kind === 'number') return literalNumber(1);
  if (e.kind === 'symbol') return unitOf(e, working);
  if (e.kind !== 'arithmetic') return undefined;
  const left = numbersUnit(e.left, working);
  if (left === undefined) return undefined;
  if (e.operator === '^') return binary('^', left, e.right);
  if (e.operator === '+' || e.operator === '-') return left;
  const right = numbersUnit(e.right, working);
  return right === undefined ? undefined : binary(e.operator, left, right);
}

/** `b / a` for `a / b`, in the numbers as they stand in their units. */
function turned(e: Arithmetic, working: Working): Expression {
  const unit = numbersUnit(e, working);
  const over = binary('/', e.right, e.left);
  return unit === undefined ? over : binary('*', over, binary('^', unit, literalNumber(2)));
}

function atPower(base: Expression, exponent: Expression, working: Working): readonly Wrongly[] {
  const found: Wrongly[] = [];
  const part = binary('^', base, exponent);
  const n = exponent.kind === 'number' ? exponent.value : undefined;
  const unit = numbersUnit(base, working);
  if (n !== undefined && Number.isInteger(n) && n > 1 && unit !== undefined) {
    for (const taken of [n - 1, n + 1]) {
      // In numbers: what is missing of the dimension is made up by units.
      const to = binary('*', binary('^', base, literalNumber(taken)), binary('^', unit, literalNumber(n - taken)));
      found.push({ to, slip: { kind: 'power', part, right: n, taken }, tier: 2 });
    }
    if (n > 2) found.push({ to: binary('*', binary('^', base, literalNumber(n - 2)), binary('^', unit, literalNumber(2))), slip: { kind: 'power', part, right: n, taken: n - 2 }, tier: 3 });
  }
  if (base.kind === 'number' && reads(exponent)) found.push({ to: exponent, slip: { kind: 'function left out', part, name: '10^' }, tier: 2 });
  if (n === undefined && base.kind !== 'number') {
    found.push({ to: binary('^', base, { kind: 'negative', operand: exponent, span: NOWHERE }), slip: { kind: 'sign of a power', part }, tier: 2 });
    found.push({ to: binary('^', base, binary('/', literalNumber(1), exponent)), slip: { kind: 'turned over', part: exponent }, tier: 2 });
    found.push({ to: base, slip: { kind: 'left out', part: exponent }, tier: 2 });
  }
  return found;
}

/** Functions mistaken for one another or left out. */
function atCall(e: Call): readonly Wrongly[] {
  const [x] = e.arguments;
  if (x === undefined) return [];
  const forgotten = (tier: number): Wrongly => ({ to: x, slip: { kind: 'function left out', part: e, name: e.name }, tier });
  switch (e.name) {
    case 'ln':
      return [{ to: call('log10', x), slip: { kind: 'logarithm', part: e }, tier: 2 }, forgotten(3)];
    case 'log10':
      return [{ to: call('ln', x), slip: { kind: 'logarithm', part: e }, tier: 2 }, forgotten(3)];
    case 'exp':
      return [{ to: binary('^', literalNumber(10), x), slip: { kind: 'logarithm', part: e }, tier: 2 }];
    case 'sqrt':
    case 'cbrt':
      return [forgotten(2)];
    case 'sin':
    case 'cos':
    case 'tan':
      return [{ to: call(e.name, binary('*', x, literalNumber(180 / Math.PI))), slip: { kind: 'degrees', part: e }, tier: 2 }];
    default:
      return [];
  }
}

/** One symbol put in wrongly wherever the formula has it. */
function* throughout(formula: Expression, working: Working): Iterable<Variant> {
  const symbols = referencedSymbols(formula).filter((name) => dependsOn(formula, name));
  for (const symbol of symbols) {
    const own = working.quantity(symbol);
    if (own === undefined) continue;
    const put = (to: Expression): Expression => replaced(formula, new Map([[symbol, to]]));
    const self: Expression = { kind: 'symbol', name: symbol, span: NOWHERE };
    for (const factor of [0.5, 2]) yield { formula: put(binary('*', self, literalNumber(factor))), slip: { kind: 'times', symbol, factor }, tier: isRaised(symbol, formula) ? 1.6 : 2.1 };
    for (const unit of mistakableUnits(own.unit)) {
      yield { formula: put(binary('*', self, literalNumber(unit.factor / own.unit.factor))), slip: { kind: 'symbol in unit', symbol, from: own.unit, to: unit }, tier: 3 };
    }
    for (const power of [-3, -2, -1, 1, 2, 3]) {
      yield { formula: put(binary('*', self, literalNumber(10 ** power))), slip: { kind: 'times', symbol, factor: 10 ** power }, tier: 3 };
    }
    for (const number of withTurnedDigits(own)) {
      yield { formula: put(binary('*', literalNumber(number), unitNode(own.unit))), slip: { kind: 'digits inside', symbol }, tier: 3.4 };
    }
    for (const taken of working.near) {
      const other = working.quantity(taken);
      if (taken === symbol || other === undefined || !sameDimension(other.unit.dimension, own.unit.dimension)) continue;
      const name: Expression = { kind: 'symbol', name: taken, span: NOWHERE };
      yield { formula: put(name), slip: { kind: 'another symbol', symbol, taken }, tier: symbols.includes(taken) ? 2.2 : isAlike(symbol, taken) ? 2.4 : 3 };
      if (symbols.includes(taken) && symbol < taken) {
        yield { formula: replaced(formula, new Map([[symbol, name], [taken, self]])), slip: { kind: 'changed places', symbol, taken }, tier: 2 };
      }
    }
  }
}

/** Digits of a number that somebody copies from the page. */
const COPIED = 5;

/** The number of a quantity in its unit, as it is copied, with two neighbouring digits changed: each pair once. */
function withTurnedDigits({ value, unit }: Quantity): readonly number[] {
  if (unit.offset !== 0) return [];
  const text = String(Number(Math.abs(value / unit.factor).toPrecision(COPIED)));
  if (!/^\d+(?:\.\d+)?$/u.test(text)) return [];
  const places = [...text].flatMap((sign, i) => (sign === '.' ? [] : [i]));
  return places.slice(1).flatMap((place, i): number[] => {
    const before = places[i] ?? 0;
    if (text[place] === text[before]) return [];
    const turned = [...text];
    [turned[before], turned[place]] = [text[place] ?? '', text[before] ?? ''];
    return [Math.sign(value) * Number(turned.join(''))];
  });
}

/** Whether a power of the symbol stands in the formula: there a radius is taken for a diameter. */
function isRaised(symbol: string, e: Expression): boolean {
  if (e.kind === 'arithmetic' && e.operator === '^' && e.left.kind === 'symbol' && e.left.name === symbol) return true;
  return operandsOf(e).some((part) => isRaised(symbol, part));
}

/** Of one letter with different subscripts: R_A and R_B. */
function isAlike(a: string, b: string): boolean {
  return a.split('_')[0] === b.split('_')[0];
}

/** All symbols at once: one put in for another is not replaced again. */
function replaced(e: Expression, by: ReadonlyMap<string, Expression>): Expression {
  if (e.kind === 'symbol') return by.get(e.name) ?? e;
  if (e.kind === 'call' && e.name === 'u') return e;
  return operandsOf(e).reduce((made, part, i) => withOperand(made, i, replaced(part, by)), e);
}

/** The unit of the other system, both ways. */
export function mistakableUnits(unit: Unit): readonly Unit[] {
  if (unit.offset !== 0) return [];
  return (['US customary', 'SI'] as const).map((system) => counterpart(unit, system)).filter((other) => other.name !== unit.name && other.offset === 0);
}
