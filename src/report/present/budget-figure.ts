import { composed } from '../../core/problem/index.ts';
import type { BudgetData, Chart, ChartOptions } from '../../figures/charts/index.ts';
import { chartDrawers } from '../../figures/at-hand/index.ts';
import { drawnSymbols } from '../../graph/index.ts';
import type { FigureCell } from '../../sheet/types.ts';
import { presentBudget } from './budget.ts';
import { isSymbolHidden, withheldWords } from './hidden.ts';
import type { PresentContext, PresentedBudget } from './types.ts';

/** The name of the drawing. */
export const BUDGET_DRAWING = 'budget';

/** The budget that a figure shows as a table beside its bars; undefined for other figures, and where there is none to show. */
export function figureBudget(cell: FigureCell, context: PresentContext): PresentedBudget | undefined {
  const [symbol] = cell.drawing === BUDGET_DRAWING ? drawnSymbols(cell) : [];
  if (symbol === undefined || isSymbolHidden(symbol, context)) return undefined;
  return presentBudget(symbol, context);
}

/** Its bars, or the sentence in their place. */
export function presentBudgetChart(cell: FigureCell, context: PresentContext): { readonly chart: (options: ChartOptions) => Chart } | { readonly instead: string } {
  const [symbol, ...more] = drawnSymbols(cell);
  if (symbol === undefined || more.length > 0) return { instead: 'A budget is of one result: name it with a line such as `of: sigma_a`.' };
  if (isSymbolHidden(symbol, context)) return { instead: `The budget: ${withheldWords(context.states.definedBy(symbol) ?? '', context)}.` };
  const budget = presentBudget(symbol, context);
  if (budget === undefined) return { instead: `The budget appears once ${symbol} has a value with an uncertainty.` };
  const data = dataOf(budget);
  return { chart: (options) => chartDrawers().budgetChart(data, options) };
}

function dataOf({ symbol, rows, isCorrelated, total }: PresentedBudget): BudgetData {
  return {
    symbol,
    isCorrelated,
    sentence: total.sentence,
    bars: rows.map(({ input, words, uncertainty, contribution, share, covarianceShare, parts }) => ({
      symbol: input,
      own: parts.own,
      shared: parts.shared,
      share,
      ...(covarianceShare === undefined ? {} : { covarianceShare }),
      tell: composed`${words}: u = ${uncertainty} contributes ${contribution}, ${share} of the variance${covarianceShare === undefined ? '' : `, and ${covarianceShare} by correlation`}.`,
    })),
  };
}
