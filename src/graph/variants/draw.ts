import { createRandom, seedOfText } from '../../core/numeric/index.ts';
import { withEntries } from '../../sheet/index.ts';
import { compileSheet } from '../compile.ts';
import { reckon, type Reckoned } from '../reckon.ts';
import { alongDrawn, isMet, reckonedThere, type There } from './conditions.ts';
import { drawNumbers } from './numbers.ts';
import type { Misfit, Variant, VariantPlan } from './types.ts';

/** Sets of numbers that are tried for one team. */
const MOST_TRIES = 2000;
/** Sets that looked right along the chain and are worked out in the sheet itself, which takes some milliseconds each. */
const MOST_WORKED_OUT = 60;
/** Sets that are worked out at a time; how many says nothing about which are found. */
const AT_A_TIME = 50;

/** A team's numbers, or how often each condition was not met. The same plan and seed give the same numbers everywhere. */
export function drawVariant(plan: VariantPlan, seed: number): { readonly variant: Variant; readonly misfit?: never } | { readonly misfit: Misfit; readonly variant?: never } {
  const { varied, known, conditions, chain } = plan;
  const random = createRandom(seed);
  const failed = conditions.map(() => 0);
  const meets = (there: There): boolean => {
    let all = true;
    for (const [i, condition] of conditions.entries()) {
      if (isMet(condition, there)) continue;
      failed[i] = (failed[i] ?? 0) + 1;
      all = false;
    }
    return all;
  };
  const counted = (): Misfit['failed'] => [...conditions.map(({ words }, i) => ({ words, times: failed[i] ?? 0 })), { words: 'the sheet takes the numbers', times: refused }]
    .filter(({ times }) => times > 0).toSorted((a, b) => b.times - a.times);
  let [workedOut, refused] = [0, 0];
  for (let tried = 0; tried < MOST_TRIES; tried += AT_A_TIME) {
    const drawn = drawNumbers(varied, known, (count) => Math.floor(random.uniform() * count), AT_A_TIME);
    const there = alongDrawn(chain, conditions, drawn);
    for (let place = 0; place < AT_A_TIME; place++) {
      if (!meets(there(place))) continue;
      if ((workedOut += 1) > MOST_WORKED_OUT) return { misfit: { tries: tried + place, failed: counted() } };
      const entries = drawn.entriesAt(place);
      const reckoned = reckonedWith(plan, entries);
      // What was told along the chain takes uncertainties as they are in the middle; the sheet itself has the last word.
      if (reckoned === undefined) refused += 1;
      else if (meets(reckonedThere(reckoned, plan.document))) return { variant: { seed, entries, tries: tried + place + 1, reckoned } };
    }
  }
  return { misfit: { tries: MOST_TRIES, failed: counted() } };
}

function reckonedWith({ document, middle }: VariantPlan, entries: Variant['entries']): Reckoned | undefined {
  const filled = withEntries(document, entries);
  if (!filled.ok) return undefined;
  const compiled = compileSheet(filled.value, []);
  return { compiled, states: reckon(compiled, [middle]) };
}

/**
 * The seed of one team's numbers: of what the team is called, however it is written, and of the class's seed, which stands last so that nobody gets
 * from one team's seed to another's without it.
 */
export function teamSeed(classSeed: string, team: string, again = 0): number {
  const name = team.normalize('NFC').trim().replace(/\s+/gu, ' ').toLowerCase();
  return Math.floor(createRandom(seedOfText([name, ...(again === 0 ? [] : [String(again)]), classSeed.trim()].join('\n'))).uniform() * 2 ** 32);
}
