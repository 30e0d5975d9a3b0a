import { nothing, svg, type TemplateResult } from 'lit-html';
import { composed } from '../core/problem/index.ts';
import { inUnit, nameOf, otherFormulas, pooled, sameReadings, spreads, type OtherFormulas, type Pool, type SameReadings, type Spread } from '../returns/index.ts';
import { html } from '../view/index.ts';
import type { CollectActions, CollectState } from './collect-types.ts';
import { shownSheets, titled } from './collect-desk.ts';

/** What is said of the class as a whole: how each quantity lies over it, what is worth a look, and its specimens in one table. */
export function classTemplate(state: CollectState, actions: CollectActions): TemplateResult {
  const sheets = titled(state);
  return html`<div class="collect-class">
    ${spreadTemplate(spreads(sheets))}
    ${othersTemplate(otherFormulas(sheets))}
    ${sameTemplate(sameReadings(sheets))}
    ${poolTemplate(pooled(sheets), state, actions)}
    ${feedbackTemplate(state, shownSheets(state).length, actions)}</div>`;
}

function spreadTemplate(all: readonly Spread[]): TemplateResult {
  return html`<h3>How each quantity lies over the class</h3>
    ${all.length === 0 ? html`<p class="help">At least two sheets have to have entered the same quantity.</p>` : html`<p class="help">Named is what lies more than 3.5 robust standard deviations from the median: 1.4826 times the median absolute deviation, and at least what the instruments err by (Iglewicz and Hoaglin 1993). From five sheets on.</p>
    <div class="collect-table" tabindex="0" role="group" aria-label="How each quantity lies over the class"><table><thead><tr><th scope="col">Quantity</th><th scope="col">Sheets</th><th scope="col">Lowest</th><th scope="col">Median</th><th scope="col">Highest</th><th scope="col">Each sheet a mark</th><th scope="col">Far from the others</th></tr></thead>
    <tbody>${all.map((one) => spreadRow(one))}</tbody></table></div>`}`;
}

function spreadRow(spread: Spread): TemplateResult {
  const { label, symbol, unit, values, median } = spread;
  const far = values.filter(({ isOutlier }) => isOutlier);
  return html`<tr><th scope="row">${label}, ${symbol}</th><td class="figures">${values.length}</td><td class="figures">${inUnit(values[0]?.value ?? median, unit)}</td><td class="figures">${inUnit(median, unit)}</td><td class="figures">${inUnit(values.at(-1)?.value ?? median, unit)}</td>
    <td>${strip(spread)}</td><td>${far.length === 0 ? '' : far.map(({ sheet, value }, i) => html`${i === 0 ? nothing : '; '}<span class="collect-verdict" data-verdict="differs">${nameOf(sheet)}: ${inUnit(value, unit)}</span>`)}</td></tr>`;
}

/** Width and height of a strip, and what stays free at its ends. */
const [WIDE, HIGH, RIM] = [220, 26, 24];
/** Places across, in which marks that would lie on one another are put above one another. */
const PLACES = 34;
/** So many places beyond the rim stand those that lie far off. */
const FAR = 3;

/** One mark for each sheet over the range of those that belong together, alike ones above one another; those far from the others are squares beyond it. */
function strip({ values }: Spread): TemplateResult {
  // What lies far off stands at the rim: over its range the others would be one mark.
  const near = values.filter(({ isOutlier }) => !isOutlier);
  const [low, high] = [near[0]?.value ?? 0, near.at(-1)?.value ?? 0];
  const heights = new Map<number, number>();
  const counts = new Map<number, number>();
  const share = (value: number): number => (high > low ? (value - low) / (high - low) : value < low ? -1 : value > high ? 2 : 0.5);
  const place = (value: number): number => Math.min(PLACES + FAR, Math.max(-FAR, Math.round(share(value) * PLACES)));
  for (const { value } of values) counts.set(place(value), (counts.get(place(value)) ?? 0) + 1);
  const step = Math.min(4, (HIGH - 8) / Math.max(1, ...counts.values()));
  return html`<svg class="collect-strip" viewBox="0 0 ${String(WIDE)} ${String(HIGH)}" width=${String(WIDE)} height=${String(HIGH)} aria-hidden="true">${svg`<path class="axis" d="M${RIM} ${HIGH - 3}H${WIDE - RIM}"></path>`}${values.map(({ value, isOutlier }) => {
    const at = place(value);
    const above = heights.get(at) ?? 0;
    heights.set(at, above + 1);
    const [x, y] = [RIM + (at / PLACES) * (WIDE - 2 * RIM), HIGH - 7 - above * step];
    return isOutlier ? svg`<rect class="far" x=${x - 3} y=${y - 3} width="6" height="6"></rect>` : svg`<circle cx=${x} cy=${y} r="2"></circle>`;
  })}</svg>`;
}

