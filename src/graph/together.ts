import { checkTogether, type Input } from '../core/estimate/index.ts';
import type { Problem } from '../core/problem/index.ts';
import type { GivenState } from './given.ts';
import type { Names } from './names.ts';

/** Trouble among givens that vary together: unequal numbers of readings, coefficients that cannot hold at once. */
export function togetherProblems(names: Names, givens: ReadonlyMap<string, GivenState>): readonly Problem[] {
  const inputs: Input[] = [];
  for (const { input } of givens.values()) {
    if (input !== undefined && (input.together !== undefined || input.correlations !== undefined)) inputs.push(input);
  }
  const named = inputs.flatMap(({ correlations }) => [...(correlations?.keys() ?? [])]);
  for (const symbol of named) {
    const input = givens.get(symbol)?.input;
    if (input !== undefined && !inputs.includes(input)) inputs.push(input);
  }
  if (inputs.length === 0) return [];
  const checked = checkTogether(inputs);
  if (checked.ok) return [];
  const cell = checked.problem.cell ?? inputs[0]?.id ?? '';
  return [{ ...checked.problem, cell: names.definitions.get(cell)?.block.id ?? cell }];
}
