import { redrawChart } from '../figures/live-chart.ts';
import { redrawFigure } from '../figures/live-figure.ts';
import { largestFitting, lettersFor } from './fit-sizes.ts';

/** Lines that would scroll sideways on the sheet. */
const LINES = '.symbols, .numbers, .settings > li, .ruled, .where';

/** Whether all of an element can be seen without scrolling. */
export function isWhole(element: HTMLElement): boolean {
  return element.scrollWidth <= element.clientWidth + 1 && element.scrollHeight <= element.clientHeight + 1;
}

/** Whether nothing reaches beyond the sides of an element. */
export function isWholeAcross(element: HTMLElement): boolean {
  return element.scrollWidth <= element.clientWidth + 1;
}

/** Lines of a cell that can't be seen to their end. */
export function linesTooWide(cell: HTMLElement): readonly HTMLElement[] {
  return [...cell.querySelectorAll<HTMLElement>(LINES)].filter((line) => line.scrollWidth > line.clientWidth + 1);
}

/** Whether each line of a cell can be seen to its end. */
export function areLinesWhole(cell: HTMLElement): boolean {
  return linesTooWide(cell).length === 0;
}

/** Sizes of a picture, from large to small: shares of the width there is and of the letters it should have. */
const PICTURE_SIZES: readonly (readonly [width: number, letters: number])[] = [
  [1, 1], [1, 0.88], [1, 0.76], [0.92, 0.76], [0.84, 0.74], [0.76, 0.72], [0.68, 0.7], [0.6, 0.68], [0.52, 0.66], [0.44, 0.65], [0.36, 0.65],
];

/** Makes the picture of a figure low enough for the height it has, by smaller letters and then by less width: `room` tells it, px. */
export function fitPicture(cell: HTMLElement, room: () => number): void {
  const picture = cell.querySelector<HTMLElement>('.drawn');
  if (picture === null) return;
  freePicture(cell);
  const all = picture.clientWidth;
  const { most, least } = lettersFor(innerWidth, innerHeight);
  const fits = ([width, letters]: readonly [number, number]): boolean => {
    if (width < 1) picture.style.maxWidth = `${Math.max(240, Math.floor(all * width))}px`;
    else picture.style.removeProperty('max-width');
    picture.style.setProperty('--picture-letters', `${Math.max(least, most * letters)}px`);
    redrawFigure(picture);
    redrawChart(picture);
    return picture.offsetHeight <= room() + 1;
  };
  // Most pictures have room enough as they are.
  const [largest, ...smaller] = PICTURE_SIZES;
  if (largest === undefined || fits(largest)) return;
  fits(largestFitting(smaller, fits) ?? largest);
}

/** Gives a picture back the size it has on the sheet. */
export function freePicture(cell: HTMLElement): void {
  const picture = cell.querySelector<HTMLElement>('.drawn');
  picture?.style.removeProperty('max-width');
  picture?.style.removeProperty('--picture-letters');
}
