import type { Cell, CellBlock } from '../sheet/index.ts';
import type { Desk } from './desk.ts';
import type { LineParts } from './parts.ts';

/** All that the page asks of one kind of cell. */
export interface Form<C extends Cell> {
  /** Its line with all that can be done there. */
  parts(cell: C, desk: Desk, block: CellBlock): LineParts;
}
