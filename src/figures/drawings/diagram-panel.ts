import type { Axis } from './axis.ts';
import { heldLine } from './held-outline.ts';
import { equation, lettering, runsWidth } from './lettering.ts';
import { arrowhead, circle, group, line, path, polyline, type Point } from './markup.ts';
import { lineArea, placeFree } from './placement.ts';
import type { Area, FigureValue, Run, ValueText } from './types.ts';

export interface Panel {
  readonly kind: 'shear' | 'moment' | 'moment-amplitude' | 'stress';
  readonly top: number;
  readonly plotHeight: number;
  /** Corners of the curve, metres and SI; none where it can't or may not be drawn. */
  readonly points: readonly { readonly position: number; readonly value: number }[];
  /** The same of a held state, drawn behind; none where there is none, or it may not be seen. */
  readonly behind?: Panel['points'] | undefined;
  readonly labels: readonly { readonly from: number; readonly to: number; readonly value: number }[];
  readonly valueText: ValueText;
  readonly mark?: { readonly position: number; readonly value?: FigureValue } | undefined;
  /** Drawn only after the reader has worked it out. */
  readonly withheld: boolean;
}

export interface DrawnPanel {
  readonly svg: string;
  readonly plotTop: number;
  readonly plotBottom: number;
  readonly bottom: number;
}

/** From the top of a panel to its plot, in letter sizes: the name, and a figure above the highest value. */
const TITLE_HEIGHT = 3.1;

/** What is smaller than this is drawn as zero: its scale would not be finite. */
const SMALLEST = 1e-150;

/** One diagram: its name with the sign convention, the zero line, the hatched area, its values. */
export function diagramPanel(panel: Panel, axis: Axis, pattern: string): DrawnPanel {
  const size = axis.textSize;
  const plotTop = panel.top + size * TITLE_HEIGHT;
  const plotBottom = plotTop + panel.plotHeight;
  const behind = panel.points.length === 0 ? [] : (panel.behind ?? []);
  const values = [0, ...[...panel.points, ...behind].map((point) => point.value)];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const scale = high - low > SMALLEST ? panel.plotHeight / (high - low) : 0;
  const zero = panel.points.length === 0 || scale === 0 ? plotTop + panel.plotHeight / 2 : plotTop + high * scale;
  const y = (value: number) => zero - value * scale;
  const cornersOf = (points: Panel['points']): Point[] => points.map((point) => ({ x: axis.x(point.position), y: y(point.value) }));
  const corners = cornersOf(panel.points);
  const taken = [...curveAreas(corners), lineArea(axis.left - 18, zero, axis.right + 24, zero, 1)];
  const parts = [
    title(panel, axis),
    ...(corners.length > 0 ? [area(corners, zero, pattern), heldLine(cornersOf(behind), corners), polyline(corners, 'curve')] : []),
    zeroLine(zero, axis),
    ...(panel.withheld ? [withheld(plotTop + panel.plotHeight / 2, axis)] : []),
    ...(panel.mark ? [markOf(panel.mark, panel, axis, y, taken)] : []),
    ...valueLabels(panel, axis, y, taken),
  ];
  return { svg: group(panel.kind, parts), plotTop, plotBottom, bottom: plotBottom + size * 1.5 };
}

/** The hatching of the areas, by the id that `diagramPanel` is given. */
export function hatchPattern(id: string): string {
  return `<defs><pattern id="${id}" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">`
    + `<line class="area-hatch" x1="3" y1="0" x2="3" y2="6"/></pattern></defs>`;
}

function area(corners: readonly Point[], zero: number, pattern: string): string {
  const [first, last] = [corners[0], corners.at(-1)];
  if (!first || !last) return '';
  const outline = corners.flatMap((corner) => ['L', corner.x, corner.y]);
  return path(['M', first.x, zero, ...outline, 'L', last.x, zero, 'Z'], 'area', pattern);
}

/** The curve as boxes: each stroke of it, cut into short pieces where it slopes. */
function curveAreas(corners: readonly Point[]): Area[] {
  return corners.slice(1).flatMap((to, index) => {
    const from = corners[index] ?? to;
    const pieces = Math.max(1, Math.ceil(Math.min(Math.abs(to.x - from.x) / 10, Math.abs(to.y - from.y))));
    const at = (share: number): Point => ({ x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share });
    return Array.from({ length: pieces }, (_, piece) => {
      const [a, b] = [at(piece / pieces), at((piece + 1) / pieces)];
      return lineArea(a.x, a.y, b.x, b.y, 1.5);
    });
  });
}

function zeroLine(y: number, axis: Axis): string {
  const size = axis.textSize;
  const [from, to] = [axis.left - 18, axis.right + 24];
  return line({ x: from, y }, { x: to - 4, y }, 'zero-line') + arrowhead({ x: to, y }, { x: 1, y: 0 }, 8, 3, 'axis-head')
    + lettering(['0'], { x: from - 4, y: y + size * 0.35, anchor: 'end', size, className: 'axis-word' })
    + lettering([{ symbol: 'x' }], { x: to - 3, y: y + size * 1.05, anchor: 'end', size, className: 'axis-word' });
}

/** Stands in a diagram that the reader has yet to work out. */
export const WITHHELD_PANEL = 'drawn once you have worked it out';

function withheld(y: number, axis: Axis): string {
  return lettering([WITHHELD_PANEL], {
    x: (axis.left + axis.right) / 2, y: y - 6, anchor: 'middle', size: axis.textSize, className: 'note',
  });
}

const NAMES: Readonly<Record<Panel['kind'], readonly Run[]>> = {
  shear: ['Shear force ', { symbol: 'V' }],
  moment: ['Bending moment ', { symbol: 'M' }],
  'moment-amplitude': ['Bending moment amplitude ', { symbol: 'M' }],
  stress: ['Nominal stress amplitude ', { symbol: 'sigma' }],
};

