import { nothing } from 'lit-html';
import { presentShift, shiftLine, type Hand } from '../../report/index.ts';
import type { Desk } from '../desk.ts';
import { movedMark, part, type Part } from '../parts.ts';
import { html } from '../template.ts';

/** How a value moved with the last edit, for a template of the report layer; nothing where it did not. */
export function movedHand(symbol: string, desk: Desk): Hand | undefined {
  const moved = movedMark(desk.moved(symbol));
  return moved === nothing ? undefined : { hand: moved };
}

/** How a value moved with the last edit, and by how much it differs from the reference. */
export function changeMarks(symbol: string, desk: Desk): Part {
  const [moved, shift] = [movedMark(desk.moved(symbol)), part(shiftLine(presentShift(symbol, desk.context())))];
  return moved === nothing && shift === nothing ? nothing : html`${moved}${shift}`;
}
