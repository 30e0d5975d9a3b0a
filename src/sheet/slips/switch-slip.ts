import { remembered } from '../../core/remembered/index.ts';
import { cellIn } from '../cells-of.ts';
import type { EditCommand } from '../edit.ts';
import type { CellSlip, GivenCell, SheetDocument, StepCell } from '../types.ts';

/** Key of the front matter under which the slips stand that are switched on: `I.radius, F_0.forgotten`. */
const KEY = 'slips';

/** A slip that the sheet offers, and where it acts. */
export interface OfferedSlip {
  /** `I.radius`: the symbol that it makes wrong, and its name there. */
  readonly id: string;
  readonly cell: GivenCell | StepCell;
  readonly slip: CellSlip;
}

/** All slips of the sheet, in its order. Where two have one name, the first one counts. */
export const slipsOffered = remembered((document: SheetDocument): readonly OfferedSlip[] => {
  const found = new Map<string, OfferedSlip>();
  for (const block of document.blocks) {
    const cell = cellIn(block, 'given') ?? cellIn(block, 'step');
    if (cell === undefined) continue;
    for (const slip of cell.slips ?? []) {
      const id = `${cell.symbol}.${slip.key}`;
      if (!found.has(id)) found.set(id, { id, cell, slip });
    }
  }
  return [...found.values()];
});

/** Names that the front matter says are switched on, as written, each once. */
export function slipsListed({ frontMatter }: SheetDocument): readonly string[] {
  const names = (frontMatter.entries.get(KEY) ?? '').split(',').map((name) => name.trim());
  return [...new Set(names.filter((name) => name !== ''))];
}

/** Switches a slip on or off. A symbol goes wrong in one way at a time: switching one on switches its neighbours off. */
export function switchSlip(document: SheetDocument, id: string, on: boolean): EditCommand {
  const symbolOf = (name: string): string => name.slice(0, name.indexOf('.'));
  const others = slipsListed(document).filter((name) => name !== id && !(on && symbolOf(name) === symbolOf(id)));
  return listSlips(on ? [...others, id] : others);
}

export function switchAllSlipsOff(): EditCommand {
  return listSlips([]);
}

function listSlips(names: readonly string[]): EditCommand {
  return { do: 'set front matter', key: KEY, value: names.length === 0 ? undefined : names.join(', ') };
}
