import { definingCell } from '../../report/index.ts';
import type { Handle } from '../../figures/drawings/index.ts';
import { holdsReadings } from '../../graph/index.ts';
import { cellIn, setTrial, trialText, type EditCommand, type GivenCell } from '../../sheet/index.ts';
import { fromSI } from '../../core/units/index.ts';
import { setGiven } from '../commands.ts';
import type { Desk } from '../desk.ts';
import type { GivenText } from '../readings.ts';
import { blanksOf, givenText } from '../readings.ts';
import { sameNumber, shiftText, stepOf } from '../shift.ts';
import { meanText } from './mean-text.ts';

type Place = Pick<Handle, 'moves'>;

/** A given that changes with a place, as it was when the move began. */
export interface MovedGiven {
  readonly cell: GivenCell;
  readonly sign: 1 | -1;
  /** What is shifted: the one value typed, the trial value, or the mean of the readings. */
  readonly base: GivenText;
  /** Where a trial value moves beside what was measured: the text with which that is no other value, so that none is needed. */
  readonly home?: string;
}

/**
 * The givens behind a place; empty where one of them can't be found or has no text to shift. Readings are the record: where one
 * of the givens has any, a trial value moves beside each of them, so that all are put back together.
 */
export function givensOf(place: Place, desk: Desk): readonly MovedGiven[] {
  const cells = cellsOf(place, desk);
  const isTrial = cells.some(({ cell }) => holdsReadings(cell) || trialText(cell) !== undefined);
  const givens = cells.flatMap(({ cell, sign }): MovedGiven[] => {
    if (!isTrial) return blanksOf(givenText(cell)).length === 0 ? [] : [{ cell, sign, base: givenText(cell) }];
    const home = holdsReadings(cell) ? meanText(cell, desk) : blanksOf(givenText(cell))[0];
    const value = trialText(cell) ?? home;
    return home === undefined || value === undefined ? [] : [{ cell, sign, base: { value, readings: undefined }, home }];
  });
  return givens.length === place.moves.length ? givens : [];
}

function cellsOf({ moves }: Place, desk: Desk): readonly Pick<MovedGiven, 'cell' | 'sign'>[] {
  return moves.flatMap(({ symbol, sign }) => {
    const cell = cellIn(definingCell(symbol, desk.context()), 'given');
    return cell === undefined ? [] : [{ cell, sign }];
  });
}

/** The trial values that stand behind a place. */
export function trialsOf(place: Place, desk: Desk): readonly GivenCell[] {
  return cellsOf(place, desk).flatMap(({ cell }) => (trialText(cell) === undefined ? [] : [cell]));
}

/** The one edit that shifts a place by a distance (m) from where it was; undefined where some text can't be shifted. */
export function shiftCommand(givens: readonly MovedGiven[], by: number): EditCommand | undefined {
  const commands: EditCommand[] = [];
  for (const { cell, sign, base, home } of givens) {
    const text = by === 0 ? base : shiftText(base, sign * by, cell.unit);
    if (text === undefined) return undefined;
    if (home === undefined) commands.push(setGiven(cell, text));
    else commands.push(setTrial(cell.id, text.value === undefined || sameNumber(text.value, home) ? undefined : text.value));
  }
  return commands.length === 0 ? undefined : { do: 'together', commands };
}

interface Step {
  /** m */
  readonly size: number;
  readonly words: string;
}

/** The coarsest resolution among the givens that change with a place, so that every one of them stays on its scale. */
export function stepOfPlace(place: Place, desk: Desk): Step {
  let size = 0;
  let words = '';
  for (const { cell } of cellsOf(place, desk)) {
    const unit = desk.context().states.symbol(cell.symbol)?.unit;
    const own = stepOf(cell, unit);
    if (own <= size) continue;
    size = own;
    words = unit === undefined ? `${own * 1000} mm` : `${Number(fromSI(own, unit).toPrecision(6))} ${unit.name}`;
  }
  return size > 0 ? { size, words } : { size: 0.5e-3, words: '0.5 mm' };
}
