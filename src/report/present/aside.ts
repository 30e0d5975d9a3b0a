import { asidesIn, asKind } from '../../sheet/index.ts';
import type { AsideCell } from '../../sheet/types.ts';
import { asked } from './asked.ts';
import { presentCheck } from './cells.ts';
import { isHidden } from './hidden.ts';
import { liveText } from './live.ts';
import { notesOf } from './notes.ts';
import type { PresentContext, PresentedNotes, WholeContext } from './types.ts';

/** A part on demand as its line says it. */
export interface PresentedAside extends PresentedNotes {
  /** What it contains, with the values put in. */
  readonly holds: string;
  /** What in it does not hold or has to be mended, each told where the part is closed. */
  readonly trouble: readonly AsideTrouble[];
}

export interface AsideTrouble {
  readonly cellId: string;
  readonly label: string;
  readonly kind: 'check' | 'problem';
}

export function presentAside(cell: AsideCell, context: PresentContext): PresentedAside {
  return { ...notesOf(cell, context), holds: liveText(cell.holds, context), trouble: asked(context, troubleIn, cell.id, isSameTrouble) };
}

/** The part on demand that a block stands in. */
export function asideOf(blockId: string, context: PresentContext): string | undefined {
  return asked(context, asideAt, blockId);
}

const asideAt = ({ document }: WholeContext, blockId: string) => asidesIn(document).of.get(blockId);

/** Results that are still asked of the reader are not given away. */
function troubleIn(context: WholeContext, asideId: string): readonly AsideTrouble[] {
  return (asidesIn(context.document).holds.get(asideId) ?? []).flatMap((block): readonly AsideTrouble[] => {
    if (block.kind !== 'cell') return [];
    const { cell } = block;
    const place = { cellId: cell.id, label: cell.label ?? cell.id };
    const check = asKind(cell, 'check');
    if (check !== undefined && presentCheck(check, context).holds === false) return [{ ...place, kind: 'check' }];
    return notesOf(cell, context).problems.length > 0 && !isHidden(cell.id, context) ? [{ ...place, kind: 'problem' }] : [];
  });
}

function isSameTrouble(a: readonly AsideTrouble[], b: readonly AsideTrouble[]): boolean {
  return a.length === b.length && a.every(({ cellId, label, kind }, i) => cellId === b[i]?.cellId && label === b[i].label && kind === b[i].kind);
}
