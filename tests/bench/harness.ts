/**
 * Times as a table. One machine, one run: compare ratios, not milliseconds. Benchmarks are no tests and nothing fails by them.
 */
export interface Row {
  readonly what: string;
  /** Milliseconds, one entry a run. */
  readonly times: readonly number[];
  /** What the median should stay under, milliseconds. */
  readonly target?: number;
}

/** Value below which the share `p` of the times lies (nearest rank). */
function rank(times: readonly number[], p: number): number {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(p * sorted.length) - 1)] ?? Number.NaN;
}

/** Times `once`, which gives its own milliseconds where it knows better than the clock around it. */
export async function measure(
  what: string,
  once: (run: number) => Promise<number | void> | number | void,
  { warmUp = 5, runs = 30, target }: { warmUp?: number; runs?: number; target?: number } = {},
): Promise<Row> {
  const times: number[] = [];
  for (let run = 0; run < warmUp + runs; run += 1) {
    const begun = performance.now();
    const own = await once(run);
    const taken = own ?? performance.now() - begun;
    if (run >= warmUp) times.push(taken);
  }
  return target === undefined ? { what, times } : { what, times, target };
}

const milliseconds = (value: number): string => (value < 10 ? value.toFixed(2) : value.toFixed(1));

export function printTable(title: string, rows: readonly Row[]): void {
  const head = ['', 'median ms', '95 % ms', 'least ms', 'runs', 'target ms'];
  const lines = rows.map(({ what, times, target }) => [
    what,
    milliseconds(rank(times, 0.5)),
    milliseconds(rank(times, 0.95)),
    milliseconds(rank(times, 0)),
    String(times.length),
    target === undefined ? '' : `${target}: ${rank(times, 0.5) < target ? 'kept' : 'MISSED'}`,
  ]);
  const widths = head.map((name, column) => Math.max(name.length, ...lines.map((line) => line[column]?.length ?? 0)));
  const print = (cells: readonly string[]): string =>
    cells.map((cell, column) => (column === 0 ? cell.padEnd(widths[column] ?? 0) : cell.padStart(widths[column] ?? 0))).join('  ');
  console.log(`\n${title}\n${print(head)}\n${lines.map(print).join('\n')}`);
}
