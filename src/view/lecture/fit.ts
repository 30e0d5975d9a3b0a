import { redrawChart } from '../figures/live-chart.ts';
import { redrawFigure } from '../figures/live-figure.ts';
import { lettersFor } from './fit-sizes.ts';

/** Lines that would scroll sideways on the sheet. */
const LINES = '.symbols, .numbers, .settings > li, .ruled, .where';

/** Whether all of an element can be seen without scrolling. */
export function isWhole(element: HTMLElement): boolean {
  return element.scrollWidth <= element.clientWidth + 1 && element.scrollHeight <= element.clientHeight + 1;
}

/** Whether each line of a cell can be seen to its end. */
export function areLinesWhole(cell: HTMLElement): boolean {
  return [...cell.querySelectorAll<HTMLElement>(LINES)].every((line) => line.scrollWidth <= line.clientWidth + 1);
}

/** Letters of a picture, as shares of the size it should have. */
const LETTERS = [1, 0.9, 0.8, 0.72, 0.65];
const SMALLEST_LETTERS = 12;

/** Makes the picture of a figure low enough for the height it has, by smaller letters and then by less width: `room` tells it, px. */
export function fitPicture(cell: HTMLElement, room: () => number): void {
  const picture = cell.querySelector<HTMLElement>('.drawn');
  if (picture === null) return;
  freePicture(cell);
  const wanted = lettersFor(innerWidth);
  for (const share of LETTERS) {
    picture.style.setProperty('--picture-letters', `${Math.max(SMALLEST_LETTERS, wanted * share)}px`);
    redrawFigure(picture);
    redrawChart(picture);
    if (picture.offsetHeight <= room() + 1) return;
  }
  for (let looks = 0; looks < 3 && picture.offsetHeight > room() + 1; looks++) {
    picture.style.maxWidth = `${Math.max(240, Math.floor((picture.offsetWidth * room()) / picture.offsetHeight) - 2)}px`;
    redrawFigure(picture);
    redrawChart(picture);
  }
}

/** Gives a picture back the size it has on the sheet. */
export function freePicture(cell: HTMLElement): void {
  const picture = cell.querySelector<HTMLElement>('.drawn');
  picture?.style.removeProperty('max-width');
  picture?.style.removeProperty('--picture-letters');
}
