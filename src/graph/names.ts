import type { Problem } from '../core/problem/index.ts';
import type { OfferedSlip } from '../sheet/index.ts';
import type { CellBlock, SheetDocument } from '../sheet/types.ts';
import type { NamesInMaking } from './form.ts';
import { formOf } from './forms.ts';
import type { Definition, Names } from './compiled-types.ts';

/** @param on slips in force */
export function collectNames(document: SheetDocument, on: readonly OfferedSlip[]): Names {
  const definitions = new Map<string, Definition>();
  const said: NamesInMaking = { fillings: new Map(), chosen: new Map(), otherKeys: new Map(), tables: new Map(), fits: new Map(), photos: new Map() };
  for (const block of document.blocks) {
    if (block.kind !== 'cell') continue;
    const form = formOf(block.cell);
    for (const symbol of form.symbols(block.cell)) {
      const earlier = definitions.get(symbol);
      if (earlier === undefined) definitions.set(symbol, { symbol, block, rivals: [] });
      else definitions.set(symbol, { ...earlier, rivals: [...earlier.rivals, block] });
    }
    form.addTo?.(said, block.cell, document);
  }
  return { definitions, ...said, slips: new Map(on.map((slip) => [slip.cell.symbol, slip])) };
}

export function duplicateProblem(definition: Definition, block: CellBlock): Problem {
  const other = [definition.block, ...definition.rivals].find((rival) => rival !== block);
  return {
    code: 'symbol-twice',
    what: `The symbol ${definition.symbol} is defined twice: here and in ${cellName(other)}.`,
    mend: 'Give one of the two another symbol, or delete it.',
    cell: block.id,
    key: 'symbol',
  };
}

/** How a message names a cell: its label, else its id. */
function cellName(block: CellBlock | undefined): string {
  if (block === undefined) return 'another cell';
  return block.cell.label === undefined ? `the cell ${block.id}` : `“${block.cell.label}” (${block.id})`;
}
