import { dot, type Markish } from '@observablehq/plot';
import { finePrint, lettering } from '../drawings/lettering.ts';
import type { Area } from '../drawings/types.ts';
import { group as markupGroup } from '../drawings/markup.ts';
import { binned, MOST_MARKS, type Bin } from './density.ts';
import { densityMarks } from './density-marks.ts';
import type { Layout } from './layout.ts';
import { localMark, localStress } from './local-stress.ts';
import { own, type Places } from './plotted.ts';
import { isOn, type AxisScale } from './scales.ts';
import { crossAt, groupClass, MARK, runoutArrow, shapeOf } from './shapes.ts';
import type { ChartPoint, ChartSpecimens, SnData } from './types.ts';

/** Specimens as drawn: their marks, the boxes they cover, and the places that can be read. */
interface SpecimenMarks {
  readonly marks: Markish[];
  readonly areas: readonly Area[];
  readonly points: readonly ChartPoint[];
}

interface Mark {
  readonly life: number;
  readonly stress: number;
  readonly group: number;
  readonly isBroken: boolean;
  readonly isInvalid: boolean;
  /** Stress where it broke, where that is another one. */
  readonly local?: number;
  readonly place: number;
}

interface Axes extends Places {
  readonly scales: { readonly x: AxisScale; readonly y: AxisScale };
}

/** @param tell the sentences for one specimen; @param tellBin for a place where many lie */
export function specimenMarks(data: SnData, layout: Layout, axes: Axes, tell: (place: number) => string, tellBin: (bin: Bin) => string): SpecimenMarks {
  const { specimens, texts } = data;
  if (specimens === undefined || specimens.count === 0) return { marks: [], areas: [], points: [] };
  if (specimens.count > MOST_MARKS) return denseSpecimens(specimens, texts.stressPerMpa, layout, axes, tellBin);
  const all = marksOf(specimens, texts.stressPerMpa, axes.scales);
  const places = all.map((mark) => ({ mark, x: axes.x(mark.life), y: axes.y(mark.stress) }));
  const kinds = new Map<string, Mark[]>();
  for (const mark of all) {
    const name = `${mark.isInvalid ? 'uncounted' : mark.isBroken ? 'broken' : 'unbroken'} ${groupClass(mark.group)}`;
    kinds.set(name, [...(kinds.get(name) ?? []), mark]);
  }
  const arrows = new Map(places.filter(({ mark }) => !mark.isBroken && !mark.isInvalid).map(({ x, y }) => [`${Math.round(x)} ${Math.round(y)}`, runoutArrow(x, y)]));
  const crosses = places.filter(({ mark }) => mark.isInvalid).map(({ x, y }) => crossAt(x, y, MARK + 2, 'uncounted-cross'));
  const locals = places.flatMap(({ mark: { local }, x, y }) => (local === undefined ? [] : [localMark(x, y, axes.y(local))]));
  const counts = countsOf(places, layout.textSize);
  return {
    marks: [
      own(markupGroup('runouts', [...arrows.values()])),
      own(markupGroup('local-stresses', locals)),
      ...[...kinds].map(([className, marks]) => dot(marks, {
        x: 'life', y: 'stress', r: MARK, symbol: shapeOf(marks[0]?.group ?? 0), className: `specimen ${className}`,
      })),
      own(markupGroup('uncounted', crosses)),
      own(markupGroup('counts', counts.map(({ svg }) => svg))),
    ],
    areas: [
      ...places.map(({ mark, x, y }) => ({
        x: x - MARK - 2, y: y - MARK - 2, width: 2 * MARK + (mark.isBroken ? 4 : 20), height: 2 * MARK + 4,
      })),
      ...counts.map(({ area }) => area),
    ],
    points: places.toSorted((a, b) => a.mark.life - b.mark.life || b.mark.stress - a.mark.stress)
      .map(({ mark, x, y }) => ({ x, y, tell: () => tell(mark.place) })),
  };
}

