import { nothing } from 'lit-html';
import type { Hand } from '../../report/index.ts';
import type { Desk } from '../desk.ts';
import { movedMark } from '../parts.ts';

/** How a value moved with the last edit, for a template of the report layer; nothing where it did not. */
export function movedHand(symbol: string, desk: Desk): Hand | undefined {
  const moved = movedMark(desk.moved(symbol));
  return moved === nothing ? undefined : { hand: moved };
}
