import { intervalFromSI, quantityText, type Unit } from '../units/index.ts';
import { spreadOfLimit, type LimitKnowledge } from './distributions.ts';
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
  /** How well the limit itself is known, where something is said of that. */
  readonly known?: LimitKnowledge;
  /** Whether the share of its limit is the error of one scale, the same share of everything measured with it. */
  readonly hasOneScale: boolean;
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
 * What the limit of error gives a reading, by its distribution: repetition makes it no smaller, since the same instrument errs the same way each time.
 * Of an instrument with one scale the share of the reading is a part by itself, in common to all that it measured; instruments of one description
 * are taken to be one. Its fixed part is another at other places of the scale, and so each reading's own.
 * @source JCGM 100:2008, 4.3.7 (limits); 5.2.4 and F.1.2.3 (what two quantities have from one instrument correlates them).
 */
export function limitComponents(instrument: InstrumentClass, reading: number): readonly Component[] {
  const { limit, distribution, name, known } = instrument;
  const share = limit.share * Math.abs(reading);
  const isApart = instrument.hasOneScale && share > 0;
  const own = isApart ? { ...instrument, limit: { ...limit, share: 0 } } : instrument;
  const components: Component[] = [];
  const halfWidth = halfWidthAt(own, reading);
  if (halfWidth > 0) components.push({ kind: 'B', source: limitWords(own), ...spreadOfLimit(halfWidth, distribution, known) });
  if (isApart) {
    const source = limitWords({ ...instrument, limit: { absolute: 0, steps: 0, share: limit.share } });
    components.push({ kind: 'B', source, ...spreadOfLimit(share, distribution, known), common: `${name}, ${source}, ${distribution}${known === undefined ? '' : ` ${known.inexactness} ${known.degreesOfFreedom}`}` });
  }
  return components;
}

/**
 * What the resolution δ gives a reading, as a rectangle of half-width δ/2: u² = δ²/12.
 * @source JCGM 100:2008, F.2.2.1.
 */
export function resolutionComponent({ resolution = 0, unit }: InstrumentClass): Component | undefined {
  if (!(resolution > 0)) return undefined;
  return { kind: 'B', source: `resolution ${intervalText(resolution, unit)}`, ...spreadOfLimit(resolution / 2, 'rectangular') };
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
