import { parseUnit, type Unit } from '../../../src/core/units/index.ts';
import type { Problem, Result } from '../../../src/core/problem/index.ts';

/** The unit that the text writes; a text that can't be read fails the test with its sentence. */
export function unitOf(text: string): Unit {
  return valueOf(parseUnit(text), text);
}

export function valueOf<T>(result: Result<T>, text: string): T {
  if (!result.ok) throw new Error(`${text}: ${result.problem.what} ${result.problem.mend}`);
  return result.value;
}

export function problemOf(result: Result<unknown>, text: string): Problem {
  if (result.ok) throw new Error(`${text} was read as ${JSON.stringify(result.value)}, a problem was expected`);
  return result.problem;
}

/** What the span of a problem underlines. */
export function underlined(problem: Problem): string | undefined {
  return problem.span === undefined ? undefined : problem.text?.slice(problem.span.start, problem.span.end);
}
