import { budget } from '../../core/estimate/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import type { Chart, ChartOptions } from '../../figures/charts/index.ts';
import { givensBehind, compileSheet, symbolsAfter, unitOfGiven } from '../../graph/index.ts';
import { cellsOf } from '../../sheet/index.ts';
import type { GivenCell, StepCell } from '../../sheet/types.ts';
import { wholeOf } from './asked.ts';
import { isSymbolHidden } from './hidden.ts';
import { definingCell } from './lookup.ts';
import { rangeOf, sweepOf } from './sweep.ts';
import { proposedRange, rangeText, searchRange } from './sweep-range.ts';
import type { PresentContext } from './types.ts';

/** One given of a sweep as it is asked for in the page; empty texts stand for the proposed ends. */
interface AskedSide {
  readonly given: GivenCell;
  readonly from: string;
  readonly to: string;
}

/** The ends of each side as texts, and the chart or why there is none. */
export type SweepView = { readonly ends: readonly { readonly from: string; readonly to: string }[] } & (
  | { readonly chart: (options: ChartOptions) => Chart; readonly label: string; readonly figureSource: string; readonly problem?: undefined }
  | { readonly problem: Problem }
);

/** @param asked one given, or two for lines of equal value */
export function sweepView(of: readonly string[], asked: readonly AskedSide[], context: PresentContext): SweepView {
  const sides = asked.map(({ given, ...texts }) => ({ given, range: rangeOf(given, texts, context), proposed: proposedTexts(given, context), texts }));
  const ends = sides.map(({ texts, proposed }) => ({ from: texts.from === '' ? proposed.from : texts.from, to: texts.to === '' ? proposed.to : texts.to }));
  const known = sides.flatMap(({ given, range }) => (range === undefined ? [] : [{ given, range }]));
  if (known.length < sides.length) {
    const unread = sides.find(({ range }) => range === undefined);
    const example = unread === undefined || unread.proposed.from === '' ? 'with their unit' : `such as ${unread.proposed.from} and ${unread.proposed.to}`;
    return { ends, problem: trouble(`There are not two different values of ${unread?.given.symbol ?? 'it'} here.`, `Type two, ${example}.`) };
  }
  const drawn = sweepOf({ of, sides: known }, context);
  if ('instead' in drawn) return { ends, problem: trouble(drawn.instead, '') };
  const name = (symbol: string): string => definingCell(symbol, context)?.cell.label ?? symbol;
  const label = `${of.map(name).join('; ')}, against ${known.map(({ given }) => name(given.symbol)).join(' and ')}`;
  const end = (which: 'from' | 'to'): string => known.map(({ given, range }) => {
    const unit = unitOfGiven(given, context.states);
    return unit === undefined ? '' : rangeText(range[which], unit);
  }).join(', ');
  const lines = [
    `label: ${JSON.stringify(label)}`, 'drawing: sweep', `of: ${of.join(', ')}`, `against: ${known.map(({ given }) => given.symbol).join(', ')}`,
    `from: ${quoted(end('from'))}`, `to: ${quoted(end('to'))}`,
  ];
  return { ends, ...drawn, label, figureSource: `\`\`\`figure\n${lines.join('\n')}\n\`\`\`\n` };
}

function proposedTexts(given: GivenCell, { states }: PresentContext): { readonly from: string; readonly to: string } {
  const [unit, range] = [unitOfGiven(given, states), proposedRange(given, states)];
  return unit === undefined || range === undefined ? { from: '', to: '' } : { from: rangeText(range.from, unit), to: rangeText(range.to, unit) };
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
  const { document, states } = wholeOf(context);
  return givensBehind(compileSheet(document), document, states, symbol);
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
  const { document, states } = wholeOf(context);
  const after = new Set(symbolsAfter(compileSheet(document), states, given.symbol));
  return cellsOf(document, 'step').filter(({ symbol }) => symbol !== except && !isSymbolHidden(symbol, context) && after.has(symbol));
}

/** Between which values an answer is looked for unless told otherwise, as texts. */
export function searchTexts(given: GivenCell, context: PresentContext): { readonly from: string; readonly to: string } {
  const unit = unitOfGiven(given, context.states);
  const range = searchRange(given, context.states);
  return unit === undefined || range === undefined ? { from: '', to: '' } : { from: rangeText(range.from, unit), to: rangeText(range.to, unit) };
}
