import type { Problem } from '../../core/problem/index.ts';
import { remembered } from '../../core/remembered/index.ts';
import { heldSheet } from '../../graph/index.ts';
import { REFERENCE } from '../../sheet/index.ts';
import type { HeldState, SheetDocument } from '../../sheet/types.ts';
import { asked, seenAs, wholeOf } from './asked.ts';
import type { PresentContext, WholeContext } from './types.ts';

/** The sheet as it would be in a held state, to be presented as any sheet. */
export interface HeldContext extends PresentContext {
  readonly held: HeldState;
}

/** A held state worked out by the sheet's formulas as they are now. */
export function heldContext(held: HeldState, context: PresentContext): HeldContext {
  return Object.assign(seenAs(context, viewOf(held)), { held });
}

const viewOf = remembered((held: HeldState) => (whole: WholeContext): WholeContext => {
  const { document, states } = heldSheet(whole.document, whole.states, held);
  return { ...whole, document, states };
});

/** The held state that everything is compared with; undefined where none is chosen. */
export function referenceOf({ frontMatter }: SheetDocument): HeldState | undefined {
  const name = frontMatter.entries.get(REFERENCE)?.trim() ?? '';
  return name === '' ? undefined : frontMatter.held.find((held) => held.name === name);
}

const referenceIn = ({ document }: WholeContext) => referenceOf(document);

export function referenceContext(context: PresentContext): HeldContext | undefined {
  const held = asked(context, referenceIn, undefined);
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
  const { document, states } = wholeOf(context);
  return heldSheet(document, states, held).problems.map((problem) => ({
    ...problem, what: `Of the held state “${held.name}”: ${problem.what}`, mend: `It is kept, but not compared. ${problem.mend}`,
  }));
}
