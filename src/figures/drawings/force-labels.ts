import type { Axis } from './axis.ts';
import { equation, lettering, runsWidth, shownText } from './lettering.ts';
import { group } from './markup.ts';
import { lineArea, placeFree } from './placement.ts';
import type { Area, FigureValue, Run } from './types.ts';

/** A force as it stands in the drawing: a vertical line from `tail` to `tip` at `x`, px. */
export interface DrawnForce {
  /** Where its label goes: above a load, beside a reaction, under a weight that pulls below the body. */
  readonly kind: 'load' | 'reaction' | 'weight';
  readonly x: number;
  readonly tail: number;
  readonly tip: number;
  readonly value: FigureValue;
}

/** Signed lengths of arrows to one common scale, the largest of them `longest`; hidden and missing ones are all alike. */
export function arrowLengths(values: readonly FigureValue[], longest: number): (value: FigureValue) => number {
  const largest = Math.max(...values.map(magnitude));
  return (value) => {
    if (value.hidden || value.si === undefined) return 0.7 * longest;
    return largest === 0 ? 0 : longest * (value.si / largest);
  };
}

/** Size of a force that may show. */
function magnitude(value: FigureValue): number {
  return value.hidden || value.si === undefined ? 0 : Math.abs(value.si);
}

interface ForceLabels {
  readonly svg: string;
  /** Everything that further letters have to keep off: what was taken before, the arrows, these labels. */
  readonly taken: readonly Area[];
  readonly letters: readonly Area[];
}

/**
 * Symbol and value at each force: loads above their arrows, reactions beside theirs, nothing on top of anything else.
 * @param thin extension lines, which are interrupted where there is no other place
 */
export function forceLabels(forces: readonly DrawnForce[], axis: Axis, taken: readonly Area[], thin: readonly Area[]): ForceLabels {
  const areas: Area[] = [...taken, ...forces.map((force) => lineArea(force.x, force.tail, force.x, force.tip, 4))];
  const letters: Area[] = [];
  const labels = forces.map((force) => {
    const choices = CHOICES[force.kind](force, axis);
    const area = placeFree(choices.map((choice) => choice.area), areas, axis.width, thin);
    areas.push(area);
    letters.push(area);
    const chosen = choices.find((choice) => choice.area.y === area.y && choice.area.height === area.height && choice.area.width === area.width);
    return labelLines(chosen?.lines ?? [equation(force.value)], area, axis.textSize);
  });
  return { svg: group('labels', labels), taken: areas, letters };
}

interface Choice {
  readonly lines: readonly (readonly Run[])[];
  readonly area: Area;
}

function labelLines(lines: readonly (readonly Run[])[], area: Area, size: number): string {
  return lines.map((runs, index) => lettering(runs, {
    x: area.x + area.width / 2, y: area.y + size * (0.95 + 1.2 * index), anchor: 'middle', size, className: 'value',
  })).join('');
}

function choice(lines: readonly (readonly Run[])[], size: number, at: (width: number, height: number) => { x: number; y: number }): Choice {
  const width = Math.max(...lines.map((runs) => runsWidth(runs, size)));
  const height = lines.length * size * 1.2;
  return { lines, area: { ...at(width, height), width, height } };
}

function oneLine(value: FigureValue): Run[][] {
  return [equation(value)];
}

function twoLines(value: FigureValue): Run[][] {
  const text = shownText(value);
  return text === '' ? oneLine(value) : [[{ symbol: value.symbol }], [text]];
}

function loadChoices({ x, tail, tip, value }: DrawnForce, axis: Axis): Choice[] {
  const top = Math.min(tail, tip) - 5;
  const size = axis.textSize;
  const lines = oneLine(value);
  return [
    choice(lines, size, (width, height) => ({ x: x - width / 2, y: top - height })),
    choice(lines, size, (width, height) => ({ x: x - width + 8, y: top - height })),
    choice(lines, size, (_width, height) => ({ x: x - 8, y: top - height })),
    choice(lines, size, (width, height) => ({ x: x - width - 6, y: top - height })),
    choice(lines, size, (_width, height) => ({ x: x + 6, y: top - height })),
    choice(twoLines(value), size, (width) => ({ x: x - width - 8, y: top + 4 })),
    choice(twoLines(value), size, () => ({ x: x + 8, y: top + 4 })),
    ...[2, 3, 4].flatMap((storey) => [
      choice(lines, size, (width, height) => ({ x: x - width / 2, y: Math.max(2, top - storey * height) })),
      choice(lines, size, (width, height) => ({ x: x - width + 8, y: Math.max(2, top - storey * height) })),
      choice(lines, size, (_width, height) => ({ x: x - 8, y: Math.max(2, top - storey * height) })),
    ]),
    choice(lines, size, (width) => ({ x: x - width - 40, y: 2 })),
    choice(lines, size, () => ({ x: x + 40, y: 2 })),
  ];
}

function reactionChoices({ x, tail, tip, value }: DrawnForce, axis: Axis): Choice[] {
  const size = axis.textSize;
  const foot = Math.max(tail, tip);
  const outwards = x > axis.width / 2 ? 1 : -1;
  const beside = (lines: Run[][], side: number): Choice => choice(lines, size, (width, height) => ({
    x: side > 0 ? x + 8 : x - 8 - width, y: Math.max(foot - height - 4, Math.min(tail, tip) - 2),
  }));
  const [one, two] = [oneLine(value), twoLines(value)];
  return [beside(one, -outwards), beside(two, -outwards), beside(one, outwards), beside(two, outwards)]
    .filter(({ area }) => area.x >= 2 && area.x + area.width <= axis.width - 2).concat(beside(two, -outwards));
}

function weightChoices({ x, tip, tail, value }: DrawnForce, axis: Axis): Choice[] {
  const size = axis.textSize;
  const under = Math.max(tip, tail) + 3;
  return [oneLine(value), twoLines(value)].flatMap((lines) => [1.1, 1.7, 2.3, 0].flatMap((down) => [
    choice(lines, size, (width) => ({ x: x - width / 2, y: under + down * size })),
    choice(lines, size, () => ({ x: x - 6, y: under + down * size })),
    choice(lines, size, (width) => ({ x: x - width + 6, y: under + down * size })),
  ])).concat([2.9, 3.5, 4.1].flatMap((down) => [
    choice(oneLine(value), size, () => ({ x: x - 6, y: under + down * size })),
    choice(twoLines(value), size, () => ({ x: x + 6, y: under + down * size })),
    ...[30, 60, 100].map((aside) => choice(oneLine(value), size, () => ({ x: x + aside, y: under + (down - 1.8) * size }))),
  ]));
}

const CHOICES = { load: loadChoices, reaction: reactionChoices, weight: weightChoices } as const;
