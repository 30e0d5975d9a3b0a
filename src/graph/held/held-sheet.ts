import type { Problem } from '../../core/problem/index.ts';
import { remembered } from '../../core/remembered/index.ts';
import { withInputs } from '../../sheet/index.ts';
import type { Block, HeldState, SheetDocument } from '../../sheet/types.ts';
import { formOf } from '../forms.ts';
import type { CompiledSheet } from '../compiled-types.ts';
import { compileSheet } from '../compile.ts';
import { reckon, type Reckoned } from '../reckon.ts';
import type { SheetStates } from '../types.ts';

/** The sheet as it would be with the held inputs in its blanks and choices. */
export interface HeldSheet {
  readonly held: HeldState;
  readonly document: SheetDocument;
  readonly states: SheetStates;
  /** Inputs that this sheet can't take: it is worked out without them. */
  readonly problems: readonly Problem[];
}

interface LastSheet extends HeldSheet {
  readonly compiled: CompiledSheet;
  /** The sheet that it was put into. */
  readonly of: Pick<HeldSheet, 'document' | 'states'>;
}

/** What each held state came to last; it lives as long as the front matter is not edited. */
const last = new WeakMap<HeldState, LastSheet>();
const compiledOf = remembered((document: SheetDocument): CompiledSheet => compileSheet(document));

/**
 * A held state worked out by the sheet's own formulas as they are now. Asked again after an edit, only what the edit means for
 * it is computed: an edit of a blank that is held costs next to nothing, since the held text stands there all the same.
 * @param document the sheet as it is, and @param states its states
 */
export function heldSheet(document: SheetDocument, states: SheetStates, held: HeldState): HeldSheet {
  const before = last.get(held);
  if (before?.of.document === document && before.of.states === states) return before;
  const put = withInputs(document, held);
  const then = before === undefined ? put.document : withKnownBlocks(put.document, before.document, held);
  const compiled = compileSheet(then);
  const present: Reckoned = { compiled: compiledOf(document), states };
  const sheet: LastSheet = {
    held, document: then, problems: put.problems, compiled, of: { document, states }, states: reckon(compiled, before === undefined ? [present] : [before, present]),
  };
  last.set(held, sheet);
  return sheet;
}

/** A block that reads as it did last is the same object, so that nothing behind it is computed again. */
function withKnownBlocks(document: SheetDocument, before: SheetDocument, held: HeldState): SheetDocument {
  const known = new Map(before.blocks.map((block) => [block.id, block]));
  const blocks = document.blocks.map((block) => {
    const earlier = known.get(block.id);
    return earlier !== undefined && isSame(earlier, block, held) ? earlier : block;
  });
  return { ...document, blocks };
}

/** Tables that are not held are the sheet's own and stay the same object: their text may be long and is not put together to be compared. */
function isSame(a: Block, b: Block, held: HeldState): boolean {
  if (a === b || a.kind !== 'cell' || b.kind !== 'cell') return a === b;
  const isHeld = formOf(b.cell).isHeld?.(b.cell, held) === true;
  return isHeld && a.source === b.source && a.cell.problems.length === 0 && b.cell.problems.length === 0;
}
