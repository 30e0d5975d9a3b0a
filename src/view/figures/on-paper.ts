import { chartAt } from './live-chart.ts';
import { figureAt } from './live-figure.ts';

/**
 * Before printing every drawing and chart inside `place` is drawn for paper, whether it was ever in view or not; with `false` it is drawn again
 * for the width it has on the screen. At once: what is printed is what stands in the page when this returns.
 */
export function drawForPaper(place: ParentNode, isPrinting: boolean): void {
  for (const element of place.querySelectorAll<HTMLElement>('.drawn')) {
    if (element.classList.contains('chart-drawn')) chartAt(element).onPaper(isPrinting);
    else figureAt(element).onPaper(isPrinting);
  }
}
