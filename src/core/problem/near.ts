/** What to write in place of a name that is not known, where it looks like a slip of the keyboard: “Did you mean `label`? ”, with a blank behind; else ''. */
export function didYouMean(name: string, known: readonly string[]): string {
  const near = nearNames(name, known);
  return near.length === 0 ? '' : `Did you mean ${near.map((one) => `\`${one}\``).join(' or ')}? `;
}

/** Up to three of the known names that differ from a name by a slip of the keyboard, nearest first. */
export function nearNames(name: string, known: readonly string[]): readonly string[] {
  const limit = name.length <= 3 ? 1 : 2;
  const distanceTo = distancesFrom(name, limit);
  return known
    .filter((candidate) => candidate !== name && Math.abs(candidate.length - name.length) <= limit)
    .map((candidate) => ({ candidate, distance: distanceTo(candidate) }))
    .filter(({ candidate, distance }) => distance <= limit && distance < Math.max(candidate.length, name.length))
    .sort((a, b) => a.distance - b.distance)
    .slice(0, 3)
    .map(({ candidate }) => candidate);
}

/**
 * Letters to insert, delete or change; a change of case alone counts half, since it is the commonest slip. Beyond `limit` a distance
 * is only known to be more. A sheet with a thousand names and as many misspelt ones compares a million pairs: each is looked at no
 * further than it must be, and in the same two rows.
 */
function distancesFrom(a: string, limit: number): (b: string) => number {
  const lower = a.toLowerCase();
  let previous = new Float64Array(a.length + limit + 2);
  let row = new Float64Array(a.length + limit + 2);
  return (b) => {
    for (let j = 0; j <= b.length; j++) previous[j] = j;
    for (let i = 0; i < a.length; i++) {
      // Further from the diagonal there are more insertions than the limit.
      const [first, end] = [Math.max(0, i - limit), Math.min(b.length, i + limit + 1)];
      row.fill(Infinity, 0, b.length + 1);
      row[0] = i + 1;
      let least = i + 1;
      for (let j = first; j < end; j++) {
        const change = a.charCodeAt(i) === b.charCodeAt(j) ? 0 : lower[i] === b[j]?.toLowerCase() ? 0.5 : 1;
        const distance = Math.min((previous[j + 1] ?? 0) + 1, (row[j] ?? 0) + 1, (previous[j] ?? 0) + change);
        row[j + 1] = distance;
        least = Math.min(least, distance);
      }
      if (least > limit) return Infinity;
      [previous, row] = [row, previous];
    }
    return previous[b.length] ?? 0;
  };
}
