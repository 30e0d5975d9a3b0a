import { checkTogether, type Input } from '../core/estimate/index.ts';
import { nearNames, type Problem } from '../core/problem/index.ts';
import type { Names } from './compiled-types.ts';
import type { GivenState } from './read-given.ts';

/** Trouble among givens that vary together: unequal numbers of readings, coefficients that cannot hold at once. */
export function togetherProblems(names: Names, givens: ReadonlyMap<string, GivenState>): readonly Problem[] {
  const inputs: Input[] = [];
  for (const { input } of givens.values()) {
    if (input !== undefined && (input.together !== undefined || input.correlations !== undefined)) inputs.push(input);
  }
  const strangers: Problem[] = [];
  const partners = new Set(inputs);
  for (const { id, correlations } of inputs) {
    for (const symbol of correlations?.keys() ?? []) {
      const input = givens.get(symbol)?.input;
      if (!givens.has(symbol)) strangers.push(strangerProblem(symbol, names.definitions.get(id)?.block.id ?? id, givens));
      else if (input !== undefined) partners.add(input);
    }
  }
  if (inputs.length === 0) return [];
  const checked = checkTogether([...partners]);
  if (checked.ok) return strangers;
  const cell = checked.problem.cell ?? inputs[0]?.id ?? '';
  return [...strangers, { ...checked.problem, cell: names.definitions.get(cell)?.block.id ?? cell }];
}

function strangerProblem(symbol: string, cell: string, givens: ReadonlyMap<string, GivenState>): Problem {
  const near = nearNames(symbol, [...givens.keys()]);
  return {
    code: 'correlated-unknown',
    what: `A correlation is stated with ${symbol}, which is no given of this sheet.`,
    mend: near.length > 0 ? `Did you mean ${near.join(' or ')}?` : 'Name a given, or take the coefficient out.',
    cell,
    key: 'correlated',
  };
}
