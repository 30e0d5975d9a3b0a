import { dot, line, ruleY, type Markish } from '@observablehq/plot';
import type { Outcome } from '../../core/fatigue/index.ts';
import { svgElement } from '../drawings/frame-markup.ts';
import { circle, group, polyline } from '../drawings/markup.ts';
import type { Area, Run } from '../drawings/types.ts';
import { axes, sideTitleEnd } from './axes.ts';
import { curveAreas, direct, keyRows, type Named } from './labels.ts';
import { layoutOf, type Layout } from './layout.ts';
import { own, placesOf, plottedSvg, type Places } from './plotted.ts';
import { linearScale, roundTicks, type AxisScale } from './scales.ts';
import { crossAt, MARK, runoutArrow, shapeOf } from './shapes.ts';
import type { Chart, ChartOptions, KeyEntry, StaircaseData } from './types.ts';
import { counted } from './words.ts';

interface Test {
  readonly number: number;
  readonly level: number;
  readonly outcome: Outcome;
  readonly place: number;
}

/** An arrow needs this much room to the next test, px. */
const ROOM_FOR_ARROW = 30;
const BECAME: Readonly<Record<Outcome, string>> = { fracture: 'broke', runout: 'runout', suspended: 'stopped early, not counted', invalid: 'not counted' };

/**
 * The ups and downs of a staircase: order of the tests across, level up; fractures as crosses, runouts as rings with an arrow.
 * @source crosses and circles: Dixon and Mood, JASA 43 (1948) 109, and ISO 12107 draw the sequence so.
 */
export function staircaseChart(data: StaircaseData, options: ChartOptions): Chart {
  const layout = layoutOf(options, 1, [0.44, 0.72]);
  const tests = testsOf(data);
  const { mean, next } = validated(data);
  const levels = [...tests.map(({ level }) => level), ...(mean === undefined ? [] : [mean]), ...(next === undefined ? [] : [next])];
  const scales: { x: AxisScale; y: AxisScale } = {
    x: { type: 'linear', domain: [0.3, Math.max(data.outcomes.length, 1) + (next === undefined ? 0.9 : 1.9)] },
    y: linearScale(levels, 0.16, [200, 400]),
  };
  const places = placesOf(layout, scales.x, scales.y);
  const ticks = { x: roundTicks(scales.x, layout.isNarrow ? 6 : 12).filter(({ value }) => Number.isInteger(value) && value > 0), y: roundTicks(scales.y, 6) };
  const drawn = marksOf(tests, places);
  const taken = [...drawn.areas];
  const steps = curveAreas(tests.filter(isCounted).map(({ number, level }) => ({ x: places.x(number), y: places.y(level) })));
  const labels = namesOf(data, { mean, next }, layout, places, { taken, steps });
  const sentence = sentenceOf(data, tests, { mean, next });
  const description = `Staircase: tests in order across, level in ${data.unit} up. ${sentence}`;
  const title = ['Level / ', data.unit];
  const size = { width: layout.width, height: layout.height };
  return {
    svg: svgElement(options.idPrefix, size, { title: 'Staircase of tests', description }, [
      plottedSvg(layout, scales.x, scales.y, ticks, [
        ...(mean === undefined ? [] : [ruleY([mean], { className: 'mean-line' })]), ...drawn.marks,
        own(group('next', next === undefined ? [] : [circle({ x: places.x(tests.length + 1), y: places.y(next) }, MARK + 1.5, 'next-level')]) + group('labels', labels)),
      ]),
      axes(layout, places, { ticks: ticks.x, title: ['Test'] }, { ticks: ticks.y, title }),
      keyRows(keyOf(tests), layout, sideTitleEnd(title, layout) + 22, layout.textSize * 0.68).svg,
    ], 'chart'),
    description, sentence, viewBox: size,
    points: tests.map(({ number, level, place, outcome }) => ({
      x: places.x(number), y: places.y(level), tell: () => `Test ${number}, ${data.name(place)}: ${data.level(level)}, ${BECAME[outcome]}.`,
    })),
  };
}

function testsOf({ levels, outcomes }: StaircaseData): Test[] {
  return outcomes.map((outcome, place) => ({ number: place + 1, level: levels[place] ?? Number.NaN, outcome, place }))
    .filter(({ level }) => level > 0 && level < 1e300);
}

function validated({ mean, next }: StaircaseData): { mean: number | undefined; next: number | undefined } {
  const usable = (value: number | undefined): number | undefined => (value !== undefined && Math.abs(value) < 1e300 ? value : undefined);
  return { mean: usable(mean), next: usable(next) };
}

