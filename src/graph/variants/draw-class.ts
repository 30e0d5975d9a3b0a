import { drawVariant, teamSeed } from './draw.ts';
import type { Misfit, Variant, VariantPlan } from './types.ts';

/** What was drawn for one team of a class. */
export interface TeamDraw {
  readonly team: string;
  readonly seed: number;
  readonly variant?: Variant;
  readonly misfit?: Misfit;
  /** An earlier team that has the same numbers, where others were not found. */
  readonly sameAs?: string;
}

/** A team whose numbers an earlier one has gets those of another seed, so many times at most. */
const MOST_AGAIN = 20;

/** The numbers of one team after another; each step takes some milliseconds. */
export function* drawClass(plan: VariantPlan, classSeed: string, teams: readonly string[]): Generator<TeamDraw, void> {
  const given = new Map<string, string>();
  for (const team of teams) {
    let draw = drawOne(plan, team, teamSeed(classSeed, team));
    let numbers = numbersOf(draw);
    for (let again = 1; again <= MOST_AGAIN && given.has(numbers); again++) {
      draw = drawOne(plan, team, teamSeed(classSeed, team, again));
      numbers = numbersOf(draw);
    }
    const sameAs = given.get(numbers);
    if (sameAs === undefined && draw.variant !== undefined) given.set(numbers, team);
    yield sameAs === undefined ? draw : { ...draw, sameAs };
  }
}

function drawOne(plan: VariantPlan, team: string, seed: number): TeamDraw {
  return { team, seed, ...drawVariant(plan, seed) };
}

function numbersOf({ variant, team }: TeamDraw): string {
  return variant === undefined ? `none for ${team}` : variant.entries.map(({ text }) => text).join('\n');
}
