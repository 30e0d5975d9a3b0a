import { budget } from '../../core/estimate/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import type { Chart, ChartOptions } from '../../figures/charts/index.ts';
import { givensBehind, planOf, symbolsAfter, unitOfGiven } from '../../graph/index.ts';
import type { GivenCell, StepCell } from '../../sheet/types.ts';
import { isSymbolHidden } from './hidden.ts';
import { definingCell } from './lookup.ts';
import { sweepOf } from './sweep.ts';
import { proposedRange, rangeText, readRange, searchRange } from './sweep-range.ts';
import type { PresentContext } from './types.ts';

/** A sweep as it is asked for in the page; empty texts stand for the proposed ends. */
export interface SweepAsked {
  readonly of: readonly string[];
  readonly against: GivenCell;
  readonly from: string;
  readonly to: string;
}

/** The proposed ends as texts, and the chart or why there is none. */
export type SweepView = { readonly from: string; readonly to: string } & (
  | { readonly chart: (options: ChartOptions) => Chart; readonly label: string; readonly figureSource: string; readonly problem?: undefined }
  | { readonly problem: Problem }
);

export function sweepView(asked: SweepAsked, context: PresentContext): SweepView {
  const unit = unitOfGiven(asked.against, context.states);
  const proposed = proposedRange(asked.against, context.states);
  if (unit === undefined) return { from: '', to: '', problem: trouble(`${asked.against.symbol} has no unit yet.`, 'Mend its line first.') };
  const texts = proposed === undefined ? { from: '', to: '' } : { from: rangeText(proposed.from, unit), to: rangeText(proposed.to, unit) };
  const range = readRange(asked, proposed, unit);
  if (range === undefined) {
    return { ...texts, problem: trouble('There are not two different values here.', proposed === undefined ? 'Type two with their unit.' : `Type two, such as ${texts.from} and ${texts.to}.`) };
  }
  const drawn = sweepOf({ of: asked.of, against: asked.against, range }, context);
  if ('instead' in drawn) return { ...texts, problem: trouble(drawn.instead, '') };
  const label = `${asked.of.map((symbol) => definingCell(symbol, context)?.cell.label ?? symbol).join('; ')}, against ${asked.against.label ?? asked.against.symbol}`;
  const lines = [
    `label: ${JSON.stringify(label)}`, 'drawing: sweep', `of: ${asked.of.join(', ')}`, `against: ${asked.against.symbol}`,
    `from: ${quoted(rangeText(range.from, unit))}`, `to: ${quoted(rangeText(range.to, unit))}`,
  ];
  return { ...texts, ...drawn, label, figureSource: `\`\`\`figure\n${lines.join('\n')}\n\`\`\`\n` };
}

/** A bare number would be taken for one by other readers of the file. */
function quoted(text: string): string {
  return /^[-\d.]+$/.test(text) ? `"${text}"` : text;
}

function trouble(what: string, mend: string): Problem {
  return { code: 'sweep', what, mend };
}

/** Givens that have a part in a result. */
export function inputsOf(symbol: string, context: PresentContext): readonly GivenCell[] {
  return givensBehind(planOf(context.document), context.document, context.states, symbol);
}

/** The one of these givens from which most of the result's uncertainty comes. */
export function contributingInput(symbol: string, inputs: readonly GivenCell[], { states }: PresentContext): GivenCell | undefined {
  const state = states.symbol(symbol);
  if (state?.status !== 'value') return undefined;
  const largest = budget(state.estimate).find(({ input }) => inputs.some((given) => given.symbol === input.id));
  return inputs.find((given) => given.symbol === largest?.input.id);
}

/** Other results that move with a given and may be seen. */
export function resultsWith(given: GivenCell, except: string, context: PresentContext): readonly StepCell[] {
  const after = new Set(symbolsAfter(planOf(context.document), context.states, given.symbol));
  return context.document.blocks.flatMap((block) =>
    (block.kind === 'cell' && block.cell.kind === 'step' && block.cell.symbol !== except && !isSymbolHidden(block.cell.symbol, context)
      && after.has(block.cell.symbol) ? [block.cell] : []));
}

/** Between which values an answer is looked for unless told otherwise, as texts. */
export function searchTexts(given: GivenCell, context: PresentContext): { readonly from: string; readonly to: string } {
  const unit = unitOfGiven(given, context.states);
  const range = searchRange(given, context.states);
  return unit === undefined || range === undefined ? { from: '', to: '' } : { from: rangeText(range.from, unit), to: rangeText(range.to, unit) };
}
