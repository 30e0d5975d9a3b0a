import { createRandom } from '../core/numeric/index.ts';
import { createSheetGraph, sampleSheet } from '../graph/index.ts';
import { isShownAsFactor, type WholeContext, presentSlipsOn, unitSystemOf } from '../report/index.ts';
import { checkEntries, fitEntries, heldEntries, trialEntries, valueEntries } from './entries.ts';
import { openSheet } from './open-sheet.ts';
import type { Options } from './options.ts';
import { errorEntries, findingsEntries, leftOutEntries, openEntries, warningEntries } from './told.ts';
import type { Answer } from './types.ts';
import { budgetEntries, sampledOf, samplesEntry, type SampledSymbols } from './uncertainty.ts';

/** A worksheet evaluated, and what is to be said of it. */
export interface Solved {
  readonly context: WholeContext;
  readonly sampled: SampledSymbols;
  readonly answer: Answer;
}

/** @throws UsageError where something is asked for that the file or the sheet does not have */
export async function solve(options: Options): Promise<Solved> {
  const document = openSheet(options);
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  const context: WholeContext = { document, states, system: unitSystemOf(document), reveal: true };
  const sampled = options.samples > 0 ? sampledOf(sampleSheet(graph.compiled(), states, createRandom(options.seed), options.samples), options.seed, states) : undefined;
  graph.dispose();
  const answer = {
    title: document.frontMatter.entries.get('title') ?? '',
    ...trialEntries(context),
    slips: presentSlipsOn(context).map(({ id }) => id),
    values: valueEntries(context, (symbol, unit) => (sampled === undefined ? {} : samplesEntry(sampled.get(symbol), unit, options, states.symbol(symbol), isShownAsFactor(symbol, context)))),
    ...heldEntries(context),
    ...fitEntries(document, states),
    ...budgetEntries(options.budget, context),
    ...findingsEntries(context),
    checks: checkEntries(context),
    open: openEntries(context),
    errors: errorEntries(context),
    warnings: warningEntries(context),
    leftOut: leftOutEntries(context),
  };
  return { context, sampled: sampled ?? new Map(), answer };
}
