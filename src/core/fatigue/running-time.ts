/** A stretch in which the machine stood still, in milliseconds; without an end it stands still yet. */
export interface Pause {
  readonly from: number;
  readonly to?: number | undefined;
}

/**
 * Milliseconds that a machine ran from `start` to `end`, without its pauses. Pauses that overlap count once; what of them
 * lies outside the stretch does not count. An end before the start gives 0.
 */
export function runningTime(start: number, end: number, pauses: readonly Pause[]): number {
  const within = pauses
    .map(({ from, to }) => ({ from: Math.max(from, start), to: Math.min(to ?? end, end) }))
    .filter(({ from, to }) => to > from)
    .toSorted((a, b) => a.from - b.from);
  let still = 0;
  let reached = start;
  for (const { from, to } of within) {
    if (to <= reached) continue;
    still += to - Math.max(from, reached);
    reached = to;
  }
  return Math.max(0, end - start - still);
}
