import { line as plotLine, type Markish } from '@observablehq/plot';
import { amplitudeOfEqualLife } from '../../core/fatigue/index.ts';
import { svgElement } from '../drawings/frame-markup.ts';
import { circle, group, line, polyline } from '../drawings/markup.ts';
import type { Area, Run } from '../drawings/types.ts';
import { axes } from './axes.ts';
import { constantLifeSentence, specimenSentence } from './constant-life-words.ts';
import { alongCurve, curveAreas, direct, keyRows, type Named } from './labels.ts';
import { layoutOf, type Layout } from './layout.ts';
import { own, placesOf, plottedSvg, type Places } from './plotted.ts';
import { isOn, roundTicks, type AxisScale } from './scales.ts';
import type { Chart, ChartOptions, ConstantLifeData, KeyEntry } from './types.ts';

interface Place {
  readonly mean: number;
  readonly amplitude: number;
}

interface Curve {
  readonly className: string;
  readonly runs: readonly Run[];
  readonly places: readonly Place[];
}

interface Scales {
  readonly x: AxisScale;
  readonly y: AxisScale;
}

const SAMPLES = 48;
const RADIUS = 5;
/** The yield line widens the chart by this factor at the most; beyond, only its lower part is seen. */
const WIDEN = 1.6;

/**
 * The constant-life diagram: mean stress across, amplitude up; the curve of the specimen's life by the chosen correction,
 * that of the endurance limit, the line on which amplitude and mean make the yield strength, and the specimen.
 * @source axes and curves: Budynas and Nisbett, Shigley's Mechanical Engineering Design, 9th ed., figure 6-27 (from memory)
 */
export function constantLifeChart(data: ConstantLifeData, options: ChartOptions): Chart {
  const layout = layoutOf(options, 1, [0.54, 0.82]);
  const scales = scalesOf(data);
  const places = placesOf(layout, scales.x, scales.y);
  const ticks = { x: roundTicks(scales.x, layout.isNarrow ? 4 : 7), y: roundTicks(scales.y, layout.isNarrow ? 5 : 6) };
  const curves = curvesOf(data, scales);
  const specimen = specimenMark(data, layout, places, scales);
  const drawn = curves.map((curve) => ({ ...curve, points: curve.places.map(({ mean, amplitude }) => ({ x: places.x(mean), y: places.y(amplitude) })) }));
  const lines = drawn.flatMap(({ points }) => curveAreas(points));
  const taken: Area[] = [...specimen.areas];
  const specimenName = specimen.named === undefined ? undefined : direct(specimen.named, layout, taken, lines);
  const inKey: KeyEntry[] = specimen.named === undefined || specimenName !== undefined ? []
    : [{ runs: specimen.named.runs, swatch: (x, y) => circle({ x, y }, RADIUS, 'current-mark') }];
  const labels = drawn.map(({ runs, points, className }) => {
    const named: Named = { runs, className: 'word', at: alongCurve(points), sides: ['right', 'left'] };
    const label = layout.isNarrow ? undefined : direct(named, layout, taken, lines);
    if (label === undefined) inKey.push({ runs, swatch: (x, y) => polyline([{ x: x - 12, y }, { x: x + 12, y }], className) });
    return label ?? '';
  });
  const key = keyRows(inKey, layout, layout.isNarrow ? 8 : layout.left, layout.height + layout.textSize * 0.7);
  const size = { width: layout.width, height: Math.ceil(layout.height + key.rows * layout.textSize * 1.45) };
  const sentence = constantLifeSentence(data);
  const unit = data.texts.stressUnit;
  const description = `Constant-life diagram: mean stress in ${unit} across, stress amplitude up. ${sentence}`;
  return {
    svg: svgElement(options.idPrefix, size, { title: 'Constant-life diagram', description }, [
      plottedSvg(layout, scales.x, scales.y, ticks, [
        ...drawn.map((curve): Markish => plotLine(curve.places, { x: 'mean', y: 'amplitude', className: curve.className })),
        own(specimen.markup + group('labels', [...labels, specimenName ?? ''])),
      ]),
      axes(layout, places, { ticks: ticks.x, title: ['Mean stress ', { symbol: 'sigma_m' }, ` / ${unit}`] }, { ticks: ticks.y, title: amplitudeTitle(data, unit) }),
      key.svg,
    ], 'chart'),
    description, sentence, viewBox: size, points: specimen.points,
  };
}

function amplitudeTitle({ factor }: ConstantLifeData, unit: string): Run[] {
  return factor === 1 ? ['Stress amplitude ', { symbol: 'sigma_a' }, ` / ${unit}`] : ['Amplitude ', { symbol: 'K_f' }, '\u202f', { symbol: 'sigma_a' }, ` / ${unit}`];
}

/** Stresses that a double can scale beside others; chart values in the display unit. */
function usable(value: number | undefined, { texts }: ConstantLifeData): number[] {
  return value !== undefined && value > 1e-6 && value < 1e9 ? [value * texts.stressPerMpa] : [];
}

