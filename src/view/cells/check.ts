import { checkParts } from '../../report/index.ts';
import type { CheckCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { templateParts, type LineParts } from '../parts.ts';

/** A sentence that holds or does not, with a drawn tick or flag. */
export function checkOnPage(cell: CheckCell, desk: Desk): LineParts {
  return templateParts(cell.id, checkParts(cell, desk.context()), desk.ui(cell.id).refused);
}
