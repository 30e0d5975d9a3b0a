import { mayHoldSymbols, plainSymbols, withSymbols, type SymbolText } from '../core/formula/index.ts';
import { isolatedQuotes } from '../core/problem/index.ts';
import { equation } from './equation.ts';
import { placesOf, type Place } from './places.ts';

/**
 * What a place of the sheet looks like, said once: fixed text of ours with values between. A report writes it out as HTML (`htmlText`); the
 * page hands it to what keeps it up to date (`shown` in `view`), with its hands, the blanks and presses that a report leaves out.
 */
export interface Markup {
  readonly strings: TemplateStringsArray;
  readonly insertions: readonly Insertion[];
}

/** Text becomes text, whatever it holds; false and undefined vanish, and with them the attribute whose whole value they are. */
export type Insertion = string | number | false | undefined | Markup | Trusted | Equation | Hand | readonly Insertion[];

/** HTML of our own, in an element of its own where that has classes. */
interface Trusted {
  readonly html: string;
  readonly classes?: string;
}

interface Equation {
  readonly tex: string;
}

/** What only the page has. A report has none. */
export interface Hand {
  readonly hand: unknown;
}

/** `html\`<p>${text}</p>\``. Between tags or inside a quoted attribute; of SVG whole elements, since the page reads each template by itself. */
export function html(strings: TemplateStringsArray, ...insertions: readonly Insertion[]): Markup {
  return { strings, insertions };
}

/** Only for what markdown-it without HTML or the drawings gave. */
export function trusted(source: string, classes?: string): Trusted {
  return { html: source, ...(classes === undefined ? {} : { classes }) };
}

export function math(tex: string): Equation {
  return { tex };
}

/** A sentence whose symbols look as they do in the equations. */
export function symbolsShown(sentence: string): readonly (string | Markup)[] {
  return withSymbols(sentence).map((piece) => (typeof piece === 'string' ? piece : symbolMarkup(piece)));
}

/** With a hair of space before the subscript, where a voice makes two words. */
function symbolMarkup({ head, below }: SymbolText): Markup {
  const letters = ({ text, slopes }: SymbolText['head']): Markup => (slopes ? html`<i>${text}</i>` : html`${text}`);
  const under = below.length > 0 && html`\u200a<sub>${below.map((part, i) => html`${i > 0 && ','}${letters(part)}`)}</sub>`;
  return html`<span class="symbol-name">${letters(head)}${under}</span>`;
}

/** The markup as HTML: whatever is put in is escaped, and turns no words beside it, unless it is markup already. */
export function htmlText({ strings, insertions }: Markup): string {
  let text = '';
  const places = placesOf(strings);
  let isAttributeGone = false;
  strings.forEach((string, i) => {
    const part = isAttributeGone ? string.slice(1) : string;
    const insertion = insertions[i];
    isAttributeGone = (insertion === undefined || insertion === false) && part.endsWith('="') && strings[i + 1]?.startsWith('"') === true;
    text += isAttributeGone ? part.replace(/\s[\w-]+="$/, '') : part + insertionText(insertion, places[i]?.symbols ?? 'shown');
  });
  return text;
}

function insertionText(insertion: Insertion, symbols: Place['symbols']): string {
  if (insertion === undefined || insertion === false) return '';
  if (typeof insertion === 'string') return stringText(insertion, symbols);
  if (typeof insertion === 'number') return String(insertion);
  if ('strings' in insertion) return htmlText(insertion);
  if ('html' in insertion) return insertion.classes === undefined ? insertion.html : `<div class="${insertion.classes}">${insertion.html}</div>`;
  if ('tex' in insertion) return equation(insertion.tex);
  if ('hand' in insertion) return '';
  return insertion.map((one) => insertionText(one, symbols)).join('');
}

function stringText(text: string, symbols: Place['symbols']): string {
  if (symbols === 'shown' && mayHoldSymbols(text)) return symbolsShown(text).map((piece) => insertionText(piece, 'typed')).join('');
  return escapeHtml(isolatedQuotes(symbols === 'plain' ? plainSymbols(text) : text));
}

/** `text` as it stands between tags or inside a quoted attribute. */
function escapeHtml(text: string): string {
  return text
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;')
    .replace(/'/g, '&#39;');
}
