import type { Problem } from '../../core/problem/index.ts';
import { heldSheet } from '../../graph/index.ts';
import { REFERENCE } from '../../sheet/index.ts';
import type { HeldState, SheetDocument } from '../../sheet/types.ts';
import type { PresentContext } from './types.ts';

/** The sheet as it would be in a held state, to be presented as any sheet. */
export interface HeldContext extends PresentContext {
  readonly held: HeldState;
  /** Held inputs that the sheet can't take any more. */
  readonly problems: readonly Problem[];
}

/** A held state worked out by the sheet's formulas as they are now. */
export function heldContext(held: HeldState, context: PresentContext): HeldContext {
  const { document, states, problems } = heldSheet(context.document, context.states, held);
  return { ...context, document, states, held, problems };
}

/** The held state that everything is compared with; undefined where none is chosen. */
export function referenceOf({ frontMatter }: SheetDocument): HeldState | undefined {
  const name = frontMatter.entries.get(REFERENCE)?.trim() ?? '';
  return name === '' ? undefined : frontMatter.held.find((held) => held.name === name);
}

export function referenceContext(context: PresentContext): HeldContext | undefined {
  const held = referenceOf(context.document);
  return held === undefined ? undefined : heldContext(held, context);
}

/** What is amiss with the held states of a sheet: a reference that is not there, inputs that the sheet does not have. */
export function heldProblems(context: PresentContext): readonly Problem[] {
  return [...missingReference(context.document), ...context.document.frontMatter.held.flatMap((held) => leftOut(held, context))];
}

/** The same of the reference alone: what a reader who compares has to know. */
export function referenceProblems(context: PresentContext): readonly Problem[] {
  const held = referenceOf(context.document);
  return held === undefined ? missingReference(context.document) : leftOut(held, context);
}

function missingReference(document: SheetDocument): readonly Problem[] {
  const named = document.frontMatter.entries.get(REFERENCE)?.trim() ?? '';
  if (named === '' || referenceOf(document) !== undefined) return [];
  return [{
    code: 'reference-unknown',
    what: `The sheet is to be compared with “${named}”, and no state is held under that name.`,
    mend: 'Choose one of the held states, or stop comparing.',
    key: REFERENCE,
  }];
}

function leftOut(held: HeldState, context: PresentContext): readonly Problem[] {
  return heldContext(held, context).problems.map((problem) => ({
    ...problem, what: `Of the held state “${held.name}”: ${problem.what}`, mend: `It is kept, but not compared. ${problem.mend}`,
  }));
}
