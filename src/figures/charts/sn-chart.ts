import { svgElement } from '../drawings/frame-markup.ts';
import { circle, group, polyline } from '../drawings/markup.ts';
import type { Area, Run } from '../drawings/types.ts';
import { axes, sideTitleEnd } from './axes.ts';
import { currentMark, heldLine, heldMark } from './current-mark.ts';
import { MOST_MARKS } from './density.ts';
import { direct, keyRows } from './labels.ts';
import { layoutOf, type Layout } from './layout.ts';
import { own, placesOf, plottedSvg } from './plotted.ts';
import { hasLocalStress, localMark } from './local-stress.ts';
import { powerTicks, roundTicks } from './scales.ts';
import { crossAt, MARK, markAt, runoutArrow } from './shapes.ts';
import { curvesOf } from './sn-curves.ts';
import { lineMarks } from './sn-lines.ts';
import { snScales } from './sn-scales.ts';
import { binTold, snDescription, snSentence, specimenTold } from './sn-words.ts';
import { specimenMarks } from './specimen-marks.ts';
import type { Chart, ChartOptions, KeyEntry, SnData } from './types.ts';

/**
 * The S-N chart: life across, logarithmic; stress up; specimens by group, runouts with an arrow to the right; the median
 * line over the stresses tested with its band, limits and design curve; the specimen that the sheet is about.
 * @source axes and the arrow of a runout: ASTM E739 and ISO 12107 draw S-N data so.
 */
export function snChart(data: SnData, options: ChartOptions): Chart {
  const marksKey = specimenKey(data);
  const layout = layoutFor(options, data, marksKey);
  const curves = curvesOf(data);
  const scales = snScales(data, curves, layout.isNarrow);
  const places = { ...placesOf(layout, scales.x, scales.y), scales };
  const ticks = {
    x: powerTicks(scales.x, layout.isNarrow ? 6 : 10),
    y: roundTicks(scales.y, layout.isNarrow ? 6 : 8),
  };
  const specimens = specimenMarks(data, layout, places, (place) => specimenTold(data, place), (bin) => binTold(data, bin));
  const lines = lineMarks(data, curves, places);
  const current = currentMark(data, layout, places, scales);
  const held = heldMark(data, places, scales);
  const lineThen = heldLine(data, places, scales);
  const taken: Area[] = [...specimens.areas, ...current.areas, ...held.areas];
  const currentLabel = current.named === undefined ? undefined : direct(current.named, layout, taken, lines.areas);
  const heldLabel = held.named === undefined ? undefined : direct(held.named, layout, taken, lines.areas);
  const lineThenLabel = lineThen.named === undefined || layout.isNarrow ? undefined : direct(lineThen.named, layout, taken, lines.areas);
  const inKey: KeyEntry[] = [];
  const labels = lines.named.map((named) => {
    const label = layout.isNarrow ? undefined : direct(named, layout, taken, lines.areas);
    if (label === undefined) inKey.push(named);
    return label ?? '';
  });
  if (current.named !== undefined && currentLabel === undefined) inKey.push({ runs: current.named.runs, swatch: (x, y) => markAt(0, x, y, 'current-mark') });
  if (held.named !== undefined && heldLabel === undefined) inKey.push({ runs: held.named.runs, swatch: (x, y) => circle({ x, y }, 5, 'held-mark') });
  if (lineThen.named !== undefined && lineThenLabel === undefined) inKey.push({ runs: lineThen.named.runs, swatch: (x, y) => polyline([{ x: x - 12, y }, { x: x + 12, y }], 'held-line') });
  const key = keyRows(inKey, layout, layout.isNarrow ? 8 : layout.left, layout.height + layout.textSize * 0.7);
  const size = { width: layout.width, height: Math.ceil(layout.height + key.rows * layout.textSize * 1.45) };
  const titles = titlesOf(data, layout);
  const plot = plottedSvg(layout, scales.x, scales.y, ticks, [
    own(lineThen.markup), ...lines.marks, ...specimens.marks, own(held.markup), own(current.markup), own(group('labels', [...labels, currentLabel ?? '', heldLabel ?? '', lineThenLabel ?? ''])),
  ]);
  const sentence = snSentence(data);
  const description = snDescription(data, sentence);
  return {
    svg: svgElement(options.idPrefix, size, { title: 'S-N chart', description }, [
      plot,
      axes(layout, places, { ticks: ticks.x, title: titles.x }, { ticks: ticks.y, title: titles.y }),
      keyAbove(data, layout, marksKey).svg, key.svg,
    ], 'chart'),
    description,
    sentence,
    viewBox: size,
    points: [...[current.point, held.point].filter((point) => point !== undefined), ...specimens.points],
  };
}

