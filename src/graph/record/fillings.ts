import { numberText } from '../../core/units/index.ts';
import type { RecordCell } from '../../sheet/types.ts';
import { readRecord } from './read-record.ts';

/** What a record fills into givens that nobody has typed in, by symbol: after a fracture only, since a runout has no life. */
export function recordFillings(cell: RecordCell): ReadonlyMap<string, string> {
  const record = readRecord(cell);
  const fillings = new Map<string, string>();
  if (record.phase !== 'ended' || record.outcome !== 'fracture' || record.problems.length > 0) return fillings;
  const cycles = cell.fills.get('cycles');
  if (cycles !== undefined && record.counted !== undefined && record.counted.cycles > 0) {
    fillings.set(cycles, `${numberText(record.counted.cycles)} ± ${numberText(Number(record.counted.standardUncertainty.toPrecision(3)))} cycles`);
  }
  const place = cell.fills.get('place');
  const where = cell.texts.get('place');
  if (place !== undefined && where !== undefined) fillings.set(place, where);
  return fillings;
}
