import table from '../../tables/uncertainty.json' with { type: 'json' };

interface Expected { readonly value: unknown; readonly tolerance: { readonly kind: string; readonly value: number } }
interface TableCase {
  readonly id: string;
  readonly source: string;
  readonly inputs: Readonly<Record<string, { readonly value: unknown } | undefined>>;
  readonly expected: Readonly<Record<string, Expected | undefined>>;
}

/** One worked example of tests/tables/uncertainty.json; its source stands there, and in `source`. */
export function example(id: string) {
  const cases: readonly unknown[] = table.cases;
  const found = cases.find((candidate): candidate is TableCase =>
    typeof candidate === 'object' && candidate !== null && 'id' in candidate && candidate.id === id);
  if (found === undefined) throw new Error(`the table has no case ${id}`);
  const input = (name: string): unknown => found.inputs[name]?.value;
  return {
    source: found.source,
    number: (name: string): number => asNumber(input(name), name),
    numbers: (name: string): readonly number[] => asNumbers(input(name), name),
    /**
     * What lies outside the tolerance that the table states, in words; empty where all is well.
     * @param chance what is allowed besides for each number: four standard errors, where it was sampled
     */
    missed: (name: string, got: number | readonly number[], chance: readonly number[] = []): readonly string[] => {
      const expected = found.expected[name];
      if (expected === undefined) throw new Error(`${id} expects no ${name}`);
      const published = [expected.value].flat(3).map(Number);
      const computed = [got].flat();
      if (computed.length !== published.length) throw new Error(`${id} has ${published.length} values of ${name}`);
      return published.flatMap((entry, i) => {
        const { kind, value } = expected.tolerance;
        const allowed = (kind === 'relative' ? value * Math.abs(entry) : value) + (chance[i] ?? 0);
        const reached = computed[i] ?? Number.NaN;
        return Math.abs(reached - entry) <= allowed ? [] : [`${name}: ${reached} instead of ${entry} ± ${allowed}`];
      });
    },
  };
}

function asNumber(entry: unknown, name: string): number {
  if (typeof entry !== 'number') throw new Error(`${name} is no number`);
  return entry;
}

function asNumbers(entry: unknown, name: string): readonly number[] {
  if (!Array.isArray(entry)) throw new Error(`${name} is no list`);
  return entry.map((item) => asNumber(item, name));
}