function marksOf(specimens: ChartSpecimens, stressPerMpa: number, scales: Axes['scales']): Mark[] {
  return Array.from({ length: specimens.count }, (_, place): Mark => {
    const outcome = specimens.outcome(place);
    const local = localStress(specimens, place);
    return {
      life: specimens.cycles[place] ?? 0,
      stress: (specimens.stressMpa[place] ?? 0) * stressPerMpa,
      group: specimens.group(place),
      isBroken: outcome === 'fracture',
      isInvalid: outcome === 'invalid',
      ...(local === undefined ? {} : { local: local * stressPerMpa }),
      place,
    };
  }).filter(({ life, stress }) => isOn(scales.x, life) && isOn(scales.y, stress));
}

/** How many lie at one place, as a small figure above it, or behind the arrow of runouts. */
function countsOf(places: readonly { readonly mark: Mark; readonly x: number; readonly y: number }[], textSize: number): { svg: string; area: Area }[] {
  const size = Math.max(12, finePrint(textSize, 0.87));
  const heaps = new Map<string, { x: number; y: number; count: number; isRunout: boolean }>();
  for (const { mark, x, y } of places) {
    const isRunout = !mark.isBroken && !mark.isInvalid;
    const key = `${Math.round(x)} ${Math.round(y)} ${isRunout}`;
    heaps.set(key, { x, y, count: (heaps.get(key)?.count ?? 0) + 1, isRunout });
  }
  return [...heaps.values()].filter(({ count }) => count > 1).map(({ x, y, count, isRunout }) => {
    const at = isRunout ? { x: x + MARK + 18, y: y + size * 0.34 } : { x, y: y - MARK - 4 };
    return {
      svg: lettering([String(count)], { ...at, anchor: isRunout ? 'start' : 'middle', size, className: 'count-figure' }),
      area: { x: at.x - (isRunout ? 0 : size * 0.5), y: at.y - size * 0.85, width: size, height: size },
    };
  });
}

/** Which layer of the density a specimen is in; those that are not counted are crosses. */
const LAYERS = { fracture: 0, runout: 1, suspended: 1, invalid: 2 } as const;
/** So few by themselves are a mark as elsewhere: their rectangle alone would be too faint to be seen. */
const FEW = 3;

function denseSpecimens(specimens: ChartSpecimens, stressPerMpa: number, layout: Layout, axes: Axes, tellBin: (bin: Bin) => string): SpecimenMarks {
  const y = Float64Array.from({ length: specimens.count }, (_, place) => (specimens.stressMpa[place] ?? 0) * stressPerMpa);
  const bins = binned({ x: specimens.cycles, y, layer: (place) => LAYERS[specimens.outcome(place)], layers: 3 }, layout, axes.scales);
  const isMark = ({ layer, count, isAlone }: Bin): boolean => layer < 2 && count <= FEW && isAlone;
  const farthest = new Map<number, { x: number; y: number }>();
  const crosses: string[] = [];
  for (const bin of bins) {
    const place = { x: axes.x(bin.x), y: axes.y(bin.y) };
    if (bin.layer === 2) crosses.push(crossAt(place.x, place.y, MARK, 'uncounted-cross'));
    if (bin.layer === 1 && place.x > (farthest.get(Math.round(place.y))?.x ?? -Infinity)) farthest.set(Math.round(place.y), place);
  }
  const marks = ['broken', 'unbroken'].map((name, layer) => dot(bins.filter((bin) => bin.layer === layer && isMark(bin)), {
    x: 'x', y: 'y', r: MARK, symbol: shapeOf(0), className: `specimen ${name} ${groupClass(0)}`,
  }));
  return {
    marks: [
      ...densityMarks(bins.filter((bin) => !isMark(bin)), ['broken', 'unbroken']),
      ...(bins.some(isMark) ? marks : []),
      own(markupGroup('uncounted', crosses)),
      own(markupGroup('runouts', [...farthest.values()].map((place) => runoutArrow(place.x, place.y)))),
    ],
    areas: [],
    points: bins.toSorted((a, b) => a.x - b.x || b.y - a.y)
      .map((bin) => ({ x: axes.x(bin.x), y: axes.y(bin.y), tell: () => tellBin(bin) })),
  };
}
