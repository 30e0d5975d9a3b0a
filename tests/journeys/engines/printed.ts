/** What stands where in a printed file, whoever wrote it: words with their places, from Poppler's pdftotext. */
import { execFileSync } from 'node:child_process';
import type { Engine } from './engine.ts';

interface Word {
  readonly text: string;
  /** Points from the page's left and top edge. */
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

interface PrintedPage {
  /** All that is written on it, in the order in which it is drawn. */
  readonly text: string;
  readonly width: number;
  readonly height: number;
  readonly words: readonly Word[];
}

const NUMBER = '(-?[\\d.]+)';
const WORD = new RegExp(`<word xMin="${NUMBER}" yMin="${NUMBER}" xMax="${NUMBER}" yMax="${NUMBER}">([^<]*)</word>`, 'g');

/** The pages of a printed file, whoever wrote it. */
export function printedPages(pdf: Buffer): readonly PrintedPage[] {
  const [told = '', texts = ''] = ['-bbox', '-raw'].map((way) => execFileSync('pdftotext', [way, '-', '-'], { input: pdf, encoding: 'utf8', maxBuffer: 1e9 }));
  const text = texts.split('\f').map(signs);
  return [...told.matchAll(new RegExp(`<page width="${NUMBER}" height="${NUMBER}">([\\s\\S]*?)</page>`, 'g'))].map(([, width, height, words = ''], i) => ({
    text: text[i] ?? '',
    width: Number(width),
    height: Number(height),
    words: [...words.matchAll(WORD)].map(([, left, top, right, bottom, text = '']) => ({ text: signs(unescaped(text)), left: Number(left), top: Number(top), right: Number(right), bottom: Number(bottom) })),
  }));
}

const unescaped = (text: string): string => text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&#39;', "'").replaceAll('&amp;', '&');

/** Signs as one compares them: no white space, no marks of direction, ligatures and letters of formulas as plain ones. */
const signs = (text: string): string => text.normalize('NFKC').replace(/[\s\u2066-\u2069\u200b\u00ad]/gu, '');

/** What stands across the edge between a page's margin and what is printed on it: a line that the end of the page cut in two, painted on both pages. */
function cutInTwo(pages: readonly PrintedPage[], margin: { readonly top: number; readonly bottom: number }): string[] {
  return pages.flatMap(({ height, width, words }, i) => words
    .filter(({ left, top, right, bottom }) => right > width || left < 0
      || [margin.top, height - margin.bottom].some((edge) => top < edge - GLYPH && bottom > edge + GLYPH))
    .map(({ text, top }) => `page ${i + 1}, ${Math.round(top)} pt from its top: ${text}`));
}

/** A letter's box reaches this much beyond its line, pt. */
const GLYPH = 1.5;

/**
 * What is wrong with the page as it is printed at once after it came alive and what draws charts was unpacked, with nothing scrolled to: a drawing of which something is missing or on another page, a
 * line cut in two, a heading at the foot of a page, a page with next to nothing on it.
 */
export async function faultsInPrint(engine: Engine): Promise<string[]> {
  await engine.until('what draws charts', () => {
    window.dispatchEvent(new Event('beforeprint'));
    const waits = document.querySelector('.sheet')?.textContent.includes('This chart is not drawn yet');
    window.dispatchEvent(new Event('afterprint'));
    return waits === false;
  });
  const pages = printedPages(await engine.print());
  const { figures, headings } = await engine.run(inPage, engine.paper.asOutlines);
  const texts = pages.map(({ text }) => text);
  const missing = figures.flatMap(({ id, texts: all, labels }) => {
    const best = texts.map((text) => labels.filter((label) => !text.includes(label))).sort((one, other) => one.length - other.length)[0] ?? labels;
    return all < 4 ? [`${id}: nothing is written in it`] : best.map((label) => `${id}: ${label} is missing`);
  });
  const names = new Set(headings);
  const stranded = pages.slice(0, -1).flatMap((page, i) => (names.has(lastLine(page)) ? [`page ${i + 1} ends with the heading ${lastLine(page)}`] : []));
  const empty = texts.slice(0, -1).flatMap((text, i) => (text.length < 100 ? [`page ${i + 1} is nearly empty`] : []));
  return [...(figures.length === 0 ? ['no drawing in the page'] : []), ...missing, ...cutInTwo(pages, engine.paper), ...stranded, ...empty];
}

/** What stands lowest on a page, above its foot. */
function lastLine({ words }: PrintedPage): string {
  const body = words.filter(({ bottom }) => bottom < 842 - 40);
  const lowest = Math.max(...body.map(({ bottom }) => bottom));
  return body.filter(({ bottom }) => bottom > lowest - 3).map(({ text }) => text).join('');
}

/** In the page: each drawing as it is made for paper, by what is written in it as letters, and all headings. */
function inPage(asOutlines: boolean): { readonly figures: { readonly id: string; readonly texts: number; readonly labels: string[] }[]; readonly headings: string[] } {
  const plain = (text: string): string => text.normalize('NFKC').replace(/[\s\u2066-\u2069\u200b\u00ad]/gu, '');
  window.dispatchEvent(new Event('beforeprint'));
  const figures = [...document.querySelectorAll('.cell-figure')].map((figure) => ({
    id: figure.id,
    texts: figure.querySelectorAll('.drawn svg text').length,
    labels: [...figure.querySelectorAll('.drawn svg :is(text, tspan)')].filter((text) => text.childElementCount === 0 && !(asOutlines && getComputedStyle(text).stroke !== 'none')).map((text) => plain(text.textContent)).filter((label) => label.length > 1),
  }));
  // Below the head of a remark that is still to be written nothing stands that it could go over with.
  const headings = [...document.querySelectorAll('.sheet :is(h2, h3, h4)')].filter((heading) => heading.parentElement?.querySelector('[data-empty]') === null).map((heading) => plain(heading.textContent));
  window.dispatchEvent(new Event('afterprint'));
  return { figures, headings };
}
