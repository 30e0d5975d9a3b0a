import { intervalToSI, parseUnit, type Unit } from '../units/index.ts';
import type { InstrumentClass, LimitOfError } from './instrument.ts';

/** One line of the table, in the units of the trade. */
interface Row {
  readonly name: string;
  readonly otherNames?: readonly string[];
  readonly unit?: string;
  /** In `unit`. */
  readonly resolution?: number;
  /** In `unit`, steps of the resolution, percent of the reading. */
  readonly limit?: { readonly absolute?: number; readonly steps?: number; readonly percent?: number };
  readonly note?: string;
  /** The percent are the error of one scale, the same in all that it measures: not of weights, each of which has its own, nor of values from tables. */
  readonly oneScale?: true;
}

/**
 * Usual limits of error by class of instrument: common practice, no published source. Where the trade names a range, the
 * upper end is taken. They are defaults: a certificate of the very instrument is always better. The 0.02 % of rule and tape are the 0.2 mm/m of
 * class II in Directive 2014/32/EU, annex X (from memory).
 */
const ROWS: readonly Row[] = [
  { name: 'steel rule', oneScale: true, otherNames: ['rule', 'ruler'], unit: 'mm', resolution: 0.5, limit: { steps: 1, percent: 0.02 },
    note: 'Both ends are read: look square on at each.' },
  { name: 'tape measure', oneScale: true, otherNames: ['tape'], unit: 'mm', resolution: 1, limit: { steps: 1, percent: 0.02 } },
  { name: 'caliper', otherNames: ['calliper', 'vernier caliper', 'digital caliper', 'vernier'], unit: 'mm',
    resolution: 0.01, limit: { absolute: 0.02, steps: 1.5 }, note: 'Jaws on a waist read large.' },
  { name: 'micrometer', otherNames: ['micrometre', 'micrometer screw'], unit: 'mm', resolution: 0.01,
    limit: { absolute: 0.004, steps: 1 },
    note: 'Flat anvils cannot reach the bottom of a narrow waist: use blade or ball anvils.' },
  { name: 'dial indicator', otherNames: ['dial gauge', 'dial test indicator'], unit: 'mm', resolution: 0.01,
    limit: { absolute: 0.02, steps: 2 } },
  { name: 'weights', otherNames: ['weight', 'dead weights', 'dead weight'], limit: { percent: 0.5 },
    note: 'As long as they are not calibrated.' },
  { name: 'load cell', oneScale: true, otherNames: ['load cell read-out', 'read-out', 'indicator'], unit: 'N', resolution: 1,
    limit: { percent: 1 }, note: 'Its zero drifts: read it unloaded before and after.' },
  { name: 'spring balance', unit: 'N', resolution: 1, limit: { steps: 1 } },
  { name: 'balance', otherNames: ['scales'], unit: 'g', resolution: 1, limit: { steps: 1 } },
  { name: 'tachometer', oneScale: true, unit: 'rev/min', resolution: 1, limit: { steps: 1, percent: 0.1 } },
  { name: 'counter', otherNames: ['revolution counter', 'cycle counter'], unit: '1', resolution: 1, limit: { steps: 1 },
    note: 'Its resolution is its multiplier.' },
  { name: 'stop watch', otherNames: ['stopwatch'], unit: 's', resolution: 0.01, limit: { absolute: 0.3, steps: 1 },
    note: 'Started and stopped by hand.' },
  { name: 'clock', otherNames: ['watch'], unit: 'min', resolution: 1, limit: { steps: 1 } },
  { name: 'protractor', unit: 'deg', resolution: 1, limit: { steps: 1 } },
  { name: 'thermometer', unit: '\u00b0C', resolution: 1, limit: { absolute: 1, steps: 1 } },
  { name: 'table value', otherNames: ['table', 'handbook value', 'handbook', 'E from a table'], limit: { percent: 3 },
    note: 'Such as E of a steel from a table.' },
  { name: 'resolution only', otherNames: ['resolution'], note: 'Nothing else is known, or nothing else matters.' },
];

/** The classes a sheet can name, with their usual resolution and limit of error. */
export const INSTRUMENT_CLASSES: readonly InstrumentClass[] = ROWS.map(classOf);

function classOf({ name, otherNames = [], unit: unitName, resolution, limit = {}, note, oneScale }: Row): InstrumentClass {
  const unit = unitName === undefined ? undefined : unitNamed(unitName);
  const si = (value: number): number => (unit === undefined ? value : intervalToSI(value, unit));
  const { absolute = 0, steps = 0, percent = 0 } = limit;
  const limitOfError: LimitOfError = { absolute: si(absolute), steps, share: percent / 100 };
  return Object.freeze({
    name,
    otherNames,
    ...(unit === undefined ? {} : { unit }),
    ...(resolution === undefined ? {} : { resolution: si(resolution) }),
    limit: limitOfError,
    distribution: 'rectangular' as const,
    hasOneScale: oneScale === true,
    ...(note === undefined ? {} : { note }),
  });
}

function unitNamed(name: string): Unit {
  const unit = parseUnit(name);
  if (!unit.ok) throw new Error(`the table of instruments names a unit that is not known: ${name}`);
  return unit.value;
}
