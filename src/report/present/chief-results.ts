import type { SheetStates } from '../../graph/types.ts';
import { cellsOf } from '../../sheet/index.ts';
import type { SheetDocument } from '../../sheet/types.ts';

/** Key of the front matter that names the results a sheet is made for: `sigma_a, N_f`. */
export const CHIEF_RESULTS = 'chief_results';

/** What the head of the document names; else the steps that no other one reads. */
export function chiefResults(document: SheetDocument, states: SheetStates, most: number): readonly string[] {
  const named = (document.frontMatter.entries.get(CHIEF_RESULTS) ?? '').split(',').map((name) => name.trim());
  const known = [...new Set(named)].filter((name) => states.symbol(name) !== undefined);
  if (known.length > 0) return known.slice(0, most);
  const steps = cellsOf(document, 'step');
  const read = new Set(steps.flatMap(({ id }) => states.cell(id)?.reads ?? []));
  return steps.map(({ symbol }) => symbol).filter((symbol) => !read.has(symbol)).slice(-most);
}
