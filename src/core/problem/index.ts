/**
 * What is wrong, where, and how to mend it: a reader's mistake as a value.
 * A `Problem` never travels as an exception; an exception is a bug of ours. Lowest layer: imports nothing.
 */
import type { Problem, Result } from './types.ts';


export type { Problem, Result, Span } from './types.ts';
export { didYouMean, nearNames } from './near.ts';
export { invisibleSign, withSignsShown } from './invisible.ts';
export { composed, isolated, isolatedQuotes } from './isolated.ts';

export function ok<T>(value: T): Result<T> {
  return { ok: true, value };
}

export function fail(problem: Problem): { readonly ok: false; readonly problem: Problem } {
  return { ok: false, problem };
}

/** The problem as the reader sees it in running text: what, then how to mend it. */
export function problemSentence(problem: Problem): string {
  return problem.mend === '' ? problem.what : `${problem.what} ${problem.mend}`;
}
