import { LENGTH_DIMENSION, MOMENT_DIMENSION, STRESS_DIMENSION } from '../../core/units/index.ts';
import { isStripForm, STRIP_ROLES, stripFigureFrom, type StripFigure } from '../../figures/drawings/index.ts';
import { cellIn } from '../../sheet/index.ts';
import type { FigureCell } from '../../sheet/types.ts';
import { roleValues, textLike } from './figure-values.ts';
import { cellAt } from './lookup.ts';
import type { PresentContext } from './types.ts';

/** A strip bent by a set stroke; the choice that the cell names says how it is supported, a cantilever unless said. */
export function stripOf(cell: FigureCell, context: PresentContext): StripFigure {
  const word = cellIn(cellAt(cell.by ?? '', context), 'choice')?.chosen ?? '';
  return stripFigureFrom(isStripForm(word) ? word : 'cantilever', roleValues(cell, STRIP_ROLES, context), {
    lengthText: textLike(cell, ['length', 'section', 'height'], LENGTH_DIMENSION, context),
    momentText: textLike(cell, ['moment'], MOMENT_DIMENSION, context),
    stressText: textLike(cell, ['stress', 'local'], STRESS_DIMENSION, context),
  });
}