function isCounted({ outcome }: Test): boolean {
  return outcome === 'fracture' || outcome === 'runout';
}

function marksOf(tests: readonly Test[], { x, y }: Places): { marks: Markish[]; areas: Area[] } {
  const spacing = x(2) - x(1);
  const at = tests.map((test) => ({ test, x: x(test.number), y: y(test.level) }));
  const markup = at.flatMap((place) => {
    if (place.test.outcome === 'fracture') return [crossAt(place.x, place.y, MARK + 0.3, 'fracture-cross')];
    if (place.test.outcome === 'runout') return spacing >= ROOM_FOR_ARROW ? [runoutArrow(place.x, place.y)] : [];
    return [crossAt(place.x, place.y, MARK, 'uncounted-cross')];
  });
  return {
    marks: [
      line(tests.filter(isCounted), { x: 'number', y: 'level', className: 'step-line' }),
      dot(tests.filter(({ outcome }) => outcome === 'runout'), { x: 'number', y: 'level', r: MARK, symbol: shapeOf(0), className: 'specimen unbroken' }),
      own(group('tests', markup)),
    ],
    areas: at.map((place) => ({ x: place.x - MARK - 2, y: place.y - MARK - 2, width: 2 * MARK + 4, height: 2 * MARK + 4 })),
  };
}

/** The next level beside its place; the median strength along its line, else below the plot. */
function namesOf(data: StaircaseData, { mean, next }: ReturnType<typeof validated>, layout: Layout, { x, y }: Places, { taken, steps }: { taken: Area[]; steps: readonly Area[] }): string[] {
  const { left, right, bottom, textSize } = layout;
  const nextName: Named[] = next === undefined ? [] : [{
    runs: [`next: ${data.level(next)}`.replaceAll(' ', '\u00A0')], className: 'word look', sides: ['left'], isBeside: true,
    at: [0, -18, 18, -36, 36, -54, 54].map((by) => ({ x: x(data.outcomes.length + 1) + (by === 0 ? -4 : 12), y: y(next) + by })),
  }];
  const labels = nextName.map((named) => direct(named, layout, taken, steps) ?? '');
  if (mean === undefined) return labels;
  const runs: Run[] = [{ symbol: 'S_50' }, `\u00A0=\u00A0${data.level(mean).replaceAll(' ', '\u00A0')}`];
  const at = [-12, 12].flatMap((by) => Array.from({ length: 12 }, (_, i) => ({ x: right + 4 - (i * (right - left)) / 14, y: y(mean) + by })));
  const label = direct({ runs, className: 'word', sides: ['left'], isBeside: true, at }, layout, taken, steps);
  const swatch = (atX: number, atY: number): string => polyline([{ x: atX - 12, y: atY }, { x: atX + 12, y: atY }], 'mean-line');
  return [...labels, label ?? keyRows([{ runs, swatch }], layout, 8, bottom + textSize * 2.3).svg];
}

function keyOf(tests: readonly Test[]): KeyEntry[] {
  const has = (...outcomes: readonly Outcome[]): boolean => tests.some(({ outcome }) => outcomes.includes(outcome));
  return [
    ...(has('fracture') ? [{ runs: ['fracture'], swatch: (x: number, y: number) => crossAt(x, y, MARK + 0.3, 'fracture-cross') }] : []),
    ...(has('runout') ? [{ runs: ['runout'], swatch: (x: number, y: number) => runoutArrow(x - 8, y) + circle({ x: x - 8, y }, MARK, 'specimen unbroken') }] : []),
    ...(has('suspended', 'invalid') ? [{ runs: ['not counted'], swatch: (x: number, y: number) => crossAt(x, y, MARK, 'uncounted-cross') }] : []),
  ];
}

function sentenceOf(data: StaircaseData, tests: readonly Test[], { mean, next }: ReturnType<typeof validated>): string {
  const broken = tests.filter(({ outcome }) => outcome === 'fracture').length;
  const unbroken = tests.filter(({ outcome }) => outcome === 'runout').length;
  if (tests.length === 0) return 'No tests have been made yet.';
  const levels = tests.map(({ level }) => level);
  return `${counted(broken, 'fracture', 'fractures')} and ${counted(unbroken, 'runout', 'runouts')} between ${data.level(Math.min(...levels))} and ${data.level(Math.max(...levels))}.`
    + `${mean === undefined ? '' : ` The median strength is ${data.level(mean)}.`}${next === undefined ? '' : ` The next specimen is for ${data.level(next)}.`}`;
}
