import { counterpart, fromSI, intervalFromSI, ONE } from '../../core/units/index.ts';
import type { Unit } from '../../core/units/types.ts';
import type { Chart, ChartOptions, SweepAxis, SweepData, SweepPanel } from '../../figures/charts/index.ts';
import { chartDrawers } from '../../figures/at-hand/index.ts';
import { drawnSymbols, compileSheet, sweepCurves, sweptSymbols, symbolsAfter, unitOfGiven, type SweptCurve } from '../../graph/index.ts';
import { cellIn } from '../../sheet/index.ts';
import type { FigureCell, GivenCell } from '../../sheet/types.ts';
import { wholeOf } from './asked.ts';
import { lifeText } from './chart-texts.ts';
import { contourOf } from './contour.ts';
import { isHidden, isSymbolHidden } from './hidden.ts';
import { definingCell, findCell } from './lookup.ts';
import { figures, plainFigures, withUnit } from './number.ts';
import { isShownAsFactor } from './result.ts';
import { axisOf, gapWords, isLogarithmic, type SweepSide } from './sweep-axis.ts';
import { proposedRange, readRange, roundPlaces, type SweepRange } from './sweep-range.ts';
import type { PresentContext } from './types.ts';

/** What is to be drawn against what, between which values; SI. */
interface SweepWish {
  readonly of: readonly string[];
  /** One, or two for lines of equal value of the first result. */
  readonly sides: readonly SweepSide[];
}

type PresentedSweep = { readonly chart: (options: ChartOptions) => Chart } | { readonly instead: string };

/** More panels than these would be a page of their own. */
const MOST_PANELS = 6;

/** The figure of a document: `of` and `against` by symbols, `from` and `to` as quantities. */
export function presentSweep(cell: FigureCell, context: PresentContext): PresentedSweep {
  const [of, named] = [drawnSymbols(cell), sweptSymbols(cell)];
  const isUnknown = [...of, ...named].some((symbol) => context.states.definedBy(symbol) === undefined);
  if (of.length === 0) return { instead: 'This drawing needs a line such as of: N_f, the result that is drawn.' };
  if (isUnknown) return { instead: 'This drawing appears once all that it names is there.' };
  const against = named.flatMap((symbol) => givenOf(symbol, context) ?? []);
  if (against.length === 0 || against.length > 2 || against.length < named.length) {
    return { instead: 'This drawing needs a line such as against: d, the given that moves, or two of them with a comma between.' };
  }
  const [from, to] = [piecesOf(cell.from), piecesOf(cell.to)];
  const ranges = against.flatMap((given, i) => rangeOf(given, { from: from[i] ?? '', to: to[i] ?? '' }, context) ?? []);
  if (ranges.length < against.length) {
    return { instead: `This drawing needs two different values of ${against.map(({ symbol }) => symbol).join(' and of ')}, such as from: 6 mm and to: 9 mm.` };
  }
  const sides = against.flatMap((given, i): SweepSide[] => {
    const range = ranges[i];
    return range === undefined ? [] : [{ given, range }];
  });
  return sweepOf({ of, sides }, context);
}

/** Pieces of a list: between semicolons where there are any, so that a comma can be a decimal mark; else between commas. */
function piecesOf(text: string | undefined): readonly string[] {
  return (text ?? '').split(/;/.test(text ?? '') ? /;/ : /,(?=\s)/).map((piece) => piece.trim()).filter((piece) => piece !== '');
}

/** The ends of a range as typed, or as proposed where nothing was. */
export function rangeOf(given: GivenCell, texts: { readonly from: string; readonly to: string }, { states }: PresentContext): SweepRange | undefined {
  const unit = unitOfGiven(given, states);
  return unit === undefined ? undefined : readRange(texts, proposedRange(given, states), unit);
}

