import type { PresentContext } from '../../report/index.ts';
import { REVEALS } from './order.ts';
import { stationOf, type LectureSheet, type LectureState } from './lecture-step.ts';

/** Steps of the class's own working whose results the lecture has told: all before its place on the sheet, passed over or not, and the one at hand with its last part. */
export function toldOf(state: LectureState, sheet: LectureSheet): ReadonlySet<string> {
  if (!state.isOpen) return new Set();
  const { blocks: here } = stationOf(state, sheet);
  const at = sheet.blocks.findIndex((id) => here.includes(id));
  const before = sheet.blocks.slice(0, Math.max(0, at));
  return new Set([...before, ...(REVEALS.indexOf(state.place.reveal) >= REVEALS.indexOf('result') ? here : [])].filter((id) => sheet.isToBeWorked(id)));
}

export function sameTold(a: ReadonlySet<string>, b: ReadonlySet<string>): boolean {
  return a.size === b.size && [...a].every((id) => b.has(id));
}

/** What the presenting of the sheet has to know of it. */
export function toldBy(told: ReadonlySet<string>): Pick<PresentContext, 'told'> {
  return told.size === 0 ? {} : { told };
}
