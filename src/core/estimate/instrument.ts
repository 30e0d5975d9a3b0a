import { intervalFromSI, quantityText, type Unit } from '../units/index.ts';
import { spreadOfLimit } from './distributions.ts';
import type { Component, Distribution } from './types.ts';

/** A kind of instrument with what one may expect of it. */
export interface InstrumentClass {
  /** As a sheet names it: `steel rule`. */
  readonly name: string;
  readonly otherNames: readonly string[];
  /** Unit that resolution and limit are told in; absent where the class has neither of its own. */
  readonly unit?: Unit;
  /** Smallest step it shows, SI, as an interval. */
  readonly resolution?: number;
  readonly limit: LimitOfError;
  /** How errors are spread within the limit. */
  readonly distribution: Distribution;
  /** What to look out for when reading it. */
  readonly note?: string;
}

/** Half-width of the limits: the greater of `absolute` and `steps` times the resolution, plus `share` of the reading. */
export interface LimitOfError {
  /** SI. */
  readonly absolute: number;
  readonly steps: number;
  readonly share: number;
}

/** Limits ± of error at a reading, SI. */
export function halfWidthAt({ limit, resolution = 0 }: InstrumentClass, reading: number): number {
  return Math.max(limit.absolute, limit.steps * resolution) + limit.share * Math.abs(reading);
}

/**
 * The type B part of a reading. The rule: the limit of error by its distribution AND the resolution δ as a rectangle of
 * half-width δ/2 (u² = δ²/12), always both, and with repeated readings too. The calibration behind a limit says nothing of
 * how finely this reading was taken; where readings scatter by far more than a step, the step's part is small anyway.
 * @source JCGM 100:2008, F.2.2.1 (resolution), 4.3.7 (limits). That both are always added is this project's rule.
 */
export function instrumentComponents(instrument: InstrumentClass, reading: number): readonly Component[] {
  const components: Component[] = [];
  const halfWidth = halfWidthAt(instrument, reading);
  if (halfWidth > 0) {
    components.push({ kind: 'B', source: limitWords(instrument), ...spreadOfLimit(halfWidth, instrument.distribution) });
  }
  const { resolution = 0 } = instrument;
  if (resolution > 0) {
    const source = `resolution ${intervalText(resolution, instrument.unit)}`;
    components.push({ kind: 'B', source, ...spreadOfLimit(resolution / 2, 'rectangular') });
  }
  return components;
}

function limitWords({ limit, resolution = 0, unit }: InstrumentClass): string {
  const fixed = Math.max(limit.absolute, limit.steps * resolution);
  const parts = [
    ...(fixed > 0 ? [`\u00b1${intervalText(fixed, unit)}`] : []),
    ...(limit.share > 0 ? [`\u00b1${plain(100 * limit.share)} % of the reading`] : []),
  ];
  return `limit ${parts.join(' and ')}`;
}

function intervalText(interval: number, unit: Unit | undefined): string {
  return unit === undefined ? String(plain(interval)) : quantityText(plain(intervalFromSI(interval, unit)), unit);
}

/** Without the last digits, which conversion leaves behind. */
function plain(value: number): number {
  return Number(value.toPrecision(12));
}
