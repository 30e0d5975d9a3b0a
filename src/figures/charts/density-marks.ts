import { rect, type Markish } from '@observablehq/plot';
import { opacityOf, type Bin } from './density.ts';

/** Rectangles that are the stronger the more lie in them, one mark for each layer. */
export function densityMarks(bins: readonly Bin[], classes: readonly string[]): Markish[] {
  const most = bins.reduce((count, bin) => Math.max(count, bin.count), 1);
  return classes.map((className, layer) =>
    rect(bins.filter((bin) => bin.layer === layer), {
      x1: 'xFrom', x2: 'xTo', y1: 'yFrom', y2: 'yTo',
      // Taken as it is: a scale of its own would spread it from nought to one.
      fillOpacity: { value: (bin: Bin) => opacityOf(bin, most), scale: null } as never,
      className: `density ${className}`,
    }));
}
