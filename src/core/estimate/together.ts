import { factorSemidefinite } from '../numeric/index.ts';
import { fail, ok, type Problem, type Result } from '../problem/index.ts';
import { inputCorrelation, mayBeTied } from './input.ts';
import * as problems from './together-problems.ts';
import type { Input } from './types.ts';

/**
 * Whether inputs that vary together can do so as stated: as many readings on each side of a pair, coefficients between −1
 * and 1 that both sides agree on and that can all hold at once (a correlation matrix without negative eigenvalue).
 * Gives back the inputs that state so or were read in pairs. The problem's `cell` is the id of an input.
 * Problems: `together-unequal`, `correlation-range`, `-self`, `-twice`, `-impossible`.
 * @source JCGM 100:2008, 5.2.3 (pairs of readings); JCGM 102:2011, 3.21 note (positive semidefinite; from memory).
 */
export function checkTogether(inputs: readonly Input[]): Result<readonly Input[]> {
  const problem = unequalReadings(inputs) ?? unsoundCoefficient(inputs);
  if (problem !== undefined) return fail(problem);
  const correlated = correlatedAmong(inputs);
  if (factorSemidefinite(correlationMatrix(correlated)) === undefined) {
    return fail(problems.coefficientsImpossible(correlated.map(({ id }) => id)));
  }
  return ok(correlated);
}

/** Correlation coefficients of inputs with each other. */
export function correlationMatrix(inputs: readonly Input[]): readonly (readonly number[])[] {
  return inputs.map((a) => inputs.map((b) => inputCorrelation(a, b)));
}

function unequalReadings(inputs: readonly Input[]): Problem | undefined {
  const first = new Map<string, Input>();
  for (const input of inputs) {
    if (input.together === undefined) continue;
    const { group, deviations } = input.together;
    const other = first.get(group) ?? input;
    first.set(group, other);
    const otherCount = other.together?.deviations.length ?? 0;
    if (deviations.length !== otherCount) {
      return problems.togetherUnequal(input.id, deviations.length, other.id, otherCount, group);
    }
  }
  return undefined;
}

function unsoundCoefficient(inputs: readonly Input[]): Problem | undefined {
  const byId = new Map(inputs.map((input) => [input.id, input]));
  for (const { id, correlations } of inputs) {
    for (const [other, coefficient] of correlations ?? []) {
      if (!(Math.abs(coefficient) <= 1)) return problems.coefficientOutOfRange(id, other, coefficient);
      if (other === id) return problems.coefficientWithItself(id);
      const theirs = byId.get(other)?.correlations?.get(id);
      if (theirs !== undefined && theirs !== coefficient) return problems.coefficientTwice(id, other, coefficient, theirs);
    }
  }
  return undefined;
}

function correlatedAmong(inputs: readonly Input[]): readonly Input[] {
  const carriers = inputs.filter(mayBeTied);
  const named = new Set(carriers.flatMap(({ correlations }) => [...(correlations?.keys() ?? [])]));
  return inputs.filter((input) => mayBeTied(input) || named.has(input.id));
}
