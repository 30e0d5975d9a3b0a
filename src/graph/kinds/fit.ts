import type { FitCell } from '../../sheet/types.ts';
import { findingsDimension, findingsNode, symbolsReadByFit } from '../fit/findings-node.ts';
import { fitDimension, fitNode } from '../fit/line-node.ts';
import type { Form } from '../form.ts';
import type { Names, NodeInput } from '../compiled-types.ts';

/** A line through specimens, or what follows from one: parameters and findings are symbols of the sheet. */
export const fitForm: Form<FitCell> = {
  symbols: ({ symbols }) => [...symbols.values()],
  addTo: ({ fits }, cell) => void fits.set(cell.id, cell),
  reads: (cell, _symbol, names) => symbolsReadByFit(cell, names),
  dimension: (cell, symbol, names) => (cell.finds === 'line' ? fitDimension : findingsDimension)(cell, symbol, names),
  node: (block, cell, context) => (cell.finds === 'line' ? fitNode : findingsNode)(block, cell, context),
};

/** What a chart shows of a fit: its line or what it has found, and the rows of its table. */
export function drawnOfFit({ id, finds, table }: FitCell, { tables }: Names): readonly NodeInput[] {
  const found: NodeInput = finds === 'line' ? { fit: true, cellId: id } : { findings: true, cellId: id };
  return tables.has(table) ? [found, { table: true, cellId: table }] : [found];
}