function titlesOf(data: SnData, layout: Pick<Layout, 'isNarrow'>): { x: Run[]; y: Run[] } {
  return {
    x: ['Life ', { symbol: 'N' }, ' / cycles'],
    y: [layout.isNarrow ? 'Stress ' : 'Stress amplitude ', { symbol: 'S' }, ` / ${data.texts.stressUnit}`],
  };
}

/** Marks above the plot: beside the axis's name where they fit, else in rows below it. */
function keyAbove(data: SnData, layout: Layout, entries: readonly KeyEntry[]): { svg: string; rows: number } {
  const size = layout.textSize;
  const beside = sideTitleEnd(titlesOf(data, layout).y, layout) + 22;
  const above = keyRows(entries, layout, beside, size * 0.68);
  return above.rows <= 1 ? above : keyRows(entries, layout, 8, size * 2.13);
}

function layoutFor(options: ChartOptions, data: SnData, entries: readonly KeyEntry[]): Layout {
  const shape = [0.56, 0.82] as const;
  const first = layoutOf(options, 1, shape);
  const beside = sideTitleEnd(titlesOf(data, first).y, first) + 22;
  const { rows } = keyRows(entries, first, beside, 0);
  return rows <= 1 ? first : layoutOf(options, 1 + keyRows(entries, first, 8, 0).rows, shape);
}

const MOST_GROUPS_NAMED = 8;

/** What the marks mean: groups where there are several, and what else occurs. */
function specimenKey({ specimens }: SnData): readonly KeyEntry[] {
  if (specimens === undefined || specimens.count === 0) return [];
  const seen = new Set<string>();
  const groups = new Set<number>();
  for (let place = 0; place < specimens.count; place++) {
    const outcome = specimens.outcome(place);
    seen.add(outcome === 'suspended' ? 'runout' : outcome);
    groups.add(specimens.group(place));
  }
  if (specimens.count > MOST_MARKS) {
    return [
      { runs: ['fractures, the stronger the more'], swatch: (x, y) => markAt(2, x, y, 'density broken') },
      ...(seen.has('runout') ? [{ runs: ['runouts'], swatch: (x: number, y: number) => markAt(2, x - 8, y, 'density unbroken') + runoutArrow(x - 8, y) }] : []),
      ...(seen.has('invalid') ? [{ runs: ['not counted'], swatch: (x: number, y: number) => crossAt(x, y, MARK, 'uncounted-cross') }] : []),
    ];
  }
  const named = [...groups].toSorted((a, b) => a - b).slice(0, MOST_GROUPS_NAMED);
  return [
    ...(groups.size > 1 || specimens.groups[named[0] ?? 0] !== ''
      ? named.map((number): KeyEntry => ({
        runs: [specimens.groups[number] === '' ? 'without a group' : (specimens.groups[number] ?? '')],
        swatch: (x, y) => markAt(number, x, y, 'specimen broken'),
      }))
      : seen.has('fracture') ? [{ runs: ['fracture'], swatch: (x: number, y: number) => markAt(0, x, y, 'specimen broken') }] : []),
    ...(seen.has('runout') ? [{ runs: ['runout'], swatch: (x: number, y: number) => runoutArrow(x - 8, y) + markAt(named[0] ?? 0, x - 8, y, 'specimen unbroken') }] : []),
    ...(hasLocalStress(specimens) ? [{ runs: ['stress where it broke'], swatch: (x: number, y: number) => localMark(x, y - 7, y + 6) }] : []),
    ...(seen.has('invalid') ? [{
      runs: ['not counted'], swatch: (x: number, y: number) => markAt(named[0] ?? 0, x, y, 'specimen uncounted') + crossAt(x, y, MARK + 2, 'uncounted-cross'),
    }] : []),
  ];
}