/** Room for the small piece of the shaft and around it, px. */
const SIGN_WIDTH = 52;

/** `Shear force V`, then a small piece of the shaft with what counts as positive; in smaller letters where the line is too short. */
function title(panel: Panel, axis: Axis): string {
  const name = NAMES[panel.kind];
  const convention = panel.kind === 'shear' ? 'positive: left face up' : 'positive: sagging';
  const room = (axis.width - 10 - SIGN_WIDTH) / runsWidth([...name, convention], 1);
  const size = Math.min(axis.textSize, Math.max(12, room));
  const y = panel.top + axis.textSize;
  if (panel.kind === 'stress' || panel.kind === 'moment-amplitude') return lettering(name, { x: 8, y, anchor: 'start', size, className: 'axis-word' });
  const x = 8 + runsWidth(name, size) + 26;
  return lettering(name, { x: 8, y, anchor: 'start', size, className: 'axis-word' })
    + (panel.kind === 'shear' ? shearSign(x, y - size * 0.35) : momentSign(x, y - size * 0.35))
    + lettering([convention], { x: x + 26, y, anchor: 'start', size, className: 'word soft' });
}

/** A slice of the shaft with positive shear: up on its left face, down on its right. */
function shearSign(x: number, y: number): string {
  return group('sign', [
    path(['M', x - 6, y - 5, 'h', 12, 'v', 10, 'h', -12, 'Z'], 'sign-slice'),
    line({ x: x - 10, y: y + 8 }, { x: x - 10, y: y - 4 }, 'sign-line'), arrowhead({ x: x - 10, y: y - 8 }, { x: 0, y: -1 }, 6, 4, 'sign-head'),
    line({ x: x + 10, y: y - 8 }, { x: x + 10, y: y + 4 }, 'sign-line'), arrowhead({ x: x + 10, y: y + 8 }, { x: 0, y: 1 }, 6, 4, 'sign-head'),
  ]);
}

/** A slice of the shaft with positive moment: both ends turned up. */
function momentSign(x: number, y: number): string {
  return group('sign', [
    path(['M', x - 6, y - 5, 'h', 12, 'v', 10, 'h', -12, 'Z'], 'sign-slice'),
    path(['M', x - 9, y + 7, 'A', 8, 8, 0, 0, 1, x - 11, y - 5], 'sign-line'),
    arrowhead({ x: x - 8.5, y: y - 9 }, { x: 0.6, y: -0.8 }, 6, 4, 'sign-head'),
    path(['M', x + 9, y + 7, 'A', 8, 8, 0, 0, 0, x + 11, y - 5], 'sign-line'),
    arrowhead({ x: x + 8.5, y: y - 9 }, { x: -0.6, y: -0.8 }, 6, 4, 'sign-head'),
  ]);
}

/** The section's point on the curve with its own value; nothing crosses its line. */
function markOf(mark: NonNullable<Panel['mark']>, panel: Panel, axis: Axis, y: (value: number) => number, taken: Area[]): string {
  const size = axis.textSize;
  const x = axis.x(mark.position);
  const plotTop = panel.top + size * TITLE_HEIGHT;
  taken.push(lineArea(x, plotTop - 6, x, plotTop + panel.plotHeight));
  if (mark.value === undefined) return '';
  const value = mark.value.si ?? 0;
  const runs = equation(mark.value);
  const [width, height] = [runsWidth(runs, size), size * 1.2];
  const level = Math.max(plotTop - 4, Math.min(plotTop + panel.plotHeight + 4, y(value)));
  const [above, below] = [level - height - 5, level + 5];
  const levels = value >= 0 ? [above, below, above - height, below + height] : [below, above, below + height, above - height];
  const places = levels.flatMap((top) => [{ x: x + 6, y: top }, { x: x - 6 - width, y: top }]);
  const area = placeFree(places.map((place) => ({ ...place, width, height })), taken, axis.width);
  taken.push(area);
  const dot = mark.value.si === undefined ? '' : circle({ x, y: level }, 3, 'section-dot');
  return dot + lettering(runs, { x: area.x + width / 2, y: area.y + size * 0.95, anchor: 'middle', size, className: 'value look' });
}

/** Figures at the extremes and levels; one that only repeats the section's stands back. */
function valueLabels(panel: Panel, axis: Axis, y: (value: number) => number, taken: Area[]): string[] {
  const size = axis.textSize;
  const { mark } = panel;
  const told = (label: Panel['labels'][number]) => mark?.value?.si !== undefined && mark.position >= label.from && mark.position <= label.to
    && panel.valueText(label.value) === mark.value.text;
  return panel.labels.filter((label) => !told(label)).map((label) => {
    const runs: Run[] = [panel.valueText(label.value).replaceAll(' ', '\u00A0')];
    const [width, height] = [runsWidth(runs, size), size * 1.2];
    const middle = (axis.x(label.from) + axis.x(label.to)) / 2;
    const level = y(label.value);
    const outer = label.value >= 0 ? level - height - 2 : level + 3;
    const inner = label.value >= 0 ? level + 3 : level - height - 2;
    const tops = [outer, inner, outer - height, outer + height];
    const candidates = tops.flatMap((top) => [0, width / 2 + 6, -width / 2 - 6].map((shift) => ({ x: middle - width / 2 + shift, y: top, width, height })));
    const area = placeFree(candidates, taken, axis.width);
    taken.push(area);
    return lettering(runs, { x: area.x + width / 2, y: area.y + size * 0.95, anchor: 'middle', size, className: 'value' });
  });
}
