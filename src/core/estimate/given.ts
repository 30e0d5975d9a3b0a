import { isCalculable } from '../numeric/index.ts';
import { fail, ok, type Result } from '../problem/index.ts';
import { spreadOfLimit, type LimitKnowledge } from './distributions.ts';
import { limitComponents, resolutionComponent, type InstrumentClass } from './instrument.ts';
import { inputUncertainty } from './input.ts';
import type { Measurement } from './measurement-text.ts';
import { summariseReadings, type ReadingStatistics } from './readings.ts';
import { coefficientOutOfRange, readingsMissing, readingsOutOfRange } from './together-problems.ts';
import type { Component, Input } from './types.ts';

/** What is known of a measured or stated quantity. SI. */
export interface GivenSpec {
  /** The symbol. */
  readonly id: string;
  /** One entry for a single value. */
  readonly readings: readonly number[];
  readonly stated?: Measurement['stated'];
  readonly instrument?: InstrumentClass;
  /** How well a stated limit is known. */
  readonly known?: LimitKnowledge;
  /** Name of the group of givens read in pairs. */
  readonly together?: string;
  /** Stated correlation coefficients, by the other input's id. */
  readonly correlations?: ReadonlyMap<string, number>;
}

/**
 * The input that a given is, with the components of its uncertainty: what is stated, alone; else the instrument's limit of error
 * (type B), which all readings have alike, and the larger of its resolution (type B) and the scatter of n ≥ 2 readings (type A, n − 1
 * degrees of freedom). What rounding to a step does to the readings is in their scatter already, so that it is not counted twice; and readings that
 * agree by the coarseness of the scale are no surer than one step. One reading without instrument has no uncertainty.
 * Problems: `readings-none`, `readings-too-large`, `correlation-range`.
 * @source JCGM 100:2008, 4.2, 4.3.7, 4.3.10 (nothing counted twice), F.2.2.1. That the larger is taken is common practice, no published source.
 */
export function evaluateGiven(spec: GivenSpec): Result<Input> {
  const { id, readings, together, correlations } = spec;
  if (readings.length === 0) return fail(readingsMissing());
  for (const [other, coefficient] of correlations ?? []) {
    if (!(Math.abs(coefficient) <= 1)) return fail(coefficientOutOfRange(id, other, coefficient));
  }
  const statistics = summariseReadings(readings);
  const components = spec.stated === undefined ? measuredComponents(spec, statistics) : [statedComponent(spec.stated, spec.known)];
  const input: Input = Object.freeze({
    id,
    value: statistics.mean,
    components: Object.freeze(components),
    ...(together === undefined
      ? {}
      : { together: { group: together, deviations: spec.stated === undefined ? statistics.deviations : [] } }),
    ...(correlations === undefined ? {} : { correlations }),
  });
  if (!isCalculable(input.value) || !isCalculable(inputUncertainty(input))) return fail(readingsOutOfRange());
  return ok(input);
}

function measuredComponents({ instrument, readings }: GivenSpec, statistics: ReadingStatistics): readonly Component[] {
  const limits = instrument === undefined ? [] : limitComponents(instrument, statistics.mean);
  const resolution = instrument === undefined ? undefined : resolutionComponent(instrument);
  const part = readingsPart(readings.length, statistics, resolution);
  if (part === undefined) return limits;
  return part.kind === 'A' ? [part, ...limits] : [...limits, part];
}

/** What is not the same in every reading: their scatter, or the step of the scale where that is larger. */
function readingsPart(count: number, { standardUncertainty, degreesOfFreedom }: ReadingStatistics, resolution: Component | undefined): Component | undefined {
  if (count < 2) return resolution;
  const coveredResolution = resolution?.standardUncertainty ?? 0;
  if (resolution !== undefined && coveredResolution >= standardUncertainty) return { ...resolution, source: `${resolution.source}, more than the scatter of ${count} readings` };
  return { kind: 'A', source: `${count} readings`, distribution: 't', standardUncertainty, degreesOfFreedom, ...(coveredResolution > 0 ? { coveredResolution } : {}) };
}

function statedComponent(stated: NonNullable<Measurement['stated']>, known: LimitKnowledge | undefined): Component {
  if (stated.kind === 'limit') {
    const source = `stated limit, ${stated.distribution}`;
    return { kind: 'B', source, ...spreadOfLimit(stated.value, stated.distribution, known) };
  }
  const normal = { distribution: 'normal', standardUncertainty: stated.value, degreesOfFreedom: Infinity } as const;
  return { kind: 'B', source: 'stated', ...normal };
}
