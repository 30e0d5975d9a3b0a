import { effectiveDegreesOfFreedom } from './coverage.ts';
import { fromInput, standardUncertainty } from './estimate.ts';
import { combinedSize, linked, sharedDegreesOfFreedom } from './independent-parts.ts';
import { inputCorrelation, inputUncertainty, mayBeCorrelated, statedCoefficient } from './input.ts';
import type { Component, Estimate, Input } from './types.ts';

/** What one input gives the uncertainty of a result. SI. */
export interface BudgetEntry {
  readonly input: Input;
  /** Of the input. */
  readonly standardUncertainty: number;
  /** Effective degrees of freedom of the input by itself; infinite where exactly known. */
  readonly degreesOfFreedom: number;
  /** d(result)/d(input). */
  readonly derivative: number;
  /** Derivative times standard uncertainty, with its sign. */
  readonly contribution: number;
  /** Contribution squared over the result's variance. Alone, shares add up to 1 where no inputs are correlated. */
  readonly share: number;
  /** What covariances with other inputs add to the variance or take from it, half of each on either side, over the variance. */
  readonly covarianceShare: number;
  readonly components: readonly ComponentShare[];
}

/** The part of an entry that one component has. */
export interface ComponentShare {
  readonly component: Component;
  readonly contribution: number;
  readonly share: number;
}

/**
 * Uncertainty budget of a result, the largest share first. `share` and `covarianceShare` of all entries add up to 1; all
 * are 0 where the result has no uncertainty.
 * @source JCGM 100:2008, 5.1 and 5.2, H.1 Table H.1 for the form.
 */
export function budget(estimate: Estimate): readonly BudgetEntry[] {
  const combined = standardUncertainty(estimate);
  const over = (size: number): number => (combined === 0 ? 0 : size / combined);
  const sized = [...estimate.sensitivities.values()].map(({ input, derivative }) => {
    const u = inputUncertainty(input);
    return { input, derivative, u, contribution: derivative * u };
  });
  const entries = sized.map(({ input, derivative, u, contribution }): BudgetEntry => {
    const relative = over(contribution);
    let shared = 0;
    for (const other of sized) {
      if (other.input.id === input.id || !(mayBeCorrelated(input) || mayBeCorrelated(other.input))) continue;
      shared += inputCorrelation(input, other.input) * relative * over(other.contribution);
    }
    const components = input.components.map((component): ComponentShare => {
      const part = derivative * component.standardUncertainty;
      return { component, contribution: part, share: over(part) ** 2 };
    });
    const shares = { share: relative ** 2, covarianceShare: shared, components };
    // An input by itself is correlated with nothing, so that its degrees of freedom are always claimed.
    const degreesOfFreedom = effectiveDegreesOfFreedom(fromInput(input)) ?? Infinity;
    return { input, standardUncertainty: u, degreesOfFreedom, derivative, contribution, ...shares };
  });
  return entries.sort((a, b) => b.share - a.share);
}

/** Inputs that a budget tells in one row: mostly one; else the parameters of one fit, whose single contributions are large, cancel, and say nothing. */
export interface BudgetRow {
  readonly members: readonly BudgetEntry[];
  readonly degreesOfFreedom: number;
  /** Of several together, without sign. */
  readonly contribution: number;
  readonly share: number;
  /** With inputs of other rows. */
  readonly covarianceShare: number;
}

/**
 * The budget with what rests on one estimate of variance taken together, the largest share first.
 * @source JCGM 100:2008, H.3 (the line's parameters and their covariance enter a result together).
 */
export function budgetRows(estimate: Estimate): readonly BudgetRow[] {
  // In the order of the inputs, so that the parameters of a line stand in theirs.
  const order = [...estimate.sensitivities.keys()];
  const entries = [...budget(estimate)].sort((a, b) => order.indexOf(a.input.id) - order.indexOf(b.input.id));
  const areOne = ({ input: a }: BudgetEntry, { input: b }: BudgetEntry): boolean =>
    (statedCoefficient(a, b) ?? 0) !== 0 && Number.isFinite(sharedDegreesOfFreedom([a, b]) ?? Infinity);
  const combined = standardUncertainty(estimate);
  return linked(entries, areOne).map((members) => rowOf(members, combined)).sort((a, b) => b.share - a.share);
}

function rowOf(members: readonly BudgetEntry[], combined: number): BudgetRow {
  const [only, ...more] = members;
  if (only !== undefined && more.length === 0) return { ...only, members };
  const contribution = combinedSize(members.map((entry) => ({ ...entry, size: entry.contribution })));
  const share = combined === 0 ? 0 : (contribution / combined) ** 2;
  const all = members.reduce((sum, entry) => sum + entry.share + entry.covarianceShare, 0);
  return { members, degreesOfFreedom: only?.degreesOfFreedom ?? Infinity, contribution, share, covarianceShare: all - share };
}
