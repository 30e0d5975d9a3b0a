/**
 * The test record: times, counter and speed read from its text, what it gives the sheet, and what was predicted when it
 * was started.
 */
export { changedSince, frozenText, predictionNow, readFrozen, type ChangedInput, type FrozenValue } from './frozen.ts';
export { OUTCOMES, readRecord, REVOLUTIONS_PER_MINUTE } from './read-record.ts';
export { recordDimension, recordNode, recordReads } from './record-node.ts';
export { readStamp } from './stamps.ts';
export type { RecordOutcome, RecordState } from './types.ts';
