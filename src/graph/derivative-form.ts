import {
  dependsOn, differentiate, exponentOf, inForce, leavesOf, productOf, quotientOf, referencedSymbols, sumOf, symbolNode, type Definitions, type Expression,
} from '../core/formula/index.ts';
import { remembered } from '../core/remembered/index.ts';
import { readingOf } from './inputs.ts';
import { expressionOf, hangsOn } from './slopes.ts';
import type { SheetStates } from './types.ts';

/** A derivative as a formula that is short enough to be read. */
export interface DerivativeForm {
  readonly expression: Expression;
  /** Names in it that stand for the derivative of a symbol with respect to the same input: `∂R_A` for ∂R_A/∂s_1. */
  readonly inner: ReadonlyMap<string, string>;
}

/** Symbols and numbers that a formula may have to be called simple. */
const SIMPLE = 7;
/** What is so short is put in where it belongs. */
const TINY = 2;
/** More terms than these are no longer seen through. */
const MOST_TERMS = 2;

/**
 * d(result)/d(input) as a formula where that is simple: a power law `−3·σ/d`, else by the result's own formula, with what
 * lies between left as derivatives: `x_s·∂R_A/∂s_1 + F_1`. Of `if`, `min` and the like the branch in force counts.
 * Undefined where there is no simple one.
 */
export function derivativeForm(result: string, input: string, states: SheetStates): DerivativeForm | undefined {
  const form = formOf(result, input, { states, definitions: definitionsIn(states), isInner: false });
  return form === undefined || leavesOf(form.expression) > SIMPLE ? undefined : form;
}

/** Where a derivative is looked for. */
interface Place {
  readonly states: SheetStates;
  readonly definitions: Definitions;
  /** Whether it is to be put into another one. */
  readonly isInner: boolean;
}

const definitionsIn = remembered((states: SheetStates): Definitions => ({
  ...readingOf(states.symbol),
  // A symbol on a loop has no value, and so no formula here.
  definition: (name) => (states.symbol(name)?.status === 'value' ? expressionOf(name, states) : undefined),
}));

function formOf(result: string, input: string, place: Place): DerivativeForm | undefined {
  const { definitions } = place;
  const formula = definitions.definition(result);
  if (formula === undefined) return undefined;
  const law = powerLaw(result, input, exponentOf(formula, input, definitions), definitions);
  const chain = chainRule(result, input, inForce(formula, definitions), place);
  if (law === undefined) return chain;
  if (chain === undefined || chain.inner.size > 0) return { expression: law, inner: new Map() };
  return leavesOf(chain.expression) <= leavesOf(law) ? chain : { expression: law, inner: new Map() };
}

/** p·y/x, as long as neither is zero. */
function powerLaw(result: string, input: string, power: Expression | undefined, { value }: Definitions): Expression | undefined {
  if (power === undefined || value(result) === 0 || value(input) === 0 || leavesOf(power) > SIMPLE - 2) return undefined;
  const [y, x] = [symbolNode(result), symbolNode(input)];
  if (power.kind === 'arithmetic' && power.operator === '/') return quotientOf(productOf(power.left, y), productOf(power.right, x));
  return quotientOf(productOf(power, y), x);
}

function chainRule(result: string, input: string, formula: Expression, place: Place): DerivativeForm | undefined {
  const ways = referencedSymbols(formula).filter((name) => dependsOn(formula, name) && (name === input || hangsOn(name, input, place.states)));
  if (ways.length === 0 || ways.length > MOST_TERMS) return undefined;
  const inner = new Map<string, string>();
  let total: Expression | undefined;
  for (const way of ways) {
    const outer = partial(result, way, formula, place.definitions);
    if (outer === undefined) return undefined;
    const term = way === input ? outer : productOf(outer, innerDerivative(way, input, place, inner));
    total = total === undefined ? term : sumOf(total, term);
  }
  return total === undefined ? undefined : { expression: total, inner };
}

/** The derivative by one symbol of the formula, the shorter of two ways to write it. */
function partial(result: string, way: string, formula: Expression, definitions: Definitions): Expression | undefined {
  const plain = differentiate(formula, way);
  // The other symbols of the formula are fixed, whatever stands behind them.
  const power = exponentOf(formula, way, { ...definitions, definition: () => undefined });
  const law = powerLaw(result, way, power, definitions);
  const shorter = law !== undefined && leavesOf(law) < leavesOf(plain) ? law : plain;
  return leavesOf(shorter) > SIMPLE ? undefined : shorter;
}

/** Put in where it is tiny, else named. */
function innerDerivative(way: string, input: string, place: Place, inner: Map<string, string>): Expression {
  const known = place.isInner ? undefined : formOf(way, input, { ...place, isInner: true });
  if (known !== undefined && known.inner.size === 0 && leavesOf(known.expression) <= TINY) return known.expression;
  inner.set(`∂${way}`, way);
  return symbolNode(`∂${way}`);
}
