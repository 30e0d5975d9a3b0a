/** Up to three of the known names that differ from a name by a slip of the keyboard, nearest first. */
export function nearNames(name: string, known: readonly string[]): readonly string[] {
  const limit = name.length <= 3 ? 1 : 2;
  return known
    .filter((candidate) => candidate !== name && Math.abs(candidate.length - name.length) <= limit)
    .map((candidate) => ({ candidate, distance: editDistance(name, candidate) }))
    .filter(({ candidate, distance }) => distance <= limit && distance < Math.max(candidate.length, name.length))
    .sort((a, b) => a.distance - b.distance)
    .slice(0, 3)
    .map(({ candidate }) => candidate);
}

/** Letters to insert, delete or change; a change of case alone counts half, since it is the commonest slip. */
function editDistance(a: string, b: string): number {
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 0; i < a.length; i++) {
    const row = [i + 1];
    for (let j = 0; j < b.length; j++) {
      const change = a[i] === b[j] ? 0 : a[i]?.toLowerCase() === b[j]?.toLowerCase() ? 0.5 : 1;
      row.push(Math.min((previous[j + 1] ?? 0) + 1, (row[j] ?? 0) + 1, (previous[j] ?? 0) + change));
    }
    previous = row;
  }
  return previous[b.length] ?? 0;
}
