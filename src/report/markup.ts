import { isolatedQuotes } from '../core/problem/index.ts';

/** HTML that is safe to write out: made here from escaped text, or by KaTeX, the prose renderer and our own drawings. */
export interface Markup {
  readonly html: string;
}

type Insertion = string | number | false | undefined | Markup | readonly Markup[];

/** `html\`<p>${text}</p>\``: whatever is put in is escaped, and turns no words beside it, unless it is markup already; false and undefined vanish. */
export function html(strings: TemplateStringsArray, ...insertions: readonly Insertion[]): Markup {
  const inserted = insertions.map(insertionHtml);
  return { html: strings.map((part, i) => part + (inserted[i] ?? '')).join('') };
}

/** Only for what KaTeX, markdown-it without HTML or the drawings gave. */
export function trusted(source: string): Markup {
  return { html: source };
}

/** `text` as it stands between tags or inside a quoted attribute. */
export function escapeHtml(text: string): string {
  return text
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;')
    .replace(/'/g, '&#39;');
}

function insertionHtml(insertion: Insertion): string {
  if (insertion === undefined || insertion === false) return '';
  if (typeof insertion === 'string') return escapeHtml(isolatedQuotes(insertion));
  if (typeof insertion === 'number') return String(insertion);
  return 'html' in insertion ? insertion.html : insertion.map((part) => part.html).join('');
}
