/**
 * Names out of `candidates` that a reader may have meant by `word`, nearest first, at most three: one slip of the
 * fingers in a short word, two in a longer one; a difference of case alone comes first.
 */
export function nearNames(word: string, candidates: Iterable<string>): readonly string[] {
  const folded = word.toLowerCase();
  // A single letter has no near neighbours, only itself in the other case.
  const allowed = folded.length < 2 ? 0 : folded.length < 4 ? 1 : 2;
  const near: { readonly name: string; readonly slips: number }[] = [];
  for (const name of candidates) {
    const slips = slipsBetween(folded, name.toLowerCase());
    if (slips <= allowed) near.push({ name, slips });
  }
  return near
    .sort((a, b) => a.slips - b.slips)
    .slice(0, 3)
    .map((entry) => entry.name);
}

/** Least number of letters added, left out, exchanged or swapped with their neighbour that makes `a` into `b`. */
function slipsBetween(a: string, b: string): number {
  if (Math.abs(a.length - b.length) > 2) return Infinity;
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const exchange = (last[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      let slips = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, exchange);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        slips = Math.min(slips, (beforeLast[j - 2] ?? 0) + 1);
      }
      row.push(slips);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length] ?? Infinity;
}