function scalesOf(data: ConstantLifeData): Scales {
  const { constants, specimen, reversed, limit, factor } = data;
  const of = (value: number | undefined): number[] => usable(value, data);
  const means = [...of(constants.tensile), ...of(constants.yield), ...of(specimen === undefined ? undefined : 1.3 * Math.abs(specimen.mean))];
  const amplitudes = [...of(reversed), ...of(limit), ...of(specimen?.amplitude)];
  const [top, end] = [Math.max(0, ...amplitudes), Math.max(0, ...means)];
  const highest = top > 0 ? Math.max(top, Math.min(WIDEN * top, factor * (of(constants.yield)[0] ?? 0))) : Math.max(0, ...of(constants.yield));
  const compressed = specimen !== undefined && specimen.mean < 0 ? Math.min(0, ...of(-specimen.mean).map((mean) => -1.3 * mean)) : 0;
  const most = end > 0 ? end : highest > 0 ? highest : 100;
  return {
    x: { type: 'linear', domain: [compressed < -0.01 * most ? compressed : 0, 1.06 * most] },
    y: { type: 'linear', domain: [0, 1.1 * (highest > 0 ? highest : most)] },
  };
}

function curvesOf(data: ConstantLifeData, scales: Scales): Curve[] {
  const { constants, reversed, limit, factor, life, texts } = data;
  const wanted = reversed === undefined ? 'equal life' : life === undefined ? `equal life by ${data.correctionName}` : `${texts.life(life)}\u00A0cycles by ${data.correctionName}`;
  const yieldPlaces = usable(constants.yield, data).flatMap((strength) => yieldLine(strength, factor, scales));
  const all: Curve[] = [
    { className: 'design-line', runs: ['yield'], places: yieldPlaces },
    { className: 'limit-line', runs: ['endurance limit'], places: equalLife(data, limit, scales) },
    { className: 'median-line', runs: [wanted], places: equalLife(data, reversed, scales) },
  ];
  return all.filter(({ places }) => places.length > 1);
}

/** The curve of the chosen correction from a fully reversed amplitude to the end of the axis, or to where no amplitude is left. */
function equalLife(data: ConstantLifeData, reversed: number | undefined, { x, y }: Scales): Place[] {
  const perMpa = data.texts.stressPerMpa;
  if (usable(reversed, data).length === 0 || reversed === undefined) return [];
  const end = amplitudeEnd(data);
  const last = Math.min(x.domain[1], end === undefined ? Infinity : end * perMpa);
  const means = [...(x.domain[0] < 0 ? [x.domain[0]] : []), ...Array.from({ length: SAMPLES + 1 }, (_, i) => (i / SAMPLES) * last)];
  return means.flatMap((mean) => {
    const amplitude = amplitudeOfEqualLife(data.correction, reversed, mean / perMpa, data.constants);
    return amplitude === undefined || !isOn(y, amplitude * perMpa) ? [] : [{ mean, amplitude: amplitude * perMpa }];
  });
}

/** Mean stress at which a correction leaves no amplitude, MPa. */
function amplitudeEnd({ correction, constants }: ConstantLifeData): number | undefined {
  const ends: Partial<Record<typeof correction, number | undefined>> = {
    goodman: constants.tensile, gerber: constants.tensile, soderberg: constants.yield, morrow: constants.oneReversal,
  };
  return ends[correction];
}

/** Where amplitude and mean, whichever way it goes, make the yield strength; the part below the top of the chart. */
function yieldLine(strength: number, factor: number, { x, y }: Scales): Place[] {
  const first = Math.max(x.domain[0], -strength);
  const atTop = Math.max(0, strength - y.domain[1] / factor);
  const means = new Set([...Array.from({ length: SAMPLES + 1 }, (_, i) => first + (i / SAMPLES) * (strength - first)), atTop, 0 - atTop]);
  return [...means].filter((mean) => mean >= first && Math.abs(mean) >= atTop).toSorted((a, b) => a - b)
    .map((mean) => ({ mean, amplitude: Math.min(y.domain[1], factor * (strength - Math.abs(mean))) }));
}

function specimenMark(data: ConstantLifeData, layout: Layout, places: Places, scales: Scales): { markup: string; named?: Named; areas: Area[]; points: Chart['points'] } {
  const { specimen, texts } = data;
  const [mean, amplitude] = [(specimen?.mean ?? Number.NaN) * texts.stressPerMpa, (specimen?.amplitude ?? Number.NaN) * texts.stressPerMpa];
  if (!isOn(scales.x, mean) || !isOn(scales.y, amplitude)) return { markup: '', areas: [], points: [] };
  const at = { x: places.x(mean), y: places.y(amplitude) };
  return {
    markup: group('current', [
      line({ x: layout.left, y: at.y }, at, 'current-guide'), line(at, { x: at.x, y: layout.bottom }, 'current-guide'), circle(at, RADIUS, 'current-mark'),
    ]),
    named: {
      runs: ['this specimen'], className: 'word look', sides: ['right', 'left'], isBeside: true,
      at: [0, -15, 15, -30, 30, -46, 46].map((by) => ({ x: at.x + (by === 0 ? RADIUS : 0), y: at.y + by })),
    },
    areas: [
      { x: at.x - RADIUS - 2, y: at.y - RADIUS - 2, width: 2 * RADIUS + 4, height: 2 * RADIUS + 4 },
      { x: at.x - 2, y: at.y, width: 4, height: layout.bottom - at.y },
    ],
    points: [{ ...at, tell: () => specimenSentence(data) }],
  };
}
