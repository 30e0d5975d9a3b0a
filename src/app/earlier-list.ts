import { nothing, type TemplateResult } from 'lit-html';
import { composed } from '../core/problem/index.ts';
import { html } from '../view/index.ts';
import { whenKept, type EarlierActions, type EarlierEntry, type EarlierShown } from './earlier-desk.ts';

/** What the open sheet said before, each with the way back. */
export function earlierTemplate({ unfolded, entries, further }: EarlierShown, actions: EarlierActions, close: (action: () => void) => (event: Event) => void): TemplateResult {
  const now = Date.now();
  const entry = (one: EarlierEntry): TemplateResult => {
    const time = whenKept(one.at, now);
    return html`<li><span class="entry">${time}</span> <span class="help">${one.words}</span>
      <button type="button" aria-label=${composed`Go back to it: ${time}, ${one.words}`} @click=${close(() => actions.goBackToEarlier(one))}>Go back to it</button></li>`;
  };
  const unfold = html`<h2 id="earlier-states"><button type="button" class="unfolder" aria-expanded=${String(unfolded)} @click=${actions.unfoldEarlier}>Earlier states of this sheet</button></h2>`;
  if (!unfolded) return unfold;
  return html`${unfold}
    <p class="help">${entries.length === 0 ? 'None yet: what the sheet said before a change stays here.'
      : 'What differs from now. All of the last hour stay, then one each ten minutes for a day, one each day for a month, and one each month.'}</p>
    <ul aria-labelledby="earlier-states" class="earlier">${entries.map(entry)}</ul>
    ${further === 0 ? nothing : html`<button type="button" @click=${(event: Event) => showMore(event, actions)}>Show more of the ${further} before</button>`}`;
}

/** The press may go with what it does: the next Tab comes to the first state that it showed. */
function showMore(event: Event, { showMoreEarlier }: EarlierActions): void {
  (event.currentTarget as HTMLElement).parentElement?.querySelector<HTMLElement>('.earlier li:last-child button')?.focus();
  showMoreEarlier();
}
