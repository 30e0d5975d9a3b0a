import type { Handle } from '../../figures/drawings/index.ts';
import { definingCell } from '../../report/index.ts';
import type { EditCommand, GivenCell } from '../../sheet/index.ts';
import { setGiven } from '../commands.ts';
import type { Desk } from '../desk.ts';
import type { GivenText } from '../readings.ts';
import { givenText } from '../readings.ts';
import { shiftText, stepOf } from '../shift.ts';
import { fromSI } from '../../core/units/index.ts';

type Place = Pick<Handle, 'moves'>;

/** A given that changes with a place, as it was when the move began. */
export interface MovedGiven {
  readonly cell: GivenCell;
  readonly sign: 1 | -1;
  readonly before: GivenText;
}

/** The givens behind a place; empty where one of them can't be found. */
export function givensOf(place: Place, desk: Desk): readonly MovedGiven[] {
  const givens = place.moves.flatMap(({ symbol, sign }): MovedGiven[] => {
    const cell = definingCell(symbol, desk.context())?.cell;
    return cell?.kind === 'given' ? [{ cell, sign, before: givenText(cell) }] : [];
  });
  return givens.length === place.moves.length ? givens : [];
}

/** The one edit that shifts a place by a distance (m) from where it was; undefined where some text can't be shifted. */
export function shiftCommand(givens: readonly MovedGiven[], by: number): EditCommand | undefined {
  const commands: EditCommand[] = [];
  for (const { cell, sign, before } of givens) {
    const text = shiftText(before, sign * by, cell.unit);
    if (text === undefined) return undefined;
    commands.push(setGiven(cell, text));
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
  for (const { cell } of givensOf(place, desk)) {
    const unit = desk.context().states.symbol(cell.symbol)?.unit;
    const own = stepOf(cell, unit);
    if (own <= size) continue;
    size = own;
    words = unit === undefined ? `${own * 1000} mm` : `${Number(fromSI(own, unit).toPrecision(6))} ${unit.name}`;
  }
  return size > 0 ? { size, words } : { size: 0.5e-3, words: '0.5 mm' };
}

/** Arrow keys: one step, with Shift ten. */
export function moveByKey(event: KeyboardEvent, handle: Handle, desk: Desk, blockId: string): void {
  const direction = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
  if (direction === undefined || event.altKey || event.ctrlKey || event.metaKey) return;
  event.preventDefault();
  const by = direction * stepOfPlace(handle, desk).size * (event.shiftKey ? 10 : 1);
  const command = shiftCommand(givensOf(handle, desk), by);
  if (command === undefined) desk.announce('What was typed for this place can’t be shifted. Type it anew.');
  else desk.apply(command, blockId);
}
