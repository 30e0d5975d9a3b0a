/** lit-html's `html`, so that no text of a document turns the words, numbers or buttons that stand beside it: for every template of the page. */
import { html as litHtml, nothing, type TemplateResult } from 'lit-html';
import { isolatedQuotes } from '../core/problem/index.ts';
import type { Insertion } from '../report/index.ts';
import { setEquation } from './equations.ts';
import { prose } from './prose.ts';

/** By the fixed parts of a template, which of its insertions stand between tags and not in an attribute. */
const known = new WeakMap<TemplateStringsArray, readonly boolean[]>();

/** Text between tags is isolated where it could turn what is beside it; attributes and properties, fields among them, hold what they were given. */
export function html(strings: TemplateStringsArray, ...values: readonly unknown[]): TemplateResult<1> {
  let isText = known.get(strings);
  if (isText === undefined) known.set(strings, (isText = textPlaces(strings)));
  return litHtml(strings, ...values.map((value, i) => (isText[i] === true ? isolatedValue(value) : value)));
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

function isolatedValue(value: unknown): unknown {
  if (typeof value === 'string') return isolatedQuotes(value);
  return Array.isArray(value) ? value.map(isolatedValue) : value;
}

function textPlaces(strings: readonly string[]): readonly boolean[] {
  let isInTag = false;
  let quote = '';
  return strings.map((part) => {
    for (const sign of part) {
      if (!isInTag) isInTag = sign === '<';
      else if (quote !== '') quote = sign === quote ? '' : quote;
      else if (sign === '"' || sign === "'") quote = sign;
      else if (sign === '>') isInTag = false;
    }
    return !isInTag;
  });
}
