import { inOrderOfReading } from '../core/formula/index.ts';
import type { Problem } from '../core/problem/index.ts';

interface ReadingOrder {
  /** Every symbol, those it reads before it (loops broken at an arbitrary place). */
  readonly order: readonly string[];
  /** For each symbol found on a loop: the whole loop in order of reading, the same list for all on it. */
  readonly loops: ReadonlyMap<string, readonly string[]>;
}

/** @param reads of each symbol; a name that is none of them is passed over */
export function orderByReading(reads: ReadonlyMap<string, readonly string[]>): ReadingOrder {
  const loops = new Map<string, readonly string[]>();
  const order = inOrderOfReading(reads.keys(), (symbol) => (reads.get(symbol) ?? []).filter((read) => reads.has(read)), (loop) => {
    for (const member of loop) if (!loops.has(member)) loops.set(member, loop);
  });
  return { order, loops };
}

/** Symbols of a loop that are named; a loop may be as long as the sheet. */
const MOST_ON_LOOP = 12;

/** The loop as it is read from one of its members, back to that: `a → b → a`. */
export function loopText(member: string, loop: readonly string[]): string {
  const from = loop.indexOf(member);
  const named = Array.from({ length: Math.min(loop.length, MOST_ON_LOOP) }, (_, i) => loop[(from + i) % loop.length]);
  const left = loop.length - named.length;
  return [...named, ...(left > 0 ? [`${left} more`] : []), member].join(' → ');
}

/** @param symbol on the loop, with which its sentence begins */
export function loopProblem(cellId: string, symbol: string, loop: readonly string[]): Problem {
  return {
    code: 'loop',
    what:
      loop.length === 1
        ? `${symbol} is computed from itself.`
        : `These symbols are computed from each other in a loop: ${loopText(symbol, loop)} (each reads the next).`,
    mend:
      loop.length === 1
        ? `Take ${symbol} out of its own formula and conditions, and write there what it is worked out from.`
        : 'Change one of the formulas so that it no longer needs the others.',
    cell: cellId,
    key: 'formula',
  };
}
