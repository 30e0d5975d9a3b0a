import { nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { findInSheet, openWords, presentContents, wholeOf, type FoundPlace, type PresentedSection } from '../../report/index.ts';
import type { Desk } from '../desk.ts';
import { setEquation } from '../equations.ts';
import type { Part } from '../parts.ts';
import { html } from '../template.ts';
import type { SideHands, SideUi } from './side-ui.ts';

/** Places listed of what was looked for; more are counted. */
const MOST_FOUND = 20;

/** The sections of the sheet with what is open in each, and the blank in which a symbol or word is looked for. */
export function contentsTemplate(desk: Desk, ui: SideUi, hands: SideHands): TemplateResult {
  const sections = presentContents(desk.context());
  return html`<nav class="contents" aria-labelledby="side-contents">
    <h2 id="side-contents">Contents</h2>
    <div class="find" role="search"><input type="search" aria-label="Find a symbol or word" placeholder="find a symbol or word" autocomplete="off" autocapitalize="off" spellcheck="false"
      .value=${live(ui.query)} @input=${(event: Event) => hands.change((one) => void (one.query = (event.target as HTMLInputElement).value))} @keydown=${inBlank(hands)}></div>
    ${ui.query.trim() === '' ? html`<ol>${sections.map((section, i) => sectionLine(section, { isInView: i === ui.section, isFolded: !desk.folds.isOpen(section.blockId) }, hands))}</ol>` : foundList(ui.query, desk, hands)}
  </nav>`;
}

function sectionLine(section: PresentedSection, { isInView, isFolded }: { readonly isInView: boolean; readonly isFolded: boolean }, { goToSection }: SideHands): TemplateResult {
  const { number, words, level, blockId, index } = section;
  const open = openWords(section);
  return html`<li class=${level > 2 ? 'below' : nothing}><button type="button" aria-current=${isInView ? 'location' : nothing} @click=${() => goToSection(blockId, index)}><span
    class="number">${number} </span><span class="title">${words}</span>${open === '' ? nothing : html` <span class="open">${open}<span class="visually-hidden"> open</span></span>`}${isFolded ? html` <span class="open folded">folded</span>` : nothing}</button></li>`;
}

function foundList(query: string, desk: Desk, hands: SideHands): TemplateResult {
  const { places, count } = findInSheet(query, wholeOf(desk.context()), MOST_FOUND);
  const words = count === 0 ? 'Nothing of that on this sheet.' : count === 1 ? '1 place' : `${count} places${count > places.length ? `, the first ${places.length}` : ''}`;
  return html`<p class="count" role="status">${words}</p>
    <ul class="contents-found" @keydown=${inList}>${places.map((place) => html`<li>${foundLine(place, hands)}</li>`)}</ul>`;
}

function foundLine({ blockId, symbolTex, title, around, number }: FoundPlace, { go, change }: SideHands): TemplateResult {
  const arrive = (): void => {
    change((one) => void (one.query = ''));
    go(blockId);
  };
  return html`<button type="button" @click=${arrive}>${number === '' ? nothing : html`<span class="number">${number}</span> `}${symbolTex === undefined
    ? nothing : html`<span class="symbol" ${setEquation(symbolTex)}></span> `}<span class="title">${title}</span>${contextLine(around)}</button>`;
}

function contextLine(around: FoundPlace['around']): Part {
  return around === undefined ? nothing : html` <span class="around">${around[0]}<mark>${around[1]}</mark>${around[2]}</span>`;
}

/** Enter goes to the first place, the arrow into the list; Escape empties the blank. */
function inBlank({ change }: SideHands): (event: KeyboardEvent) => void {
  return (event) => {
    const blank = event.currentTarget as HTMLInputElement;
    const first = blank.closest('.contents')?.querySelector<HTMLElement>('.contents-found button');
    if (event.isComposing) return;
    if (event.key === 'Enter' || event.key === 'ArrowDown') {
      event.preventDefault();
      if (event.key === 'Enter') first?.click();
      else first?.focus();
    } else if (event.key === 'Escape' && blank.value !== '') {
      event.preventDefault();
      change((one) => void (one.query = ''));
    }
  };
}

/** Arrows move along the places, and from the first back into the blank, where Escape leads too. */
function inList(event: KeyboardEvent): void {
  const list = event.currentTarget as HTMLElement;
  const places = [...list.querySelectorAll<HTMLElement>('button')];
  const at = places.indexOf(document.activeElement as HTMLElement);
  const blank = list.closest('.contents')?.querySelector<HTMLElement>('.find input');
  const to = event.key === 'ArrowDown' ? (places[at + 1] ?? places[at]) : event.key === 'ArrowUp' ? (places[at - 1] ?? blank) : event.key === 'Escape' ? blank : undefined;
  if (to === undefined) return;
  event.preventDefault();
  to?.focus();
}
