import { counterpart, fromSI, ONE } from '../../core/units/index.ts';
import type { Chart, ChartOptions, ContourData } from '../../figures/charts/index.ts';
import { chartDrawers } from '../../figures/at-hand/index.ts';
import { stateAsRead, sweepMap, unitOfGiven } from '../../graph/index.ts';
import { wholeOf } from './asked.ts';
import { isShownAsFactor } from './result.ts';
import { axisOf, gapWords, isLogarithmic, type SweepSide } from './sweep-axis.ts';
import { lifeText } from './chart-texts.ts';
import type { PresentContext } from './types.ts';

/** Lines of equal value of the first result over two givens; worked out when it is first drawn. */
export function contourOf(
  of: readonly string[], sides: readonly [SweepSide, SweepSide], context: PresentContext,
): { readonly chart: (options: ChartOptions) => Chart } | { readonly instead: string } {
  const [symbol, second] = of;
  if (symbol === undefined || second !== undefined) return { instead: 'Against two givens, one result can be drawn: name one under `of`.' };
  let data: ContourData | undefined;
  return { chart: (options) => chartDrawers().contourChart((data ??= contourData(symbol, sides, context)), options) };
}

function contourData(symbol: string, [across, up]: readonly [SweepSide, SweepSide], context: PresentContext): ContourData {
  const { document, states, system } = wholeOf(context);
  const found = sweepMap(document, states, {
    of: symbol, against: [across.given, up.given], from: [across.range.from, up.range.from], to: [across.range.to, up.range.to],
  });
  const state = states.symbol(symbol);
  const unit = counterpart(state?.unit ?? ONE, system);
  const values = found.values.map((value) => fromSI(value, unit));
  const isLog = isLogarithmic(values, isShownAsFactor(symbol, context));
  const [x, y] = [across, up].map(({ given, range }) => {
    const own = unitOfGiven(given, states) ?? ONE;
    const now = stateAsRead(given.symbol, states);
    return {
      side: { axis: axisOf(given.symbol, own, context), from: fromSI(range.from, own), to: fromSI(range.to, own) },
      now: now?.status === 'value' && now.estimate.value >= range.from && now.estimate.value <= range.to ? fromSI(now.estimate.value, own) : undefined,
    };
  });
  if (x === undefined || y === undefined) throw new Error('a map has two sides');
  return {
    x: x.side, y: y.side, values, columns: found.columns, rows: found.rows,
    result: axisOf(symbol, unit, context, isLog ? lifeText : undefined),
    scale: isLog ? 'log' : 'linear',
    ...(x.now === undefined || y.now === undefined ? {} : {
      present: { x: x.now, y: y.now, value: state?.status === 'value' ? fromSI(state.estimate.value, unit) : Number.NaN },
    }),
    gaps: [...new Set(found.reasons.map((why) => gapWords(why, context)))],
  };
}
