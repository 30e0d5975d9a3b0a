import type { Estimate } from '../core/estimate/index.ts';
import { combine, standardUncertainty } from '../core/estimate/index.ts';
import { evaluateTruth, evaluateWithPartials } from '../core/formula/index.ts';
import type { Expression } from '../core/formula/types.ts';
import { isCalculable } from '../core/numeric/index.ts';
import type { Problem, Result } from '../core/problem/index.ts';
import type { Unit } from '../core/units/index.ts';
import { LINE_AWAITED } from './fit/line-awaited.ts';
import type { CheckState, RangeWord, SymbolState } from './types.ts';

/** Values at hand by symbol; a symbol without value is absent. */
export type Estimates = ReadonlyMap<string, Estimate>;

/** A condition under which a step has no value, and the word that says why. */
export interface RangeCondition {
  readonly word: RangeWord;
  readonly condition: ParsedText;
}

/** A formula or condition with the text that its spans point into. */
export interface ParsedText {
  readonly text: string;
  readonly expression: Expression;
}

/** A step whose names and dimensions are in order: what is left is arithmetic. */
export interface ReadyStep {
  readonly cellId: string;
  readonly formula: ParsedText;
  readonly unit: Unit;
  readonly ranges: readonly RangeCondition[];
  readonly validIf?: ParsedText;
  readonly otherwise: string;
}

/** What inputs without a value make of their reader: a pointer to the first trouble, else the first range word; `open` with all that is waited for. */
export function blockedBy(
  reads: readonly string[],
  states: ReadonlyMap<string, SymbolState>,
  unit: Unit | undefined,
): SymbolState | undefined {
  let range: SymbolState & { readonly status: 'range' } | undefined;
  const waitsFor = new Set<string>();
  for (const symbol of reads) {
    const state = states.get(symbol);
    if (state?.status === 'value') continue;
    if (state?.status === 'range') {
      range ??= unit === undefined ? state : { ...state, unit };
      for (const name of state.waitsFor ?? []) waitsFor.add(name);
      continue;
    }
    // Whoever reads a line that has still to be taken is the one in trouble: the cell that waits for it is not.
    if (state?.status === 'problem' && state.problem.code === LINE_AWAITED) {
      const { what, mend } = state.problem;
      return { status: 'problem', problem: { code: 'line-missing', what, mend }, ...(unit === undefined ? {} : { unit }) };
    }
    const origin = state?.status === 'problem' && state.origin !== undefined ? state.origin : symbol;
    return {
      status: 'problem',
      problem: {
        code: 'input-missing',
        what: `This waits for ${symbol}${origin === symbol ? '' : `, which waits for ${origin}`}.`,
        mend: `Mend ${origin} first.`,
      },
      origin,
      ...(unit === undefined ? {} : { unit }),
    };
  }
  return range?.word === 'open' && waitsFor.size > 1 ? { ...range, waitsFor: [...waitsFor] } : range;
}

/** Value of a ready step from its inputs, with its sensitivities; validity is asked before ranges. */
export function evaluateStep(step: ReadyStep, estimates: Estimates): SymbolState {
  const env = environment(estimates);
  const problemState = (problem: Problem): SymbolState => ({
    status: 'problem',
    problem: { ...problem, cell: step.cellId },
    unit: step.unit,
  });
  if (step.validIf !== undefined) {
    const valid = evaluateTruth(step.validIf.expression, env);
    if (!valid.ok) return problemState({ ...valid.problem, text: step.validIf.text, key: 'valid_if' });
    if (!valid.value) return problemState({ code: 'not-valid', what: step.otherwise, mend: 'Look at the values that it is made of.', key: 'formula' });
  }
  for (const { word, condition } of step.ranges) {
    const inside = evaluateTruth(condition.expression, env);
    if (!inside.ok) return problemState({ ...inside.problem, text: condition.text, key: 'ranges' });
    if (inside.value) return { status: 'range', word, unit: step.unit };
  }
  const result = evaluateWithPartials(step.formula.expression, env);
  if (!result.ok) return problemState({ ...result.problem, text: step.formula.text, key: 'formula' });
  const parts = [...result.value.partials].flatMap(([symbol, derivative]) => {
    const estimate = estimates.get(symbol);
    return estimate === undefined ? [] : [{ estimate, derivative }];
  });
  const estimate = combine(result.value.value, parts);
  if (!isCalculable(estimate.value)) return problemState(sizeProblem('The result', step));
  return isCalculable(standardUncertainty(estimate)) ? { status: 'value', estimate, unit: step.unit } : problemState(sizeProblem('The uncertainty of the result', step));
}

function sizeProblem(what: string, { formula }: ReadyStep): Problem {
  return {
    code: 'step-too-large',
    what: `${what} is too large to reckon with (up to 1e300 in SI units).`,
    mend: 'Look for a slipped exponent in the formula or in what it reads.',
    text: formula.text,
    key: 'formula',
  };
}

/** Without value and in nobody's error: it waits for something that is still to come. */
export function openState(unit: Unit, waitsFor: string): SymbolState {
  return Object.freeze({ status: 'range', word: 'open', unit, waitsFor: [waitsFor] });
}

/** Whether a condition holds; its sentence still has its live values to be put in. */
export function evaluateCheck(
  condition: Expression,
  sentences: { readonly holds: string; readonly otherwise: string },
  estimates: Estimates,
): Result<CheckState> {
  const truth = evaluateTruth(condition, environment(estimates));
  if (!truth.ok) return truth;
  return { ok: true, value: { holds: truth.value, message: truth.value ? sentences.holds : sentences.otherwise } };
}

function environment(estimates: Estimates) {
  const at = (name: string): Estimate => {
    const estimate = estimates.get(name);
    if (estimate === undefined) throw new Error(`no estimate for ${name}: blocked inputs must be turned away before`);
    return estimate;
  };
  return {
    value: (name: string): number => at(name).value,
    standardUncertainty: (name: string): number => standardUncertainty(at(name)),
  };
}
