/**
 * Very many made-up sheets through parsing, graph and all that is said of them: npm run bench -- faults. How many is said by
 * SPANLIFE_CASES (10 000 unless said; a million take some hours), where to begin by SPANLIFE_SEED. One in fifty (SPANLIFE_WHOLE) is a whole worksheet with texts changed.
 */
import { createRandom } from '../../src/core/numeric/index.ts';
import { faultsIn, FORMULAS, mutate, SHEETS, smallSheet, VALUES } from '../report/mutants.ts';

const count = Number(process.env['SPANLIFE_CASES'] ?? 10_000);
const seed = Number(process.env['SPANLIFE_SEED'] ?? 1);
const whole = Number(process.env['SPANLIFE_WHOLE'] ?? 50);
const random = createRandom(seed);
const below = (most: number): number => Math.floor(random.uniform() * most);
const one = <T>(list: readonly T[]): T => list[below(list.length)] as T;

const changes = () => Array.from({ length: 1 + below(3) }, () => ({ cell: below(999), place: below(999), text: one(VALUES), formula: one(FORMULAS) }));
const sheet = (i: number): string => (i % whole === 0 ? mutate(one(SHEETS), changes()) : smallSheet([one(VALUES), one(VALUES), one(VALUES)], [one(FORMULAS), one(FORMULAS)]));

const found = new Map<string, { count: number; readonly first: string; readonly at: number }>();
const begun = performance.now();
for (let i = 0; i < count; i += 1) {
  for (const fault of await faultsIn(sheet(i))) {
    const kind = fault.replaceAll(/\d+/g, '#').slice(0, 160);
    const there = found.get(kind);
    if (there === undefined) found.set(kind, { count: 1, first: fault, at: i });
    else there.count += 1;
  }
}
process.stdout.write(`${count} sheets from seed ${seed}, ${((performance.now() - begun) / count).toFixed(1)} ms each: ${found.size} kinds of fault\n`);
for (const { count: times, first, at } of found.values()) process.stdout.write(`${times} times, first at ${at}: ${first}\n`);
if (found.size > 0) process.exitCode = 1;
