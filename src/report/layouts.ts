import type { ChartOptions } from '../figures/charts/index.ts';
import { html, trusted, type Markup } from './markup.ts';

/** One drawing for wide pages and paper, one laid out anew for a narrow screen: the lettering keeps its size in both. */
const SIZES = [
  { name: 'wide', width: 700, textSize: 15 },
  { name: 'narrow', width: 340, textSize: 15 },
  // Of a report: two of them, with their captions, share a page with text. Letters of eight to nine points.
  { name: 'paper', width: 440, textSize: 11.5 },
] as const;

type Layout = (typeof SIZES)[number]['name'];

/** For print: within the margins of A4 and of Letter, letters of about nine points. */
export const PAPER_LAYOUT = { width: 620, textSize: 13 } as const;

/** A picture in each layout, of which a page shows the one that its width has room for. */
export function inLayouts(
  draw: (options: ChartOptions) => { readonly svg: string; readonly sentence: string }, anchor: string, which: readonly Layout[] = ['wide', 'narrow'],
): readonly { readonly markup: Markup; readonly sentence: string }[] {
  const prefix = anchor.replace(/[^A-Za-z0-9-]/g, '-');
  return SIZES.filter(({ name }) => which.includes(name)).map(({ name, width, textSize }) => {
    const { svg, sentence } = draw({ width, idPrefix: `${prefix}-${name}`, textSize });
    return { markup: html`<div class="drawn ${name}">${trusted(svg)}</div>`, sentence };
  });
}
