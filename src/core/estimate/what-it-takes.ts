import { contributions, type Contribution } from './estimate.ts';
import { linked, varianceOf } from './independent-parts.ts';
import { inputCorrelation, mayBeCorrelated } from './input.ts';
import type { Estimate, Input } from './types.ts';

/** What some inputs would have to become for a result to be as sure as wanted, all others as they are. */
export interface Requirement {
  /** One input; or several that are correlated, and so are bettered or left together. */
  readonly inputs: readonly Input[];
  /**
   * Times its present size that each of their standard uncertainties may have; their correlation stays. Undefined where
   * even 0 would not do. Above 1 the result is surer than wanted already; infinite where what they give cancels.
   */
  readonly factor: number | undefined;
  /** Standard uncertainty of the result if these inputs had none, SI: as far as they can bring it. */
  readonly least: number;
}

/**
 * For each input, the standard uncertainty with which the result's would be the wanted one: with u² = Σ (cᵢuᵢ)², the
 * input's own part may be wanted² − (u² − (cᵢuᵢ)²). Correlated inputs share a covariance that no single one of them
 * owns, so that they are taken together, each in the same proportion. Those that give most come first.
 * @param wanted standard uncertainty of the result, SI, > 0
 * @source JCGM 100:2008, equations 10 and 16, solved for one term.
 */
export function whatItTakes(estimate: Estimate, wanted: number): readonly Requirement[] {
  const own = contributions(estimate);
  const unit = own.reduce((largest, { size }) => Math.max(largest, Math.abs(size)), 0);
  if (!Number.isFinite(unit)) return [];
  const groups = linked(own, areCorrelated).map((members) => ({ members, variance: varianceOf(members, unit) }));
  const goal = (wanted / unit) ** 2;
  return groups
    .toSorted((a, b) => b.variance - a.variance)
    .map(({ members, variance: part }, place, all): Requirement => {
      // Summed anew rather than taken from the whole, which would cost the small ones their digits.
      const rest = all.reduce((sum, group, at) => (at === place ? sum : sum + group.variance), 0);
      const left = goal - rest;
      const factor = left < 0 ? undefined : part === 0 ? Infinity : Math.sqrt(left / part);
      return { inputs: members.map(({ input }) => input), factor, least: unit * Math.sqrt(rest) };
    });
}

/**
 * How many readings an input would need for a wanted standard uncertainty, if they go on to scatter as they did and
 * everything else about it stays; undefined where it has no readings, and where readings alone can't do it.
 * @param wanted standard uncertainty of the input, SI, > 0
 * @source JCGM 100:2008, 4.2.3: u² = s²/n, beside the components of type B; not below the resolution that the scatter covers.
 */
export function readingsNeeded({ components }: Input, wanted: number): number | undefined {
  const scatter = components.find(({ kind }) => kind === 'A');
  if (scatter === undefined || !Number.isFinite(scatter.degreesOfFreedom)) return undefined;
  const others = components.reduce((sum, part) => (part === scatter ? sum : sum + (part.standardUncertainty / wanted) ** 2), 0);
  if (others + ((scatter.coveredResolution ?? 0) / wanted) ** 2 >= 1) return undefined;
  const n = ((scatter.degreesOfFreedom + 1) * (scatter.standardUncertainty / wanted) ** 2) / (1 - others);
  return Number.isFinite(n) ? Math.max(1, Math.ceil(n - ROUNDING * n)) : undefined;
}

const ROUNDING = 1e-9;

function areCorrelated({ input: a }: Contribution, { input: b }: Contribution): boolean {
  return (mayBeCorrelated(a) || mayBeCorrelated(b)) && inputCorrelation(a, b) !== 0;
}
