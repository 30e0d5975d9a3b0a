import { html, math, type Markup } from './markup.ts';
import { fitOnPaper } from './tex-width.ts';

/** Signs that fit into a phone's line at the least. */
const SURELY_FITS = 20;

/** Whether an equation may be too wide for a phone's line, told from its signs: such a line scrolls on its own. */
export function mayBeTooWide(tex: string): boolean {
  return tex.replace(/\\phantom\{.*?\} =/, '').replace(/\\[a-zA-Z]+|[\\{}_^&,\s]/g, '').length > SURELY_FITS;
}

/** A line that may scroll can be reached, and scrolled, with the keyboard. It breaks at equals signs, then at plus and minus. */
export function equationLine(kind: 'symbols' | 'numbers', tex: string, isSlipped = false): Markup {
  const shown = breakable(tex);
  return html`<div class="${kind}${isSlipped ? ' slipped' : ''}" style="${fitOnPaper(shown)}" tabindex="${mayBeTooWide(tex) && '0'}">${math(shown)}</div>`;
}

/** The same with its fractions in line, `(a + b)/c`, so that it can break where there is little room. */
export function inLineFractions(tex: string): string {
  const at = tex.search(/\\d?frac\{/);
  if (at < 0) return tex;
  const above = group(tex, tex.indexOf('{', at));
  const below = above === undefined ? undefined : group(tex, above.end);
  if (above === undefined || below === undefined) return tex;
  return `${tex.slice(0, at)}${asFactor(above.inside)}/${asFactor(below.inside)}${inLineFractions(tex.slice(below.end))}`;
}

/** What stands in the braces that open at a place. */
function group(tex: string, from: number): { readonly inside: string; readonly end: number } | undefined {
  if (tex[from] !== '{') return undefined;
  let depth = 0;
  for (let i = from; i < tex.length; i++) {
    if (tex[i] === '\\') i++;
    else if (tex[i] === '{') depth++;
    else if (tex[i] === '}' && --depth === 0) return { inside: inLineFractions(tex.slice(from + 1, i)), end: i + 1 };
  }
  return undefined;
}

/** A number, or a letter with its subscript. */
const ONE_FACTOR = /^(?:[\d.]+|(?:[A-Za-z]|\\[a-zA-Z]+)(?:_(?:[A-Za-z0-9]|\{(?:[^{}]|\{[^{}]*\})*\}))?)$/;

function asFactor(tex: string): string {
  return ONE_FACTOR.test(tex) ? tex : `\\left(${tex}\\right)`;
}

const TALL = /\\(?:frac|dfrac|sqrt|begin|left)/;
const BRACKET = /\\(left|right)\s*(\\l?r?vert|\\[lr]angle|[()])|[{}]/g;
const PLAIN: Readonly<Record<string, string>> = { '(': '(', ')': ')', '\\langle': '\\langle ', '\\rangle': '\\rangle ', '\\lvert': '\\lvert ', '\\rvert': '\\rvert ' };

/** Brackets that stretch keep their content on one line; around what is no taller than a letter plain ones look the same and let it break. */
export function breakable(tex: string): string {
  const open: { readonly from: number; readonly to: number; readonly sign: string; readonly depth: number }[] = [];
  const replaced: { readonly from: number; readonly to: number; readonly by: string }[] = [];
  let depth = 0;
  for (const match of tex.matchAll(BRACKET)) {
    const [all, side, sign = ''] = match;
    const [from, to] = [match.index, match.index + all.length];
    if (side === undefined) depth += all === '{' ? 1 : -1;
    else if (side === 'left') open.push({ from, to, sign, depth });
    else {
      const begun = open.pop();
      if (begun === undefined || begun.depth !== 0 || depth !== 0 || TALL.test(withPlain(tex, replaced, begun.to, from))) continue;
      replaced.push({ from: begun.from, to: begun.to, by: PLAIN[begun.sign] ?? begun.sign }, { from, to, by: PLAIN[sign] ?? sign });
    }
  }
  return withPlain(tex, replaced, 0, tex.length);
}

/** A stretch of the text with the brackets in it that were made plain. */
function withPlain(tex: string, replaced: readonly { readonly from: number; readonly to: number; readonly by: string }[], from: number, to: number): string {
  let [text, at] = ['', from];
  for (const one of replaced.filter((each) => each.from >= from && each.to <= to).toSorted((a, b) => a.from - b.from)) {
    text += tex.slice(at, one.from) + one.by;
    at = one.to;
  }
  return text + tex.slice(at, to);
}
