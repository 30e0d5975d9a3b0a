import { counterpart, fromSI, intervalFromSI, ONE } from '../../core/units/index.ts';
import type { Unit } from '../../core/units/types.ts';
import { sweepChart, type Chart, type ChartOptions, type SweepAxis, type SweepData, type SweepPanel } from '../../figures/charts/index.ts';
import { planOf, sweepLines, symbolsAfter, unitOfGiven, type SweepGap, type SweptLine } from '../../graph/index.ts';
import type { FigureCell, GivenCell } from '../../sheet/types.ts';
import { lifeText } from './chart-texts.ts';
import { isSymbolHidden } from './hidden.ts';
import { definingCell, findCell } from './lookup.ts';
import { figures, plainFigures, unitText, withUnit } from './number.ts';
import { presentResult } from './result.ts';
import { proposedRange, readRange, roundPlaces, type SweepRange } from './sweep-range.ts';
import type { PresentContext } from './types.ts';

/** What is to be drawn against what, between which values; SI. */
export interface SweepWish {
  readonly of: readonly string[];
  readonly against: GivenCell;
  readonly range: SweepRange;
}

type PresentedSweep = { readonly chart: (options: ChartOptions) => Chart } | { readonly instead: string };

/** More panels than these would be a page of their own. */
const MOST_PANELS = 6;
/** A result that runs over more than this factor is drawn over a logarithmic axis, as lives are. */
const FACTOR_FOR_LOG = 30;
const FIGURES = 4;

/** The figure of a document: `of` and `against` by symbols, `from` and `to` as quantities. */
export function presentSweep(cell: FigureCell, context: PresentContext): PresentedSweep {
  const of = symbolsIn(cell.of);
  const unknown = [...of, ...symbolsIn(cell.against)].find((symbol) => context.states.definedBy(symbol) === undefined);
  if (of.length === 0) return { instead: 'This drawing needs a line such as of: N_f, the result that is drawn.' };
  if (unknown !== undefined) return { instead: `This drawing asks for ${unknown}, and no given or step here has that symbol.` };
  const [symbol, second] = symbolsIn(cell.against);
  const given = givenOf(symbol, context);
  if (given === undefined || second !== undefined) return { instead: 'This drawing needs a line such as against: d, the given that moves.' };
  const unit = unitOfGiven(given, context.states);
  const proposed = proposedRange(given, context.states);
  const range = unit === undefined ? undefined : readRange({ from: cell.from ?? '', to: cell.to ?? '' }, proposed, unit);
  if (range === undefined) return { instead: `This drawing needs two different values of ${given.symbol}, such as from: 6 mm and to: 9 mm.` };
  return sweepOf({ of, against: given, range }, context);
}

/** A sweep to be laid out at a width; worked out when it is first drawn. */
export function sweepOf(wish: SweepWish, context: PresentContext): PresentedSweep {
  const of = wish.of.slice(0, MOST_PANELS);
  if (of.some((symbol) => isSymbolHidden(symbol, context))) return { instead: 'This drawing appears once you have worked its results out.' };
  const moving = new Set(symbolsAfter(planOf(context.document), context.states, wish.against.symbol));
  const stuck = of.filter((symbol) => !moving.has(symbol));
  if (stuck.length === of.length) return { instead: `${wish.against.symbol} has no part in ${stuck.join(', ')}: nothing moves with it.` };
  let data: SweepData | undefined;
  return { chart: (options) => sweepChart((data ??= sweepData({ ...wish, of }, context)), options) };
}

function symbolsIn(text: string | undefined): readonly string[] {
  return [...new Set((text ?? '').split(/[\s,;]+/).filter((symbol) => symbol !== ''))];
}

function givenOf(symbol: string | undefined, context: PresentContext): GivenCell | undefined {
  const cell = symbol === undefined ? undefined : definingCell(symbol, context)?.cell;
  return cell?.kind === 'given' ? cell : undefined;
}

