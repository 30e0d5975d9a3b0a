const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;
const MONTH = 30 * DAY;

/**
 * Which earlier states stay: every one of the last hour, then the last of each ten minutes for a day, the last of each day for thirty
 * days, and the last of each thirty days before that. What lies in the future, by a clock that was wrong, counts as of this hour.
 * @param times in the order of keeping, ms since 1970; the newest always stays
 */
export function thinned(times: readonly number[], now: number): readonly boolean[] {
  const lastOf = new Map(times.map((at, i) => [slotOf(at, now) ?? i, i]));
  return times.map((at, i) => lastOf.get(slotOf(at, now) ?? i) === i || i === times.length - 1);
}

/**
 * What only one state stays of; undefined where every one does. Slots lie at fixed times, the shorter within the longer, and pass into the
 * longer whole, so that thinning again and again keeps what thinning once would.
 */
function slotOf(at: number, now: number): string | undefined {
  if (now - at < HOUR) return undefined;
  const isWithin = (age: number, width: number): boolean => now - width * (Math.floor(at / width) + 1) < age;
  const width = isWithin(DAY, 10 * MINUTE) ? 10 * MINUTE : isWithin(MONTH, DAY) ? DAY : MONTH;
  return `${width} ${Math.floor(at / width)}`;
}
