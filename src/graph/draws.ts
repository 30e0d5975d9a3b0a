import { drawInputs, standardUncertainty, type Estimate, type Input } from '../core/estimate/index.ts';
import { evaluateBlock, type Expression } from '../core/formula/index.ts';
import type { Random } from '../core/numeric/index.ts';
import type { Plan } from './plan.ts';
import type { SheetStates } from './types.ts';

/** Draws of every symbol that has a value; a plain number where nothing in it is uncertain. SI. */
export type Draws = ReadonlyMap<string, Float64Array | number>;

/** Block length of one pass over the formulas: small enough for a processor's cache. */
const BLOCK = 2048;

/**
 * Propagates distributions through the whole sheet (JCGM 101:2008, clause 7): the inputs are drawn once, and every
 * formula is evaluated on the same draws, so that symbols stay paired.
 * A draw for which a formula has no value is NaN in that symbol's column.
 */
export function drawSheet(plan: Plan, states: SheetStates, random: Random, count: number): Draws {
  const drawn = drawInputs(uncertainInputs(plan, states), random, count);
  const columns = new Map<string, Float64Array | number>();
  const steps: { readonly expression: Expression; readonly column: Float64Array }[] = [];
  const nodes = new Map(plan.nodes.flatMap((node) => node.symbols.map((symbol) => [symbol, node] as const)));
  for (const symbol of plan.order) {
    const state = states.symbol(symbol);
    const node = nodes.get(symbol);
    if (state?.status !== 'value' || node === undefined) continue;
    const expression = node.ready?.formula.expression ?? states.cell(node.cellId)?.expressions?.get(symbol);
    if (expression === undefined || standardUncertainty(state.estimate) === 0) {
      columns.set(symbol, drawn.get(symbol) ?? alongTangent(state.estimate, drawn, count));
    } else {
      const column = new Float64Array(count);
      columns.set(symbol, column);
      steps.push({ expression, column });
    }
  }
  const uncertainty = (name: string): number => {
    const state = states.symbol(name);
    return state?.status === 'value' ? standardUncertainty(state.estimate) : 0;
  };
  const best = (name: string): number => {
    const state = states.symbol(name);
    return state?.status === 'value' ? state.estimate.value : Number.NaN;
  };
  for (let start = 0; start < count; start += BLOCK) {
    const end = Math.min(start + BLOCK, count);
    const block = (name: string): Float64Array | number => {
      const column = columns.get(name) ?? Number.NaN;
      return typeof column === 'number' ? column : column.subarray(start, end);
    };
    for (const { expression, column } of steps) {
      column.set(evaluateBlock(expression, block, uncertainty, end - start, best), start);
    }
  }
  return columns;
}

/** What a fit finds besides a line has no formula: its draws follow those of the inputs it hangs on, to first order. */
function alongTangent({ value, sensitivities }: Estimate, drawn: ReadonlyMap<string, Float64Array>, count: number): Float64Array | number {
  const column = new Float64Array(count).fill(value);
  let moves = false;
  for (const [id, { input, derivative }] of sensitivities) {
    const draws = drawn.get(id);
    if (draws === undefined || derivative === 0) continue;
    moves = true;
    for (let i = 0; i < count; i++) column[i] = (column[i] ?? 0) + derivative * ((draws[i] ?? 0) - input.value);
  }
  return moves ? column : value;
}

function uncertainInputs(plan: Plan, states: SheetStates): readonly Input[] {
  const inputs: Input[] = [];
  for (const symbol of plan.order) {
    const state = states.symbol(symbol);
    if (state?.status !== 'value') continue;
    const own = state.estimate.sensitivities.get(symbol)?.input;
    if (own !== undefined && own.components.length > 0) inputs.push(own);
  }
  return inputs;
}
