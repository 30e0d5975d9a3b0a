import { cellIn } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { symbolsOfState } from '../lighting.ts';
import type { LectureOrder } from './order.ts';
import { isAllRevealed, type Place } from './place.ts';

/** Symbols of the steps whose results the lecture has not come to. */
export function notYetTold(order: LectureOrder, place: Place, desk: Desk): ReadonlySet<string> {
  const ahead = order.stations.slice(place.index).filter((station, i) => i > 0 || !isAllRevealed(order, station, place));
  const cells = ahead.flatMap(({ blocks }) => blocks).filter((id) => cellIn(desk.block(id), 'step') !== undefined);
  return new Set(cells.flatMap((id) => symbolsOfState(desk.context().states.cell(id))));
}
