import { unknownTemplate } from '../../report/index.ts';
import type { CellBlock, UnknownCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { templateParts, type LineParts } from '../parts.ts';

/** What this version does not understand. */
export function unknownParts(cell: UnknownCell, desk: Desk, block: CellBlock): LineParts {
  return templateParts(cell.id, unknownTemplate(cell, desk.context(), { block }), desk.ui(cell.id).refused);
}
