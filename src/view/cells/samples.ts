import { nothing, type TemplateResult } from 'lit-html';
import { ref } from 'lit-html/directives/ref.js';
import { composed } from '../../core/problem/index.ts';
import type { SampledResult, SymbolState } from '../../graph/index.ts';
import { countText, samplesFound, presentSamples, type PresentedSamples } from '../../report/index.ts';
import type { StepCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import type { SamplingUi } from '../sampling/sampling-ui.ts';
import { keepSampled } from '../sampling/keep-sampled.ts';
import { chartAt } from '../figures/live-chart.ts';
import { part, partId, raised, type Part } from '../parts.ts';
import { html } from '../template.ts';

const LARGEST_SEED = 2 ** 32 - 1;

/** Samples of a result: histogram with both intervals, numbers beside those of first order, and what follows from it. */
export function samplesPart(cell: StepCell, desk: Desk): Part {
  const state = desk.context().states.symbol(cell.symbol);
  if (state?.status !== 'value') return nothing;
  if (desk.sampler === undefined) return html`<p class="help">This page can’t make draws.</p>`;
  keepSampled(cell.id, cell.symbol, state, desk);
  const { sampling } = desk.ui(cell.id);
  const { sampled } = sampling;
  const presented = sampled === undefined ? undefined : presentedOf(sampled.result, sampled.state, desk);
  const label = cell.label ?? cell.symbol;
  return html`<div class="draws" role="region" aria-label=${composed`Draws of ${label}`}>
    <p class="heading">Draws (Monte Carlo, JCGM 101)</p>
    <p class="help">Each draw takes a value of every input at random from its distribution and works out the result with them. “First order” is what the budget gives. The same seed gives the same draws.</p>
    ${settings(cell.id, sampling, desk)}
    ${underWay(sampling, state, desk)}
    ${sampled !== undefined && presented === undefined ? html`<p class="help">None of the draws gave a value.</p>` : nothing}
    ${presented === undefined ? nothing : html`<div class=${sampled?.state === state ? 'drawn-result' : 'drawn-result outdated'}>${resultParts(cell, presented, label)}</div>`}
  </div>`;
}

const known = new WeakMap<SampledResult, { readonly system: string; readonly presented: PresentedSamples | undefined }>();

/** The same samples give the same object, so that their chart is sampled once. */
function presentedOf(result: SampledResult, state: SymbolState, desk: Desk): PresentedSamples | undefined {
  const { system } = desk.context();
  let one = known.get(result);
  if (one?.system !== system) {
    one = { system, presented: presentSamples(result, state, desk.context()) };
    known.set(result, one);
  }
  return one.presented;
}

function settings(blockId: string, sampling: SamplingUi, desk: Desk): TemplateResult {
  const change = (how: (one: SamplingUi) => void): void => desk.changeUi(blockId, (ui) => how(ui.sampling));
  const typed = (event: Event): void => {
    const text = (event.currentTarget as HTMLInputElement).value.trim();
    const isSeed = /^\d{1,10}$/.test(text) && Number(text) <= LARGEST_SEED;
    change((one) => {
      one.refusedSeed = isSeed ? undefined : text;
      if (isSeed) one.seed = Number(text);
    });
  };
  const seedId = partId(blockId, 'seed');
  const digitsId = partId(blockId, 'digits');
  return html`<div class="draws-settings">
    <span><label for=${digitsId}>steady to</label>
      <select id=${digitsId} @change=${(event: Event) => change((one) => void (one.digits = (event.currentTarget as HTMLSelectElement).value === '1' ? 1 : 2))}>
        <option value="1" ?selected=${sampling.digits === 1}>1 digit of u</option><option value="2" ?selected=${sampling.digits === 2}>2 digits of u</option>
      </select></span>
    <span><label for=${seedId}>seed</label>
      <input id=${seedId} inputmode="numeric" autocomplete="off" .value=${sampling.refusedSeed ?? String(sampling.seed)} @change=${typed}
        aria-invalid=${sampling.refusedSeed === undefined ? nothing : 'true'} aria-describedby=${sampling.refusedSeed === undefined ? nothing : `${seedId}-told`}></span>
    <button type="button" class="quiet" @click=${() => change((one) => {
      one.refusedSeed = undefined;
      one.seed = (one.seed + 1) % (LARGEST_SEED + 1);
    })}>another seed</button>
    ${sampling.refusedSeed === undefined ? nothing : html`<p class="help" id=${`${seedId}-told`}>A seed is a whole number from 0 to ${raised('4 294 967 295')}. The draws of seed ${sampling.seed} stand.</p>`}
  </div>`;
}

function underWay({ inHand, progress, sampled, hasFailed }: SamplingUi, state: SymbolState, desk: Desk): Part {
  if (hasFailed) return html`<p class="help">The browser did not allow the draws. There is only the first-order uncertainty, as in the budget.</p>`;
  const outdated = sampled === undefined || sampled.state === state ? nothing
    : html`<p class="help outdated-words">The sheet has changed: these are the draws from before. New ones are being made.</p>`;
  if (inHand === undefined) return outdated;
  const share = progress === undefined ? 0 : Math.min(1, progress.count / Math.max(1, progress.expected));
  return html`${outdated}<p class="draws-progress"><progress max="1" value=${share.toFixed(3)} aria-label="Draws made"></progress>
    <span>${progress === undefined ? 'beginning' : `${countText(progress.count)} draws so far`}</span>
    <button type="button" class="quiet" @click=${() => {
      inHand.stop();
      desk.announce('No more draws are made.');
    }}>stop</button></p>`;
}

function resultParts(cell: StepCell, presented: PresentedSamples, label: string): Part {
  const { chart } = presented;
  const sampled = chart === undefined ? undefined : { hand: html`<figure><div class="drawn chart-drawn" ${ref((element) =>
    element instanceof HTMLElement && chartAt(element).show(cell.id, chart, composed`the draws of ${label}`))}></div></figure>` };
  return part(samplesFound(presented, label, sampled));
}