function othersTemplate(others: readonly OtherFormulas[]): TemplateResult | typeof nothing {
  if (others.length === 0) return nothing;
  return html`<h3>Worked out otherwise than in most sheets</h3><p class="help">These results are no measure for the answers in the same file: look at it before you mark it.</p>
    <ul class="collect-list">${others.map(({ sheet, names }) => html`<li><span class="collect-what">${nameOf(sheet)}</span> <span>${names.slice(0, MOST_NAMES).map((name, i) => html`${i === 0 ? nothing : ', '}${formulaWords(name)}`)}${names.length > MOST_NAMES ? html` and ${names.length - MOST_NAMES} more` : nothing}</span></li>`)}</ul>`;
}

const MOST_NAMES = 8;

function formulaWords(name: string): string {
  return name.startsWith('own ') ? `what counts as right for ${name.slice('own '.length)}` : name;
}

function sameTemplate(pairs: readonly SameReadings[]): TemplateResult | typeof nothing {
  if (pairs.length === 0) return nothing;
  return html`<h3>The same readings in two sheets</h3><p class="help">More than chance would give, as far as this class tells. Teams may have measured together, or gone on with one file. Nothing follows from it by itself.</p>
    <ul class="collect-list">${pairs.map(({ one, other, symbols, compared }) => html`<li><span class="collect-what">${nameOf(one)} and ${nameOf(other)}</span> <span>${symbols.map((symbol, i) => html`${i === 0 ? nothing : ', '}${symbol}`)}: ${symbols.length} of ${compared} that could be compared</span></li>`)}</ul>`;
}

function poolTemplate(pool: Pool, { target }: CollectState, actions: CollectActions): TemplateResult | typeof nothing {
  const { specimens, left } = pool;
  if (specimens.length + left.length === 0) return nothing;
  const text = (row: ReadonlyMap<string, { readonly text: string; readonly unit?: string }>, key: string): string => [row.get(key)?.text ?? '', row.get(key)?.unit ?? ''].filter((part) => part !== '').join(' ');
  return html`<h3>The class’s specimens</h3>
    <p class="collect-came">${specimens.length === 0 ? nothing : html`<button type="button" @click=${() => actions.poolInto('new')}>Put them into a new S-N sheet</button>
      ${target === undefined ? nothing : html`<button type="button" @click=${() => actions.poolInto('open')}>${composed`Put them into the table of “${target.title}”`}</button>`}
      <button type="button" @click=${actions.takeSpecimens}>Take the specimens away (CSV)</button>`}</p>
    ${left.length === 0 ? nothing : html`<ul class="collect-list">${left.map(({ sheet, reason }) => html`<li><span class="collect-what">${nameOf(sheet)}, not among them:</span> <span>${reason}</span></li>`)}</ul>`}
    ${specimens.length === 0 ? nothing : html`<div class="collect-table" tabindex="0" role="group" aria-label="The class’s specimens"><table><thead><tr>${['Specimen', 'Team', 'File', 'Material', 'Stress amplitude', 'Life', 'Outcome'].map((head) => html`<th scope="col">${head}</th>`)}</tr></thead>
      <tbody>${specimens.map(({ row, specimen }) => html`<tr><th scope="row">${specimen}</th>${['team', 'file', 'group', 'S', 'N', 'outcome'].map((key) => html`<td>${text(row, key)}</td>`)}</tr>`)}</tbody></table></div>`}`;
}

function feedbackTemplate({ tellsResults }: CollectState, count: number, actions: CollectActions): TemplateResult {
  return html`<h3>Feedback</h3>
    <p class="help">A page for each team with its verdicts, points, hints, values far from the class’s and checks that do not hold: ${count} in one archive.</p>
    <p class="collect-came"><label><input type="checkbox" ?checked=${tellsResults} @change=${(event: Event) => actions.tellResults((event.target as HTMLInputElement).checked)}> tell the sheet’s own results</label>
      <button type="button" @click=${() => void actions.takeFeedback()}>Take the feedback away (ZIP)</button></p>`;
}
