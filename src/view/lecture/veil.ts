import { drawnSymbol } from '../../figures/drawings/index.ts';
import type { Desk } from '../desk.ts';
import { drawnName } from '../lighting.ts';

/**
 * A drawing in the lecture, its caption and the words that stand for it do not tell a result before its line has: in the drawing the name stands there, the figure not yet. Figures
 * without a name, at the corners of a diagram, wait for all that the drawing shows.
 */
export function veilDrawing(drawing: Element, blockId: string, desk: Desk, notYet = desk.notYet()): void {
  const names = new Set([...notYet].map(drawnSymbol));
  const isWhole = !(desk.context().states.cell(blockId)?.reads ?? []).some((symbol) => notYet.has(symbol));
  for (const text of drawing.querySelectorAll('svg.drawing text:is(.value, .dimension-figure)')) {
    const name = nameOf(text);
    text.classList.toggle('not-yet', name === undefined ? !isWhole && !text.classList.contains('yours') : names.has(name));
  }
  // A chart is made of nothing but such figures.
  drawing.closest('.cell-figure')?.toggleAttribute('data-ahead', !isWhole && drawing.querySelector('svg.chart, .chart-reach') !== null);
  for (const words of drawing.querySelectorAll('svg.drawing > desc, figcaption > .sentence')) keepToItself(words, !isWhole);
}

/** What stands in the place of words that would tell a result. */
const TOLD_LATER = 'What it shows of results is told line by line.';
const ownWords = new WeakMap<Element, string>();

function keepToItself(words: Element, isKept: boolean): void {
  const isAway = words.textContent === TOLD_LATER;
  if (isKept === isAway) return;
  if (isKept) ownWords.set(words, words.textContent);
  words.textContent = isKept ? TOLD_LATER : (ownWords.get(words) ?? '');
}

/** A figure that stands on a line of its own, below its name, has the name before it. */
function nameOf(text: Element): string | undefined {
  const above = text.previousElementSibling;
  return drawnName(text) ?? (above?.matches('text') === true && !above.textContent.includes('=') ? drawnName(above) : undefined);
}
