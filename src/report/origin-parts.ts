import type { Origin } from '../sheet/index.ts';
import { html, type Hand, type Insertion, type Markup } from './markup.ts';
import { cellAnchor } from './parts.ts';
import { ORIGIN_WORDS, presentOrigins, type OriginPlace } from './present/origins.ts';
import type { PresentContext } from './present/types.ts';

/* Where values come from: the word beside each that is not the reader's own, and the sentence that counts them at the head. */

/** Beside a blank. @param confirm what makes an assumed value the reader's own */
export function originMark(origin: Origin | undefined, confirm?: Hand): Insertion {
  return origin !== undefined && html`<span class="origin">${ORIGIN_WORDS[origin]}${origin === 'assumed' && confirm}</span>`;
}

/** In the margin of what has no blank. */
export function originNote(origin: Origin | undefined, confirm?: Hand): Insertion {
  return origin !== undefined && html`<p class="origin">${ORIGIN_WORDS[origin]}${origin === 'assumed' && confirm}</p>`;
}

/** How many values are whose, with a list of those that are not the reader's own behind it. */
export function originsLine({ document }: PresentContext, place?: (cellId: string, words: string) => Hand): Insertion {
  const { values, others, isHeadInvented, sentence, warning } = presentOrigins(document);
  if (sentence === '' && warning === '') return false;
  const lists: readonly (readonly [string, readonly OriginPlace[]])[] = [['Assumed', values.assumed], ['From other sheets', values.taken], ['Set for this team', values.set], ['Invented', [...values.example, ...others]]];
  const shown = lists.filter(([, places]) => places.length > 0);
  const said = [sentence, warning].filter((part) => part !== '').join(' ');
  if (shown.length === 0 && !isHeadInvented) return html`<p class="origins">${said}</p>`;
  return html`<details class="origins"><summary>${said}</summary>
${shown.map(([words, places]) => placesLine(words, places, place))}
${isHeadInvented && html`<p>Invented, too: entries of the title block.</p>`}</details>`;
}

function placesLine(words: string, places: readonly OriginPlace[], place: ((cellId: string, words: string) => Hand) | undefined): Markup {
  return html`<p>${words}: ${places.map(({ cellId, words: name }, i) => html`${i === 0 ? '' : ', '}${place?.(cellId, name) ?? html`<a href="#${cellAnchor(cellId)}">${name}</a>`}`)}.</p>`;
}
