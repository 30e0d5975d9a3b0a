/** What a report and a page look like, as lines that read well in a comparison: no pictures, equations as their TeX, one element a line. */
import { createHash } from 'node:crypto';
import { nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { entered } from '../../src/view/entered.ts';
import { setEquation } from '../../src/view/equations.ts';
import { prose } from '../../src/view/prose.ts';

/** What lit-html keeps of the use of a directive. */
interface DirectiveUse {
  readonly _$litDirective$: unknown;
  readonly values: readonly unknown[];
}

const use = (result: unknown): DirectiveUse => result as DirectiveUse;
const SET_EQUATION = use(setEquation(''))._$litDirective$;
const PROSE = use(prose(''))._$litDirective$;
/** Both give a field the value that they were given. */
const VALUES = new Set([live(''), entered('')].map((given) => use(given)._$litDirective$));

/** Rows of a table after which the others are only counted. */
const MOST_ROWS = 4;
const BLOCKS = 'article|aside|button|caption|dd|div|dl|dt|fieldset|figcaption|figure|form|footer|h[1-6]|header|input|label|legend|li|ol|option|p|pre|section|select|summary|details|table|tbody|textarea|thead|tr|ul';

/** A template of the page as HTML, without what it does: listeners and most directives go, what an element is filled with stands in it. */
export function pageText(template: TemplateResult): string {
  const fillings: string[] = [];
  const text = templateText(template, fillings);
  // What fills an element was written into its tag, and belongs behind it.
  return text.replace(/<[^<>]*>/g, (tag) => {
    const behind = [...tag.matchAll(/\u0001(\d+)\u0002/g)].map(([, place]) => fillings[Number(place)] ?? '').join('');
    return tag.replace(/\s*\u0001\d+\u0002/g, '').replace(/\s+>$/, '>') + behind;
  });
}

function templateText({ strings, values }: TemplateResult, fillings: string[]): string {
  let text = '';
  let isClosed = false;
  strings.forEach((part, i) => {
    text += isClosed ? part.slice(1) : part;
    if (i >= values.length) return;
    isClosed = text.endsWith('="') && strings[i + 1]?.startsWith('"') === true;
    const attribute = (isClosed ? /\s()([\w-]+)="$/ : /\s([@.?]?)([\w-]+)=$/).exec(text);
    if (attribute !== null && isInTag(text)) text = text.slice(0, attribute.index) + attributeText(attribute[1] ?? '', attribute[2] ?? '', values[i]);
    else if (isInTag(text) && isDirective(values[i])) text += elementText(use(values[i]), fillings);
    else if (isInTag(text) && values[i] === nothing) throw new Error(`nothing in a part of an attribute takes the whole of it: ${text.slice(-80)}`);
    else text += valueText(values[i], fillings);
  });
  return text;
}

function isInTag(text: string): boolean {
  return text.lastIndexOf('<') > text.lastIndexOf('>');
}

function isDirective(value: unknown): boolean {
  return typeof value === 'object' && value !== null && '_$litDirective$' in value;
}

function attributeText(sign: string, name: string, given: unknown): string {
  const value = isDirective(given) && VALUES.has(use(given)._$litDirective$) ? use(given).values[0] : given;
  if (sign === '@' || value === nothing || isDirective(value)) return '';
  if (sign === '?') return value ? ` ${name}` : '';
  return ` ${sign}${name}="${escaped(String(value))}"`;
}

function elementText({ _$litDirective$: kind, values: [given] }: DirectiveUse, fillings: string[]): string {
  if (kind === SET_EQUATION) fillings.push(`$${escaped(String(given))}$`);
  else if (kind === PROSE) fillings.push(withoutEquations(String(given)));
  else return '';
  return `\u0001${fillings.length - 1}\u0002`;
}

function valueText(value: unknown, fillings: string[]): string {
  if (value === nothing || value === undefined || value === null || isDirective(value)) return '';
  if (Array.isArray(value)) return value.map((one) => valueText(one, fillings)).join('');
  if (typeof value === 'object' && 'strings' in value) return templateText(value as unknown as TemplateResult, fillings);
  return escaped(String(value as string | number));
}

function escaped(text: string): string {
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');
}

/** KaTeX's markup of each equation gives way to what it notes as the source. */
export function withoutEquations(markup: string): string {
  const [head = '', ...rest] = markup.split('<span class="katex">');
  return head + rest.map((text) => {
    let depth = 1;
    let end = 0;
    for (const tag of text.matchAll(/<(\/?)span\b[^>]*>/g)) {
      depth += tag[1] === '' ? 1 : -1;
      end = tag.index + tag[0].length;
      if (depth === 0) break;
    }
    const tex = /<annotation[^>]*>(?:\\displaystyle )?([\s\S]*?)<\/annotation>/.exec(text)?.[1] ?? '';
    return `$${tex}$${text.slice(end)}`;
  }).join('');
}

/** Lines to be compared. Of a long table the first rows stand, of a long text its beginning; drawings and pictures by what tells two apart. */
export function readable(markup: string): string {
  const lines = markup
    .replace(/<svg\b([^>]*)>[\s\S]*?<\/svg>/g, (whole, attributes: string) => `<svg${/ class="[^"]*"/.exec(attributes)?.[0] ?? ''} ${shortHash(whole)}/>`)
    .replace(/"data:[^"]*"/g, (whole) => `"data: ${shortHash(whole)}"`)
    .replace(/[ \n\t]+/g, ' ')
    .replace(/ type="button"| autocomplete="off"| autocapitalize="off"| spellcheck="false"/g, '')
    .replace(/>[^<>]{120,}(?=<|$)/g, shortened)
    .replace(/="[^"<>]{120,}(?=")/g, shortened)
    .replace(/&quot;/g, '"')
    .replace(/&#39;/g, '\'')
    .replace(/(class="[^"]*?) +"/g, '$1"')
    .replace(new RegExp(` *(</?(?:${BLOCKS})\\b[^>]*>) *`, 'g'), '$1')
    .replace(new RegExp(`<(${BLOCKS})\\b`, 'g'), '\n<$1')
    .replace(/(<\/(?:article|section|table|ul|ol|dl|fieldset|figure|header)>)/g, '\n$1')
    .split('\n')
    .filter((line) => line.trim() !== '');
  return `${withFewRows(lines).join('\n')}\n`;
}

/** Words of a sheet that go on for long: their beginning, and what tells whether the rest is the same. */
function shortened(text: string): string {
  return `${text.slice(0, 90)} … ${shortHash(text)}`;
}

function withFewRows(lines: readonly string[]): readonly string[] {
  const kept: string[] = [];
  let rows = 0;
  for (const line of lines) {
    if (/^<(?:table|thead|tbody)/.test(line)) rows = 0;
    if (line.startsWith('<tr')) rows += 1;
    const isEnd = line.startsWith('</table>');
    if (isEnd && rows > MOST_ROWS) kept.push(`… ${rows - MOST_ROWS} more rows`);
    if (isEnd) rows = 0;
    if (rows <= MOST_ROWS) kept.push(line);
  }
  return kept;
}

function shortHash(text: string): string {
  return createHash('sha256').update(text).digest('hex').slice(0, 8);
}
