import { frame, gridX, gridY, plot, scale, type Markish, type RenderFunction } from '@observablehq/plot';
import type { Layout } from './layout.ts';
import type { AxisScale, Tick } from './scales.ts';
import { createStandIn, innerSvg, ownMarkup } from './stand-in.ts';

/** From values of both axes to px, as Plot places them. */
export interface Places {
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
}

export function placesOf(layout: Layout, x: AxisScale, y: AxisScale): Places {
  return {
    x: placed(scale({ x: { type: x.type, domain: [...x.domain], range: [layout.left, layout.right] } }).apply),
    y: placed(scale({ y: { type: y.type, domain: [...y.domain], range: [layout.bottom, layout.top] } }).apply),
  };
}

function placed(apply: (value: number) => number): (value: number) => number {
  return (value) => {
    const px = apply(value);
    return Number.isFinite(px) ? px : 0;
  };
}

/** Markup of our own at this place among Plot's marks. */
export function own(markup: string): RenderFunction {
  return (() => ownMarkup(markup)) as unknown as RenderFunction;
}

/** Plot's marks over a light grid, as the inside of an SVG; their looks come from class names. */
export function plottedSvg(layout: Layout, x: AxisScale, y: AxisScale, ticks: { x: readonly Tick[]; y: readonly Tick[] }, marks: Markish[]): string {
  const figure = plot({
    document: createStandIn() as never,
    width: layout.width,
    height: layout.height,
    marginLeft: layout.left,
    marginRight: layout.width - layout.right,
    marginTop: layout.top,
    marginBottom: layout.height - layout.bottom,
    x: { type: x.type, domain: [...x.domain], range: [layout.left, layout.right], axis: null },
    y: { type: y.type, domain: [...y.domain], range: [layout.bottom, layout.top], axis: null },
    marks: [
      gridX(labelledValues(ticks.x), { className: 'grid' }),
      gridY(labelledValues(ticks.y), { className: 'grid' }),
      ...marks,
      frame({ className: 'frame' }),
    ],
  });
  return innerSvg(figure as unknown as Parameters<typeof innerSvg>[0]);
}

function labelledValues(ticks: readonly Tick[]): number[] {
  return ticks.flatMap(({ value, label }) => (label === undefined ? [] : [value]));
}
