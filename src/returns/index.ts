/**
 * Sheets that came back from a class, side by side.
 *
 * Nouns: a *returned sheet* is what a file that came back says, judged: values entered, own results with their verdicts, checks, tests, remarks; what is
 * *gathered* are all of them, with the files that were *refused*; *points* are given by a *scheme*.
 * Invariants: a returned file is data, and nothing in it is run, opened or believed: results are worked out anew from what was entered; the same
 * sheet counts once; whatever is left out is named with its reason; nobody is accused of anything.
 */
export type * from './types.ts';
export { createGatherer, NOTHING_GATHERED, type Gathered, type ReadFile, type RefusedFile } from './gather.ts';
export { checksIn, classCsv, enteredIn, pointsText, type EnteredQuantity } from './class-csv.ts';
export { askedIn, DEFAULT_SCHEME, NONE_BY_HAND, pointsOf, readScheme, unansweredIn, worth, writtenScheme, type AskedStep, type Marking, type MarkingScheme, type Points, type PointsByHand } from './marks.ts';
export { nameOf, VERDICT_WORDS } from './words.ts';
export { isWrong, sheetsShown, titlesIn, type Look, type Only, type SortBy } from './look.ts';
export { otherFormulas, sameReadings, type OtherFormulas, type SameReadings } from './alike.ts';
export { spreads, type Spread, type SpreadValue } from './spread.ts';
export { poolCsv, pooled, poolInto, type Pool, type PooledSpecimen, type UnpooledTest } from './pool.ts';
export { feedbackFor, inUnit, type Feedback } from './feedback.ts';
