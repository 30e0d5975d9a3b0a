import { contributions, sharedCauses, sumOfCause, type Contribution } from './estimate.ts';
import { inputCorrelation, inputUncertainty, pairedReadings, statedCoefficient } from './input.ts';
import type { Estimate, Input } from './types.ts';

/** A part of a result's variance that is independent of the others. */
interface IndependentPart {
  /** Its square root, SI. */
  readonly size: number;
  /** Of the estimate of variance that it rests on. */
  readonly degreesOfFreedom: number;
}

/**
 * The parts of a result's variance, each resting on one estimate of variance: a component of an input; what an instrument gives all that it
 * measured; what readings in pairs give together, since the combination evaluated pair by pair has n − 1 degrees of freedom like each of them;
 * what the parameters of one fit give together, or others with stated coefficients that are exactly known.
 * Undefined where coefficients are stated between inputs whose uncertainties rest on different estimates.
 * @source JCGM 100:2008, G.4.1; H.2.4 (readings in pairs evaluated pair by pair).
 */
export function independentParts(estimate: Estimate): readonly IndependentPart[] | undefined {
  const parts: IndependentPart[] = [];
  const untied: Contribution[] = [];
  for (const group of linked(contributions(estimate), ({ input: a }, { input: b }) => (statedCoefficient(a, b) ?? 0) !== 0)) {
    if (group.length === 1) untied.push(...group);
    else {
      const degreesOfFreedom = sharedDegreesOfFreedom(group.map(({ input }) => input));
      if (degreesOfFreedom === undefined) return undefined;
      parts.push({ size: combinedSize(group), degreesOfFreedom });
    }
  }
  return [...parts, ...partsOfUntied(untied)];
}

function partsOfUntied(untied: readonly Contribution[]): readonly IndependentPart[] {
  const parts: IndependentPart[] = [];
  const causes = sharedCauses(untied);
  const all = untied.flatMap(({ input }) => input.components);
  for (const cause of causes) {
    const degreesOfFreedom = all.find(({ common }) => common === cause)?.degreesOfFreedom ?? Infinity;
    parts.push({ size: Math.abs(sumOfCause(untied, cause, 1)), degreesOfFreedom });
  }
  const paired = new Set<Contribution>();
  for (const group of linked(untied, ({ input: a }, { input: b }) => pairedReadings(a, b) > 0)) {
    if (group.length === 1) continue;
    for (const member of group) paired.add(member);
    const scatter = group.map(scatterOf);
    parts.push({ size: combinedSize(scatter), degreesOfFreedom: scatter[0]?.input.components[0]?.degreesOfFreedom ?? Infinity });
  }
  for (const contribution of untied) {
    for (const { kind, common, standardUncertainty: u, degreesOfFreedom } of contribution.input.components) {
      if ((kind === 'A' && paired.has(contribution)) || (common !== undefined && causes.has(common))) continue;
      parts.push({ size: Math.abs(contribution.derivative * u), degreesOfFreedom });
    }
  }
  return parts;
}

/** Items that are linked, directly or by way of others, in one list. */
export function linked<T>(own: readonly T[], areLinked: (a: T, b: T) => boolean): readonly (readonly T[])[] {
  const waiting = new Set(own);
  const groups: T[][] = [];
  for (const first of own) {
    if (!waiting.delete(first)) continue;
    const group = [first];
    for (const member of group) {
      for (const other of waiting) {
        if (!areLinked(member, other)) continue;
        waiting.delete(other);
        group.push(other);
      }
    }
    groups.push(group);
  }
  return groups;
}

/** Variance of the sum of these contributions, in units of `unit` squared; rounding may not bring it below zero. */
export function varianceOf(members: readonly Contribution[], unit: number): number {
  let sum = 0;
  for (const a of members) for (const b of members) sum += inputCorrelation(a.input, b.input) * (a.size / unit) * (b.size / unit);
  return Math.max(0, sum);
}

/** √ of the variance of the sum of these contributions, SI. */
export function combinedSize(members: readonly Contribution[]): number {
  const unit = members.reduce((largest, { size }) => Math.max(largest, Math.abs(size)), 0);
  return unit === 0 ? 0 : unit * Math.sqrt(varianceOf(members, unit));
}

/** What the readings of an input give, without its instrument. */
function scatterOf({ input, derivative }: Contribution): Contribution {
  const scatter: Input = { ...input, components: input.components.filter(({ kind }) => kind === 'A') };
  return { input: scatter, derivative, size: derivative * inputUncertainty(scatter) };
}

/** Degrees of freedom of inputs whose uncertainties rest on one estimate: a component each with the same ones, or all exactly known. */
export function sharedDegreesOfFreedom(inputs: readonly Input[]): number | undefined {
  const all = inputs.flatMap(({ components }) => components.map(({ degreesOfFreedom }) => degreesOfFreedom));
  const isOneEstimate = all.every((one) => one === all[0]) && (all[0] === Infinity || all.length === inputs.length);
  return isOneEstimate ? all[0] : undefined;
}