/** A sweep to be laid out at a width; worked out when it is first drawn. */
export function sweepOf(wish: SweepWish, context: PresentContext): PresentedSweep {
  const of = wish.of.slice(0, MOST_PANELS);
  if (of.some((symbol) => isSymbolHidden(symbol, context))) return { instead: 'This drawing appears once you have worked its results out.' };
  const [side, other] = wish.sides;
  const still = wish.sides.find(({ given }) => !hasPart(given, of, context));
  if (side === undefined || still !== undefined) return { instead: `${still?.given.symbol ?? 'Nothing'} has no part in ${of.join(', ')}: nothing moves with it.` };
  if (other !== undefined) return contourOf(of, [side, other], context);
  let data: SweepData | undefined;
  return { chart: (options) => chartDrawers().sweepChart((data ??= sweepData(of, side, context)), options) };
}

function hasPart(given: GivenCell, of: readonly string[], context: PresentContext): boolean {
  const { document, states } = wholeOf(context);
  const moving = new Set(symbolsAfter(compileSheet(document), states, given.symbol));
  return of.some((symbol) => moving.has(symbol));
}

function givenOf(symbol: string | undefined, context: PresentContext): GivenCell | undefined {
  return symbol === undefined ? undefined : cellIn(definingCell(symbol, context), 'given');
}

function sweepData(of: readonly string[], { given: against, range }: SweepSide, context: PresentContext): SweepData {
  const unit = unitOfGiven(against, context.states);
  if (unit === undefined) throw new Error(`${against.symbol} has no unit to sweep it in`);
  const asked = roundPlaces(range, unit);
  const { document, states } = wholeOf(context);
  const found = sweepCurves(document, states, { of, against, places: asked });
  const told = new Set([...asked, ...(found.present === undefined ? [] : [found.present])]);
  const axis = axisOf(against.symbol, unit, context);
  return {
    against: axis,
    places: found.xs.map((x) => fromSI(x, unit)),
    isTold: [...found.xs].map((x) => told.has(x)),
    ...(found.present === undefined ? {} : { present: fromSI(found.present, unit) }),
    panels: found.curves.map((curve) => panelOf(curve, unit, context)),
    turns: found.turns.filter(({ cellId }) => !isHidden(cellId, context)).map(({ cellId, at, holdsAbove }) => ({
      at: fromSI(at, unit),
      words: `The check “${findCell(document, cellId)?.cell.label ?? cellId}” ${holdsAbove ? 'holds from' : 'no longer holds from'} ${axis.text(fromSI(at, unit))} on.`,
    })),
  };
}

function panelOf(curve: SweptCurve, againstUnit: Unit, context: PresentContext): SweepPanel {
  const unit = counterpart(curve.unit ?? ONE, context.system);
  const values = curve.values.map((value) => fromSI(value, unit));
  const isLog = isLogarithmic(values, isShownAsFactor(curve.symbol, context));
  const axis = axisOf(curve.symbol, unit, context, isLog ? lifeText : undefined);
  const spread = curve.uncertainties.map((u) => (Number.isFinite(u) ? intervalFromSI(u, unit) : 0));
  const end = (way: -1 | 1): Float64Array => values.map((value, i) => {
    const u = spread[i] ?? 0;
    return isLog ? value * Math.exp((way * u) / value) : value + way * u;
  });
  return {
    axis, values, lower: end(-1), upper: end(1),
    scale: isLog ? 'log' : 'linear',
    told: (place) => toldAt(axis, values[place] ?? Number.NaN, spread[place] ?? 0, isLog),
    gaps: curve.gaps.map((gap) => ({ from: fromSI(gap.from, againstUnit), to: fromSI(gap.to, againstUnit), words: gapWords(gap.why, context) })),
    ...(curve.present === undefined ? {} : { present: fromSI(curve.present, unit) }),
  };
}

function toldAt(axis: SweepAxis, value: number, u: number, isLog: boolean): string {
  if (!(u > 0)) return axis.text(value);
  return isLog ? `${axis.text(value)} ×/÷ ${figures(Math.exp(u / value), 3)}` : `${axis.text(value)} ± ${withUnit(plainFigures(u, 2), axis.unit)}`;
}

