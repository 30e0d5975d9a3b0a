/** Slips planted over both machines' chains, at random inputs: how often the right one is told first, and how often a random wrong number is explained at all. */
import { createRandom, explainedByChance, nameOf, setUp, tellOf, type Setup } from './diagnosis-study.ts';
import { ASIDE, ASKED, PLANTED, type Planted } from './planted-slips.ts';

const SETUPS = Number(process.env['SPANLIFE_CASES'] ?? 8);
const random = createRandom(20261130);
const misses = new Map<string, number>();

async function setups(sheet: Planted['sheet']): Promise<readonly Setup[]> {
  const made: Setup[] = [];
  for (let i = 0; i < SETUPS; i += 1) made.push(await setUp(sheet, ASKED[sheet], random));
  return made;
}

const at = { 'rotating-bending': await setups('rotating-bending'), 'alternating-bending': await setups('alternating-bending') };
for (const [set, planteds, figures] of [['made with', PLANTED, 4], ['made with', PLANTED, 3], ['made with', PLANTED, 5], ['kept aside', ASIDE, 4], ['kept aside', ASIDE, 3]] as const) {
  const counts = { first: 0, told: 0, other: 0, silent: 0, right: 0 };
  const chance: string[] = [];
  for (const sheet of ['rotating-bending', 'alternating-bending'] as const) {
    for (const setup of at[sheet]) {
      for (const planted of planteds.filter((one) => one.sheet === sheet)) {
        const { verdict, slips } = tellOf(planted, setup, figures);
        counts[verdict] += 1;
        if (verdict !== 'first' && verdict !== 'right') {
          const key = `${set}, ${figures} figures, ${planted.step}: ${planted.what}: ${verdict} ${slips.map((slip) => nameOf(slip)).join(' + ')}`;
          misses.set(key, (misses.get(key) ?? 0) + 1);
        }
      }
    }
    const [first] = at[sheet];
    for (const symbol of ASKED[sheet]) {
      if (first !== undefined) chance.push(`${symbol} ${(100 * explainedByChance(first, symbol, figures, random, 500)).toFixed(1)}`);
    }
  }
  const asked = counts.first + counts.told + counts.other + counts.silent;
  console.log(`${set}, ${figures} figures typed: ${asked} planted, told first ${(100 * counts.first / asked).toFixed(1)} %, told ${(100 * (counts.first + counts.told) / asked).toFixed(1)} %, something else ${counts.other}, silent ${counts.silent}; ${counts.right} within 1 % of right`);
  console.log(`  explained by chance, %: ${chance.join(', ')}`);
}
for (const [what, count] of [...misses].toSorted((a, b) => b[1] - a[1])) console.log(`${String(count).padStart(3)} of ${SETUPS} ${what}`);
