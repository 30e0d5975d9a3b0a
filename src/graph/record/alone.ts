import { countedCycles } from '../../core/fatigue/index.ts';
import type { RecordCell } from '../../sheet/types.ts';
import { readRecord } from './read-record.ts';
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

/** By less than that share of the time, speed and counter differ anyway (common practice, no published source). */
const NOTICEABLE = 0.02;

/**
 * When a machine that was left alone came to stand, by its counter: the cycles that it counted since the reading before, at the speed noted last. Undefined where nobody
 * left it, it ran on, it was paused meanwhile, or counter or speed are not known.
 */
export function stoodStillSince(cell: RecordCell): number | undefined {
  const { phase, ended, counter, speed, pauses, multiplier, digits, question } = readRecord(cell);
  if (phase !== 'ended' || ended === undefined || speed === undefined || (question !== undefined && question.times === undefined)) return undefined;
  const leavings = cell.readings.flatMap((reading) => (isSaid(reading.get('left')) ? readStamp(reading.get('at') ?? '') ?? [] : []));
  for (const [i, { at, reading, rolled }] of counter.entries()) {
    const before = counter[i - 1];
    const isAlone = before !== undefined && leavings.some((left) => left >= before.at && left < at);
    if (before === undefined || !isAlone || pauses.some(({ from, to }) => from < at && (to ?? at) > before.at)) continue;
    const ran = (countedCycles([before.reading, reading], { multiplier, digits }, [undefined, rolled]).cycles / speed.last) * 1000;
    const hasGoneOn = counter.slice(i + 1).some((later) => later.reading !== reading);
    if (!hasGoneOn && ran < (1 - NOTICEABLE) * (at - before.at)) return before.at + ran;
  }
  return undefined;
}
