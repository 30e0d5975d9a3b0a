import { sameDimension } from '../../core/units/index.ts';
import { askedRules, asksForStep, cellsOf } from '../../sheet/index.ts';
import type { SheetDocument, StepCell } from '../../sheet/types.ts';
import type { SheetStates } from '../types.ts';
import { allowanceOf, isAllowed } from './allowance.ts';

/**
 * Pairs of asked steps whose results may stand for each other, so that whoever mixes them up is told that they are right: R_A and R_B of a symmetrical set-up.
 * A step that only takes over another's value is no pair with it.
 */
export function alikeSteps(document: SheetDocument, states: SheetStates): readonly (readonly [StepCell, StepCell])[] {
  const asked = cellsOf(document, 'step').flatMap((step) => {
    const state = states.symbol(step.symbol);
    return asksForStep(step, document) && state?.status === 'value' ? [{ step, state, allowance: allowanceOf(askedRules(step, document).tolerance, step, state) }] : [];
  });
  return asked.flatMap((one, i) => asked.slice(i + 1).flatMap((other): (readonly [StepCell, StepCell])[] => {
    const areAlike = sameDimension(one.state.unit.dimension, other.state.unit.dimension)
      && (isAllowed(one.state.estimate.value, other.state.estimate.value, other.allowance) || isAllowed(other.state.estimate.value, one.state.estimate.value, one.allowance));
    return areAlike && !takesOver(one.step, other.step, states) && !takesOver(other.step, one.step, states) ? [[one.step, other.step]] : [];
  }));
}

function takesOver(step: StepCell, other: StepCell, states: SheetStates): boolean {
  const expression = states.cell(step.id)?.expression;
  return expression?.kind === 'symbol' && expression.name === other.symbol;
}
