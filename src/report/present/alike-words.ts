import { composed } from '../../core/problem/index.ts';
import { alikeSteps, rightStates } from '../../graph/index.ts';
import { asksForStep, cellsOf } from '../../sheet/index.ts';
import { asked, sameWords } from './asked.ts';
import type { PresentContext, WholeContext } from './types.ts';

/** Whether the sheet asks for any result. */
export function asksAnything(context: PresentContext): boolean {
  return asked(context, asks, undefined);
}

const asks = ({ document }: WholeContext) => cellsOf(document, 'question').length > 0 || cellsOf(document, 'step').some((step) => asksForStep(step, document));

/** More pairs would hide what there is to do. */
const MOST_PAIRS = 6;

/** Whose results may pass for each other's, for whoever writes the sheet. */
export function alikeSentences(context: PresentContext): readonly string[] {
  return asked(context, sentences, undefined, sameWords);
}

function sentences({ document, states }: WholeContext): readonly string[] {
  const pairs = alikeSteps(document, rightStates(document, states));
  const told = pairs.slice(0, MOST_PAIRS).map(([{ symbol }, other]) => composed`${symbol} and ${other.symbol} lie within the tolerance of each other: whoever mixes them up is told that it is right. Other inputs or a smaller tolerance tell them apart.`);
  return pairs.length > MOST_PAIRS ? [...told, `So do ${pairs.length - MOST_PAIRS} more pairs.`] : told;
}
