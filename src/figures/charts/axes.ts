import { finePrint, lettering, runsWidth } from '../drawings/lettering.ts';
import { escapeText, group, line, px } from '../drawings/markup.ts';
import type { Run } from '../drawings/types.ts';
import type { Layout } from './layout.ts';
import type { Places } from './plotted.ts';
import type { Tick } from './scales.ts';

interface AxisWords {
  readonly ticks: readonly Tick[];
  readonly title: readonly Run[];
}

const [TICK, MINOR_TICK] = [6, 3.5];

/** Ticks inside the frame, figures outside; the lower axis named below its middle, the left one above its end. */
export function axes(layout: Layout, places: Places, x: AxisWords, y: AxisWords): string {
  const { left, right, top, bottom, textSize: size } = layout;
  const lower = x.ticks.flatMap((tick) => {
    const at = places.x(tick.value);
    const length = tick.label === undefined ? MINOR_TICK : TICK;
    const ticks = [line({ x: at, y: bottom }, { x: at, y: bottom - length }, 'tick'), line({ x: at, y: top }, { x: at, y: top + length }, 'tick')];
    return tick.label === undefined ? ticks : [...ticks, figure(tick.label, at, bottom + size * 1.2, 'middle', size)];
  });
  const side = y.ticks.flatMap((tick) => {
    const at = places.y(tick.value);
    const length = tick.label === undefined ? MINOR_TICK : TICK;
    const ticks = [line({ x: left, y: at }, { x: left + length, y: at }, 'tick'), line({ x: right, y: at }, { x: right - length, y: at }, 'tick')];
    return tick.label === undefined ? ticks : [...ticks, figure(tick.label, left - 6, at + size * 0.34, 'end', size)];
  });
  return group('axes', [
    ...lower, ...side,
    lettering(x.title, { x: (left + right) / 2, y: bottom + size * 2.65, anchor: 'middle', size, className: 'axis-word' }),
    lettering(y.title, { x: Math.min(left - 6, 8), y: size, anchor: 'start', size, className: 'axis-word' }),
  ]);
}

/** Px that the left axis's name takes at the top of the chart. */
export function sideTitleEnd(title: readonly Run[], layout: Layout): number {
  return 8 + runsWidth(title, layout.textSize);
}

/** A figure at a tick; powers of ten with their exponent raised. */
function figure(label: NonNullable<Tick['label']>, x: number, y: number, anchor: 'middle' | 'end', size: number): string {
  if ('text' in label) return lettering([label.text], { x, y, anchor, size, className: 'axis-figure' });
  const { times, power } = label;
  const base = times === 1 ? '10' : `${times}·10`;
  const exponent = power < 0 ? `\u2212${-power}` : String(power);
  return `<text class="axis-figure" x="${px(x)}" y="${px(y)}" text-anchor="${anchor}" font-size="${px(size)}"><tspan>${escapeText(base)}</tspan>`
    + `<tspan dx="${px(size * 0.05)}" dy="${px(-size * 0.38)}" font-size="${px(finePrint(size))}">${escapeText(exponent)}</tspan></text>`;
}
