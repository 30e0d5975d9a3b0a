import type { SheetStates } from '../graph/index.ts';
import type { EditCommand } from '../sheet/index.ts';
import { movedSymbols, type Moved } from './moved.ts';

/** Between an edit and its results: what they are compared with, and how they moved. */
export interface Changes {
  /** The sheet as it was before the burst of edits. */
  readonly baseline: SheetStates;
  readonly moved: ReadonlyMap<string, Moved>;
  /** What the running burst of edits writes to; '' between bursts. */
  readonly burst: string;
  /** An edit made on the page waits for its results; other changes are undone steps and what is switched elsewhere. */
  readonly isOwn: boolean;
}

export function unchanged(states: SheetStates): Changes {
  return { baseline: states, moved: new Map(), burst: '', isOwn: false };
}

/** An edit was made on the page: one of the same target as before goes on with its burst. @param before the sheet's states before it */
export function withEdit(changes: Changes, command: EditCommand, before: SheetStates): Changes {
  const burst = targetOf(command);
  return { ...changes, baseline: burst === changes.burst ? changes.baseline : before, burst, isOwn: true };
}

/** The next edit begins a burst of its own. */
export function withRest(changes: Changes): Changes {
  return { ...changes, burst: '' };
}

/**
 * The results of a change are there. @param compared what they are compared with while they are withheld for a guess
 * @returns the changes, and whether what is half typed gives way: the change was not made on the page
 */
export function withResults(
  changes: Changes, { before, after, compared }: { readonly before: SheetStates; readonly after: SheetStates; readonly compared?: SheetStates | undefined },
): { readonly changes: Changes; readonly isForeign: boolean } {
  const isForeign = !changes.isOwn;
  const began = isForeign ? { ...changes, baseline: before, burst: '' } : { ...changes, isOwn: false };
  if (after === before) return { changes: began, isForeign };
  const baseline = compared ?? began.baseline;
  return { changes: { ...began, baseline, moved: movedSymbols(baseline, after) }, isForeign };
}

/** What a command writes to, without what it writes. */
function targetOf(command: EditCommand): string {
  return JSON.stringify(command, (key: string, value: unknown) => (['value', 'values', 'body', 'source', 'text', 'order', 'time', 'option'].includes(key) ? undefined : value));
}
