/**
 * The test record: times, counter and speed read from its text, what it gives the sheet, and what was predicted when it
 * was started.
 */
export { leftAlone, stoodStillSince } from './alone.ts';
export { changedSince, keptForRow, predictionNow, type ChangedInput } from './prediction.ts';
export { countedSoFar, rollOverText } from './counter-question.ts';
export { OUTCOMES, readRecord } from './read-record.ts';
export { readStamp } from './stamps.ts';
export type { RecordState } from './types.ts';
export { readFrozen } from './frozen.ts';
