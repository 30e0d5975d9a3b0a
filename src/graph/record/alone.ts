import type { RecordCell } from '../../sheet/types.ts';
import { readStamp } from './stamps.ts';

/** Since when nobody is with a running machine, and how many items of its list were open then. */
interface LeftAlone {
  /** Milliseconds since 1970; undefined where the stamp can't be read. */
  readonly since: number | undefined;
  /** `2 of 6`, as it was written down. */
  readonly open: string;
}

/** What the entry of a record says that was noted last of leaving and coming back; undefined while somebody is there. */
export function leftAlone({ readings }: RecordCell): LeftAlone | undefined {
  const last = readings.findLast((reading) => isSaid(reading.get('left')) || isSaid(reading.get('back')));
  if (last === undefined || isSaid(last.get('back'))) return undefined;
  return { since: readStamp(last.get('at') ?? ''), open: last.get('left') ?? '' };
}

function isSaid(text: string | undefined): boolean {
  return text !== undefined && text.trim() !== '';
}
