import { areaX, line, ruleY, type Markish } from '@observablehq/plot';
import { line as stroke, polygon, polyline, type Point } from '../drawings/markup.ts';
import type { Area, Run } from '../drawings/types.ts';
import { bandWithin, within, type Place } from './clip.ts';
import { alongCurve, curveAreas, type Named } from './labels.ts';
import type { Places } from './plotted.ts';
import type { AxisScale } from './scales.ts';
import type { CurvePoint, SnCurves } from './sn-curves.ts';
import type { KeyEntry, SnData } from './types.ts';
import { percent } from './words.ts';

/** The line with its limits as drawn. */
interface LineMarks {
  readonly marks: Markish[];
  /** What is named beside it where there is room, else in the key. */
  readonly named: readonly (Named & { readonly swatch: KeyEntry['swatch'] })[];
  /** Boxes that letters avoid. */
  readonly areas: readonly Area[];
}

interface Axes extends Places {
  readonly scales: { readonly x: AxisScale; readonly y: AxisScale };
}

type Sides = readonly ('left' | 'right')[];

/** Filled bands first, then lines from the faintest to the median, so that each lies over what matters less. */
export function lineMarks(data: SnData, curves: SnCurves | undefined, axes: Axes): LineMarks {
  if (curves === undefined) return { marks: [], named: [], areas: [] };
  const perMpa = data.texts.stressPerMpa;
  const pieces = (curve: readonly CurvePoint[] | undefined): Place[][] => (curve === undefined ? [] : within(curve, axes.scales.x, perMpa));
  const drawn = (all: readonly Place[][]): Point[][] => all.map((piece) => piece.map(({ life, stress }) => ({ x: axes.x(life), y: axes.y(stress) })));
  const strokes = (all: readonly Place[][], className: string): Markish[] => all.map((piece) => line(piece, { x: 'life', y: 'stress', className }));
  const fill = (band: SnCurves['band'], className: string): Markish[] =>
    (band === undefined ? [] : [areaX(bandWithin(band, axes.scales.x, perMpa), { x1: 'from', x2: 'to', y: 'stress', className })]);
  const isStated = data.line !== undefined && 'stated' in data.line;
  const [median, design, twoS] = [pieces(curves.median), pieces(curves.design), pieces(curves.twoS)];
  const [upper, lower] = [pieces(curves.next?.upper), pieces(curves.next?.lower)];
  const bandUpper = pieces(curves.band?.upper);
  const limit = limitMarks(curves, axes, data);
  const name = (runs: readonly Run[], all: readonly Place[][], sides: Sides, swatch: KeyEntry['swatch']) =>
    drawn(all).slice(0, 1).map((points) => ({ runs, className: 'word', at: alongCurve(points), sides, swatch }));
  return {
    marks: [
      ...fill(curves.next, 'wash next-wash'), ...fill(curves.band, 'wash band-wash'),
      ...strokes([...lower, ...upper], 'next-line'), ...strokes(twoS, 'two-s-line'), ...strokes(design, 'design-line'),
      ...limit.marks, ...strokes(median, 'median-line'),
    ],
    named: [
      ...name(['median line'], median, ['right', 'left'], lineSwatch('median-line')),
      ...name([`${percent(0.95)} band of the line`], bandUpper, ['right'], washSwatch('band-wash')),
      ...name([isStated ? `${percent(0.95)} of specimens` : `next specimen, ${percent(0.95)}`], upper, ['right'], washSwatch('next-wash', 'next-line')),
      ...name([`design curve ${percent(data.design.share)} / ${percent(data.design.confidence)}`], design, ['left'], lineSwatch('design-line')),
      ...name(['median − 2 ', { symbol: 's' }], twoS, ['left'], lineSwatch('two-s-line')),
      ...limit.named,
    ],
    areas: drawn([...median, ...design, ...twoS, ...upper, ...lower, ...bandUpper, ...pieces(curves.band?.lower)]).flatMap(curveAreas).concat(limit.areas),
  };
}

/** The asymptote of a fatigue limit, from where the line comes down to it. */
function limitMarks({ limitMpa, median }: SnCurves, axes: Axes, data: SnData): LineMarks {
  if (limitMpa === undefined) return { marks: [], named: [], areas: [] };
  const stress = limitMpa * data.texts.stressPerMpa;
  const [low, high] = axes.scales.x.domain;
  const isStated = data.line !== undefined && 'stated' in data.line;
  const last = median.at(-1)?.logLife ?? Number.NaN;
  const from = isStated && Number.isFinite(last) ? Math.min(Math.max(10 ** last, low), high) : low;
  const y = axes.y(stress);
  return {
    marks: [ruleY([stress], { x1: from, x2: high, className: isStated ? 'median-line' : 'limit-line' })],
    named: [{
      runs: [isStated ? 'endurance limit' : 'fatigue limit', ` ${data.texts.stress(limitMpa).replaceAll(' ', '\u00A0')}`],
      className: 'word', sides: ['left'], isBeside: true, swatch: lineSwatch(isStated ? 'median-line' : 'limit-line'),
      // Letters stand clear of the line itself, above or below its end.
      at: [-1, 1].flatMap((way) => [0, 60, 120, 200].map((back) => ({ x: axes.x(high) + 2 - back, y: y + way * 12 }))),
    }],
    areas: [{ x: axes.x(from), y: y - 2, width: axes.x(high) - axes.x(from), height: 4 }],
  };
}

function lineSwatch(className: string): KeyEntry['swatch'] {
  return (x, y) => polyline([{ x: x - 12, y }, { x: x + 12, y }], className);
}

function washSwatch(className: string, edge?: string): KeyEntry['swatch'] {
  return (x, y) => polygon([{ x: x - 12, y: y - 5 }, { x: x + 12, y: y - 5 }, { x: x + 12, y: y + 5 }, { x: x - 12, y: y + 5 }], `wash ${className}`)
    + (edge === undefined ? '' : [-5, 5].map((by) => stroke({ x: x - 12, y: y + by }, { x: x + 12, y: y + by }, edge)).join(''));
}
