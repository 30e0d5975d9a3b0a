import { fromSI, quantityText, sameDimension, TEMPERATURE_DIMENSION, type Unit } from '../core/units/index.ts';
import type { Expression } from '../core/formula/types.ts';
import type { Problem } from '../core/problem/index.ts';
import type { SymbolState } from './types.ts';

type States = ReadonlyMap<string, SymbolState>;

/**
 * What has to be asked of a formula that reads temperatures in °C or °F: a product or quotient takes them from absolute zero,
 * and a difference of two is no temperature. Neither is wrong by itself, and both are usually meant otherwise.
 * @param unit in which the result is shown
 */
export function temperatureQuestions(formula: Expression, states: States, key: string, unit?: Unit): readonly Problem[] {
  if (![...states.values()].some(({ unit: read }) => (read?.offset ?? 0) !== 0)) return [];
  const onScale = (e: Expression): boolean => e.kind === 'symbol' && (states.get(e.name)?.unit?.offset ?? 0) !== 0;
  const factors = new Set<string>();
  visit(formula, (factor) => {
    if (factor.kind === 'symbol' && onScale(factor)) factors.add(factor.name);
  });
  const isDifference = unit !== undefined && unit.offset !== 0 && formula.kind === 'arithmetic' && formula.operator === '-' && onScale(formula.left) && onScale(formula.right);
  return [...[...factors].map((name) => inProduct(name, states, key)), ...(isDifference ? [difference(unit)] : [])];
}

/** Every direct factor of a product, a quotient or a power, also behind a sign. */
function visit(e: Expression, factor: (part: Expression) => void): void {
  const asFactor = (part: Expression): void => {
    if (part.kind === 'negative') asFactor(part.operand);
    else if (part.kind === 'call' && ['abs', 'best', 'max', 'mean', 'min'].includes(part.name)) part.arguments.forEach(asFactor);
    else factor(part);
  };
  switch (e.kind) {
    case 'number':
    case 'symbol':
    case 'unit':
      return;
    case 'negative':
    case 'not':
      return visit(e.operand, factor);
    case 'call':
      return e.arguments.forEach((part) => visit(part, factor));
    case 'arithmetic':
      // Over unit(K) the number of kelvins is meant, in so many words.
      if (e.operator !== '+' && e.operator !== '-' && !(e.operator === '/' && isKelvin(e.right))) [e.left, e.right].forEach(asFactor);
      break;
    default:
  }
  visit(e.left, factor);
  visit(e.right, factor);
}

function isKelvin(e: Expression): boolean {
  return e.kind === 'unit' && sameDimension(e.unit.dimension, TEMPERATURE_DIMENSION);
}

function inProduct(name: string, states: States, key: string): Problem {
  const state = states.get(name);
  const unit = state?.unit;
  const example = state?.status === 'value' && unit !== undefined
    ? `: ${quantityText(rounded(fromSI(state.estimate.value, unit)), unit)} as ${rounded(state.estimate.value)} K`
    : '';
  return {
    code: 'temperature-in-product',
    what: `${name} is read in ${unit?.name ?? '°C'}, and a product or quotient takes it from absolute zero${example}. Is that meant?`,
    mend: `If ${name} is a difference of temperatures, type it in K. If absolute temperature is meant, type it in K too, or write (${name}/unit(K)).`,
    key,
  };
}

function difference(unit: Unit): Problem {
  return {
    code: 'temperature-difference',
    what: `This is a difference of two temperatures, and ${unit.name} counts it from a zero of its own. Is that meant?`,
    mend: 'Show a difference in K.',
    key: 'unit',
  };
}

/** Without what a sum of doubles leaves behind. */
function rounded(value: number): number {
  return Number(value.toPrecision(8));
}
