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

/** How far `actual` is from `expected`, as a share of it; the plain distance where `expected` is 0. */
export function relativeDifference(actual: number | undefined, expected: number): number {
  const distance = Math.abs((actual ?? NaN) - expected);
  return expected === 0 ? distance : distance / Math.abs(expected);
}

/** Whether the problem speaks of this text and underlines a part of it. */
export function isPlacedIn(text: string, problem: Problem): boolean {
  const { start, end } = problem.span ?? { start: -1, end: -1 };
  return problem.text === text && problem.what !== '' && start >= 0 && end >= start && end <= text.length;
}
