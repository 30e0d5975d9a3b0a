import { fromSI } from '../../core/units/index.ts';
import type { GivenCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { decimals, stepOf } from '../shift.ts';

/** More places than the instrument's step has: the mean of up to a hundred readings is told apart from its neighbours. */
const FURTHER_PLACES = 2;

/** The mean of a given's readings as a trial value begins from it: `101.25 mm`. Undefined while they can't be read. */
export function meanText(cell: GivenCell, desk: Desk): string | undefined {
  const state = desk.context().states.cell(cell.id);
  const readings = state?.reading;
  if (readings === undefined || readings.readings.length === 0) return undefined;
  const { typedUnit } = readings;
  const mean = readings.readings.reduce((sum, reading) => sum + reading, 0) / readings.readings.length;
  const places = decimals(String(Number(fromSI(stepOf(cell, typedUnit), typedUnit).toPrecision(6))));
  const [whole = '', behind = ''] = fromSI(mean, typedUnit).toFixed(places + FURTHER_PLACES).split('.');
  const kept = behind.replace(/0+$/u, '').padEnd(places, '0');
  const number = kept === '' ? whole : `${whole}.${kept}`;
  return typedUnit.name === '1' ? number : `${number} ${typedUnit.name}`;
}
