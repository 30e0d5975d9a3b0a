/** lit-html's `html`, so that no text of a document turns the words, numbers or buttons that stand beside it: for every template of the page. */
import { html as litHtml, nothing, type TemplateResult } from 'lit-html';
import { mayHoldSymbols, plainSymbols } from '../core/formula/index.ts';
import { isolatedQuotes } from '../core/problem/index.ts';
import { placesOf, symbolsShown, type Insertion, type Place } from '../report/index.ts';
import { setEquation } from './equations.ts';
import { prose } from './prose.ts';

/** Text between tags is isolated where it could turn what is beside it, and its symbols look as in the equations; attributes and properties, fields among them, hold what they were given. */
export function html(strings: TemplateStringsArray, ...values: unknown[]): TemplateResult<1> {
  const places = placesOf(strings);
  // In its place: this is done some thirty times for each line that is drawn.
  for (let i = 0; i < values.length; i++) values[i] = inPlace(values[i], places[i] ?? BETWEEN);
  return litHtml(strings, ...values);
}

/** What the report layer says of a place, on the page: the same templates, their equations set when they come near, the page's hands in their places. */
export function shown(insertion: Insertion): unknown {
  if (insertion === undefined || insertion === false) return nothing;
  if (typeof insertion === 'string' || typeof insertion === 'number') return insertion;
  if ('strings' in insertion) return html(insertion.strings, ...insertion.insertions.map(shown));
  if ('tex' in insertion) return html`<span ${setEquation(insertion.tex)}></span>`;
  if ('hand' in insertion) return insertion.hand;
  if ('html' in insertion) return insertion.classes === undefined ? html`<span ${prose(insertion.html)}></span>` : html`<div class=${insertion.classes} ${prose(insertion.html)}></div>`;
  return insertion.map(shown);
}

/** Behind the last fixed part. */
const BETWEEN: Place = { isBetweenTags: true, symbols: 'shown' };

function inPlace(value: unknown, place: Place): unknown {
  if (Array.isArray(value)) return value.map((one) => inPlace(one, place));
  if (typeof value !== 'string') return value;
  if (place.symbols === 'shown' && mayHoldSymbols(value)) return symbolsShown(value).map((piece) => (typeof piece === 'string' ? isolatedQuotes(piece) : shown(piece)));
  const text = place.symbols === 'plain' ? plainSymbols(value) : value;
  return place.isBetweenTags ? isolatedQuotes(text) : text;
}
