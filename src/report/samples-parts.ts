import { composed } from '../core/problem/index.ts';
import type { SampledResult } from '../graph/index.ts';
import type { StepCell } from '../sheet/types.ts';
import { inLayouts } from './layouts.ts';
import { html, type Insertion, type Markup } from './markup.ts';
import { cellAnchor, raised } from './parts.ts';
import { presentSamples, type PresentedSamples } from './present/samples.ts';
import type { PresentContext } from './present/types.ts';

/** Finished samples of results as the sheet now stands, by the cell that gives the result. */
export type SampledSteps = ReadonlyMap<string, SampledResult>;

/** Below a result: histogram, numbers beside those of first order, and whether that may be used. */
export function samplesParts(cell: StepCell, sampled: SampledResult | undefined, context: PresentContext): Markup | undefined {
  const state = context.states.symbol(cell.symbol);
  const samples = sampled === undefined || state === undefined ? undefined : presentSamples(sampled, state, context);
  if (samples === undefined) return undefined;
  const { chart } = samples;
  return html`<div class="draws"><p class="heading">Draws (Monte Carlo, JCGM 101)</p>
${samplesFound(samples, cell.label ?? cell.symbol, chart !== undefined && html`<figure>${inLayouts(chart, `${cellAnchor(cell.id)}-draws`).map(({ markup }) => markup)}</figure>`)}</div>`;
}

/** Verdict, chart, numbers and facts of finished samples. @param label of the result; @param chart as it stands there */
export function samplesFound({ rows, verdict, factorVerdict, facts }: PresentedSamples, label: string, chart: Insertion): Markup {
  const state = verdict.holds === 'untold' ? 'untold' : verdict.holds ? 'holds' : 'fails';
  return html`<p class="verdict-line ${state}">${raised(verdict.sentence)}${factorVerdict !== undefined && html` ${raised(factorVerdict.sentence)}`}</p>
${chart}
<table><caption class="visually-hidden">${composed`${label}: draws and first order`}</caption>
<thead><tr><td></td><th scope="col">Draws</th><th scope="col">First order</th></tr></thead>
<tbody>${rows.map(({ head, sampled: ofSamples, firstOrder }) => html`<tr><th scope="row">${head}</th><td data-head="draws">${raised(ofSamples)}</td>${firstOrder === ''
    ? html`<td class="none"></td>` : html`<td data-head="first order">${raised(firstOrder)}</td>`}</tr>
`)}</tbody></table>
${facts.map((fact) => html`<p class="help">${raised(fact)}</p>`)}`;
}
