interface Expected {
  readonly value: number | readonly number[];
  readonly tolerance: { readonly kind: string; readonly value: number };
}

/** What a table expects of an example, each value with how far `mine` is off in parts of its tolerance. */
export function example(table: { readonly cases: readonly { readonly id: string; readonly expected: unknown }[] }, id: string) {
  const found = table.cases.find((entry) => entry.id === id);
  if (found === undefined) throw new Error(`no case ${id}`);
  const expected = found.expected as Readonly<Record<string, Expected>>;
  return (name: string, place = 0): { value: number; off: (value: number) => number } => {
    const { value, tolerance } = expected[name] ?? { value: Number.NaN, tolerance: { kind: '', value: 0 } };
    const one = typeof value === 'number' ? value : (value[place] ?? Number.NaN);
    return { value: one, off: (mine) => Math.abs(mine - one) / (tolerance.kind === 'relative' ? tolerance.value * Math.abs(one) : tolerance.value) };
  };
}
