import { didYouMean, type Problem } from '../core/problem/index.ts';

/** A problem of a cell's own text before the cell has its place in the file: it knows its row in the body only. */
export interface BodyProblem {
  readonly code: string;
  /** Begins in lower case where `tellsLine`: the sentence then follows `Line 14: `. */
  readonly what: string;
  readonly mend: string;
  readonly key?: string;
  /** Row of the body, counted from 0; -1 for the line that opens the cell. */
  readonly row: number;
  /** Whether the sentence names the line: where it speaks of the writing, not of a key. */
  readonly tellsLine: boolean;
}

/** A problem with what a key holds, or with a key that is missing. */
export function keyProblem(code: string, row: number, what: string, mend: string, key?: string): BodyProblem {
  return { code, what, mend, row, tellsLine: false, ...(key === undefined ? {} : { key }) };
}

/** A key, or a name below one, that the sheet does not understand: used all the same, without it. `place` says where it stands: `option 2`; the names that there are below a key are told where none is near. */
export function unknownKeyProblem(key: string, known: readonly string[], row: number, place?: string): BodyProblem {
  const told = place === undefined ? key : `${place}: ${key}`;
  const near = didYouMean(key, known);
  const instead = near === '' && place !== undefined && known.length > 0 ? `There are: ${known.join(', ')}. ` : near;
  return keyProblem('key-unknown', row, `“${told}” is not understood here and has no effect.`, `${instead}It is kept in the file as it is.`, told);
}

/** The problem with its place in the file; `bodyLine` is the line on which the body begins, counted from 1. */
export function placeProblem(problem: BodyProblem, bodyLine: number, cell?: string): Problem {
  const line = problem.row + bodyLine;
  return {
    code: problem.code,
    what: problem.tellsLine ? `Line ${line}: ${problem.what}` : problem.what,
    mend: problem.mend,
    line,
    ...(cell === undefined ? {} : { cell }),
    ...(problem.key === undefined ? {} : { key: problem.key }),
  };
}
