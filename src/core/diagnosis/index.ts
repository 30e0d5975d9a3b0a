/**
 * What may have gone wrong where a result is not the right one.
 *
 * Nouns: a *working* (the formula asked for, those that belong to it, and what its symbols are), a *slip* (one thing done wrongly), an
 * *explanation* (one slip or two, and what comes of them).
 * Invariants: an explanation is told only where it gives the same result within the digits typed, where no unlike one that is as simple does, and
 * where a number at random would seldom fit; nothing of the right result is told by it.
 */
export { diagnose, type Explained } from './search.ts';
export type { Explanation, Quantity, Slip, Working, Wrong } from './types.ts';