function sweepData({ of, against, range }: SweepWish, context: PresentContext): SweepData {
  const unit = unitOfGiven(against, context.states);
  if (unit === undefined) throw new Error(`${against.symbol} has no unit to sweep it in`);
  const asked = roundPlaces(range, unit);
  const found = sweepLines(context.document, context.states, { of, against, places: asked });
  const told = new Set([...asked, ...(found.present === undefined ? [] : [found.present])]);
  const axis = axisOf(against.symbol, unit, context);
  return {
    against: axis,
    places: found.xs.map((x) => fromSI(x, unit)),
    isTold: [...found.xs].map((x) => told.has(x)),
    ...(found.present === undefined ? {} : { present: fromSI(found.present, unit) }),
    panels: found.lines.map((line) => panelOf(line, unit, context)),
    turns: found.turns.map(({ cellId, at, holdsAbove }) => ({
      at: fromSI(at, unit),
      words: `The check “${findCell(context.document, cellId)?.cell.label ?? cellId}” ${holdsAbove ? 'holds from' : 'no longer holds from'} ${axis.text(fromSI(at, unit))} on.`,
    })),
  };
}

function axisOf(symbol: string, unit: Unit, context: PresentContext, number = (value: number): string => plainFigures(value, FIGURES)): SweepAxis {
  const name = unitText(unit);
  return {
    symbol, unit: name,
    words: definingCell(symbol, context)?.cell.label ?? symbol,
    text: (value) => withUnit(number(value), name),
  };
}

function panelOf(line: SweptLine, againstUnit: Unit, context: PresentContext): SweepPanel {
  const cell = definingCell(line.symbol, context)?.cell;
  const unit = counterpart(line.unit ?? ONE, context.system);
  const values = line.values.map((value) => fromSI(value, unit));
  const isLog = isLogarithmic(values, cell?.kind === 'step' && cell.spread === 'factor');
  const axis = axisOf(line.symbol, unit, context, isLog ? lifeText : undefined);
  const spread = line.uncertainties.map((u) => (Number.isFinite(u) ? intervalFromSI(u, unit) : 0));
  const end = (way: -1 | 1): Float64Array => values.map((value, i) => {
    const u = spread[i] ?? 0;
    return isLog ? value * Math.exp((way * u) / value) : value + way * u;
  });
  return {
    axis, values, lower: end(-1), upper: end(1),
    scale: isLog ? 'log' : 'linear',
    told: (place) => toldAt(axis, values[place] ?? Number.NaN, spread[place] ?? 0, isLog),
    gaps: line.gaps.map((gap) => ({ from: fromSI(gap.from, againstUnit), to: fromSI(gap.to, againstUnit), words: gapWords(gap, context) })),
    ...(line.present === undefined ? {} : { present: fromSI(line.present, unit) }),
  };
}

function isLogarithmic(values: Float64Array, isLife: boolean): boolean {
  const there = values.filter((value) => !Number.isNaN(value));
  if (there.length === 0 || !there.every((value) => value > 0)) return false;
  const [least, most] = there.reduce(([low, high], value) => [Math.min(low, value), Math.max(high, value)], [Infinity, 0]);
  return isLife || most / least > FACTOR_FOR_LOG;
}

function toldAt(axis: SweepAxis, value: number, u: number, isLog: boolean): string {
  if (!(u > 0)) return axis.text(value);
  return isLog ? `${axis.text(value)} ×/÷ ${figures(Math.exp(u / value), 3)}` : `${axis.text(value)} ± ${withUnit(plainFigures(u, 2), axis.unit)}`;
}

/** Why there is no value, as the end of a sentence. */
export function gapWords({ why }: SweepGap, { system }: PresentContext): string {
  if (why === undefined) return 'it has none';
  const result = presentResult(why, system);
  const text = result.kind === 'value' ? 'it is too large to be written' : result.kind === 'range' ? result.text : result.problem.what;
  return text.replace(/\.$/, '');
}
