import { checkTemplate } from '../../report/index.ts';
import type { CheckCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { templateParts, type LineParts } from '../parts.ts';

/** A sentence that holds or does not, with a drawn tick or flag. */
export function checkParts(cell: CheckCell, desk: Desk): LineParts {
  return templateParts(cell.id, checkTemplate(cell, desk.context()), desk.ui(cell.id).refused);
}
