import { hasBudget, isMovedBySlips, presentBudget, presentDraws, SLIP_MARK } from '../report/index.ts';
import type { Solved } from './answer.ts';

/** The answer as text for a terminal. */
export function plainText({ answer: { title, trials, slips, values, budgets = {}, checks, errors }, context, drawn }: Solved): string {
  const lines = [title, ''];
  if (trials !== undefined) {
    const list = Object.entries(trials).map(([symbol, text]) => `${symbol} = ${text}`).join('; ');
    lines.push(`TRIAL VALUES IN PLACE OF WHAT WAS MEASURED: ${list}.`, '');
  }
  if (slips.length > 0) lines.push(`SLIPS SWITCHED ON: ${slips.join(', ')}. Values marked ${SLIP_MARK} are wrong on purpose, not results.`, '');
  for (const [symbol, entry] of Object.entries(values)) {
    const { text } = entry as { text?: unknown };
    lines.push(`${symbol.padEnd(10)} ${String(text ?? '')}${mark(symbol, context)}`);
  }
  if (drawn.size > 0) lines.push('', 'Draws', ...plainDraws({ context, drawn }));
  for (const symbol of Object.keys(budgets)) lines.push('', `Budget of ${symbol}${mark(symbol, context)}`, ...plainBudget(symbol, context));
  if (checks.length > 0) lines.push('', 'Checks');
  for (const { cell, holds, message } of checks) {
    lines.push(`  ${holds === null ? 'open' : holds ? 'holds' : 'does not hold'}  ${cell}: ${message}`);
  }
  if (errors.length > 0) lines.push('', 'Errors');
  for (const { cell, message } of errors) lines.push(`  ${cell === '' ? 'sheet' : cell}: ${message}`);
  return lines.join('\n');
}

/** Behind what a slip has moved. */
function mark(symbol: string, context: Solved['context']): string {
  return isMovedBySlips(symbol, context) ? ` ${SLIP_MARK}` : '';
}

/** Of the results; what is measured has the distribution that it was given. */
function plainDraws({ context, drawn }: Pick<Solved, 'context' | 'drawn'>): readonly string[] {
  return [...drawn].flatMap(([symbol, result]) => {
    const state = context.states.symbol(symbol);
    if (typeof result === 'number' || state === undefined || !hasBudget(symbol, context)) return [];
    const told = presentDraws(result, state, context);
    return [`  ${symbol}${mark(symbol, context)}: ${told?.spoken ?? 'no draw has a value.'}`];
  });
}

const HEADS = ['input', 'value', 'u', 'type', 'distribution', 'd.o.f.', 'sensitivity', 'contribution', 'share'] as const;

function plainBudget(symbol: string, context: Solved['context']): readonly string[] {
  const budget = presentBudget(symbol, context);
  if (budget === undefined) return ['  It has no value with an uncertainty.'];
  const rows = budget.rows.map((row) => [
    row.input, row.value, row.uncertainty, row.type, row.distribution ?? 'several', row.degreesOfFreedom, row.sensitivity, row.contribution,
    row.covarianceShare === undefined ? row.share : `${row.share} and ${row.covarianceShare} by correlation`,
  ]);
  const widths = HEADS.map((head, i) => Math.max(head.length, ...rows.map((row) => row[i]?.length ?? 0)));
  const line = (cells: readonly string[]): string => `  ${cells.map((cell, i) => cell.padEnd(widths[i] ?? 0)).join('  ')}`.trimEnd();
  return [line(HEADS), ...rows.map(line), `  ${budget.total.sentence}`];
}
