import { composed, isolated, isolatedQuotes } from '../core/problem/index.ts';
import { hasBudget, isMovedBySlips, presentBudget, presentSamples, SLIP_MARK } from '../report/index.ts';
import type { Solved } from './answer.ts';
import type { Answer, LeftOutRow } from './types.ts';

/** The answer as text for a terminal. */
export function plainText({ answer, context, sampled }: Solved): string {
  const { title, trials, slips, values, budgets = {}, checks, open, errors, warnings, leftOut } = answer;
  const lines = [isolated(title), ''];
  if (trials !== undefined) {
    const list = Object.entries(trials).map(([symbol, text]) => composed`${symbol} = ${text}`).join('; ');
    lines.push(`TRIAL VALUES IN PLACE OF WHAT WAS MEASURED: ${list}.`, '');
  }
  if (slips.length > 0) lines.push(`SLIPS SWITCHED ON: ${slips.join(', ')}. Values marked ${SLIP_MARK} are wrong on purpose, not results.`, '');
  for (const [symbol, entry] of Object.entries(values)) {
    const { text } = entry as { text?: unknown };
    lines.push(`${symbol.padEnd(10)} ${isolatedQuotes(String(text ?? ''))}${mark(symbol, context)}`);
  }
  if (sampled.size > 0) lines.push('', 'Draws', ...plainSamples({ context, sampled }));
  for (const symbol of Object.keys(budgets)) lines.push('', `Budget of ${symbol}${mark(symbol, context)}`, ...plainBudget(symbol, context));
  lines.push(...plainFindings(answer));
  if (checks.length > 0) lines.push('', 'Checks');
  for (const { cell, holds, message } of checks) {
    lines.push(`  ${holds === null ? 'open' : holds ? 'holds' : 'does not hold'}  ${isolated(cell)}: ${isolatedQuotes(message)}`);
  }
  if (open.length > 0) lines.push('', `Still to be filled in: ${open.map(isolated).join(', ')}`);
  for (const [head, told] of [['Errors', errors], ['Warnings', warnings]] as const) {
    if (told.length > 0) lines.push('', head, ...shortened(told.map(({ cell, line, message }) => `  ${cell === '' ? 'sheet' : isolated(cell)}${lineWords(line, message)}: ${isolatedQuotes(message)}`)));
  }
  if (leftOut.length > 0) lines.push('', `Rows left out (${leftOut.length})`, ...shortened(leftOut.map(plainRow)));
  return lines.join('\n');
}

/** A table may have a hundred thousand rows; JSON has them all. */
const MOST_LINES = 200;

function shortened(lines: readonly string[]): readonly string[] {
  return lines.length <= MOST_LINES ? lines : [...lines.slice(0, MOST_LINES), `  and ${lines.length - MOST_LINES} more, which --json prints`];
}

/** The line of the file, where the sentence does not begin with it. */
function lineWords(line: number | undefined, message: string): string {
  return line === undefined || message.startsWith(`Line ${line}:`) ? '' : `, line ${line}`;
}

function plainRow({ cell, row, specimen, reasons }: LeftOutRow): string {
  const why = reasons.map(({ column, message }) => `${column === undefined ? '' : composed`${column}: `}${isolatedQuotes(message)}`).join(' ');
  return `  ${isolated(cell)}, row ${row}${specimen === undefined ? '' : composed` (${specimen})`}: ${why}`;
}

/** What fits find that find no line. */
function plainFindings({ findings = {} }: Answer): readonly string[] {
  return Object.entries(findings).flatMap(([cell, { label, settings, advice, sentences, facts, tables }]) => [
    '', `${label === '' ? isolated(cell) : composed`${label} (${cell})`}${settings.length === 0 ? '' : `: ${settings.map(isolatedQuotes).join('; ')}`}`,
    ...[advice ?? [], sentences].flat().map((sentence) => `  ${isolatedQuotes(sentence)}`),
    ...tables.flatMap(({ caption, heads, rows, note }) => [composed`  ${caption}`, ...aligned(heads, rows).map((line) => `  ${line}`), ...(note === undefined ? [] : [`  ${isolatedQuotes(note)}`])]),
    ...facts.map(({ name, text }) => composed`  ${name}: ${text}`),
  ]);
}

/** Columns below their heads, indented. */
function aligned(heads: readonly string[], rows: readonly (readonly string[])[]): readonly string[] {
  const widths = heads.map((head, i) => Math.max(head.length, ...rows.map((row) => row[i]?.length ?? 0)));
  return [heads, ...rows].map((cells) => `  ${cells.map((cell, i) => isolated(cell.padEnd(widths[i] ?? 0))).join('  ')}`.trimEnd());
}

/** Behind what a slip has moved. */
function mark(symbol: string, context: Solved['context']): string {
  return isMovedBySlips(symbol, context) ? ` ${SLIP_MARK}` : '';
}

/** Of the results; what is measured has the distribution that it was given. */
function plainSamples({ context, sampled }: Pick<Solved, 'context' | 'sampled'>): readonly string[] {
  return [...sampled].flatMap(([symbol, result]) => {
    const state = context.states.symbol(symbol);
    if (typeof result === 'number' || state === undefined || !hasBudget(symbol, context)) return [];
    const told = presentSamples(result, state, context);
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
  return [...aligned(HEADS, rows), `  ${budget.total.sentence}`];
}
