/**
 * The headless command: evaluates a worksheet and prints every symbol, check and error.
 * Exit 0 when no cell is in error, 1 when one is (the rest is printed still), 2 for bad usage. stdout holds the answer only.
 */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { standardUncertainty, summariseDraws } from './core/estimate/index.ts';
import type { LineFit } from './core/fatigue/index.ts';
import { createRandom } from './core/numeric/index.ts';
import { problemSentence, type Problem, type Result } from './core/problem/index.ts';
import { counterpart, fromSI, intervalFromSI, type Unit } from './core/units/index.ts';
import { createSheetGraph, drawSheet, rightStates, type Draws, type SheetStates, type SymbolState } from './graph/index.ts';
import {
  heldContext, heldProblems, isMovedBySlips, presentCheck, presentSlipsOn, presentSymbol, SLIP_MARK, slipListProblems, unitSystemOf, type PresentContext,
} from './report/index.ts';
import { acceptText, applyEdit, enterText, parseSheet, switchSlip, type SheetDocument } from './sheet/index.ts';

const USAGE =
  'usage: npm run --silent solve -- FILE [--set "SYMBOL=VALUE"]... [--draws N] [--seed N] [--json]\n' +
  '  --set    enters a value as the sheet\'s blank takes it: "d=6.31 mm", "d=6.31 ± 0.02 mm", "d=[6.31, 6.33] mm", "material=other-steel"\n' +
  '  --slip   switches a slip of the sheet on, "I.radius"; what it moves is marked\n' +
  '  --rows   "TABLE=FILE.csv" fills a table\n' +
  '  --draws  propagates distributions with N draws (JCGM 101); --seed changes the draws\n' +
  '  --json   prints JSON';

const DEFAULT_SEED = 20250101;
const MOST_DRAWS = 10_000_000;

class UsageError extends Error {}

interface Options {
  readonly file: string;
  readonly set: readonly string[];
  readonly rows: readonly string[];
  readonly slip: readonly string[];
  readonly draws: number;
  readonly seed: number;
  readonly json: boolean;
}

interface Answer {
  readonly title: string;
  /** Slips switched on: values with a `right` of their own are then wrong on purpose. */
  readonly slips: readonly string[];
  readonly values: Readonly<Record<string, unknown>>;
  /** Only where states are held. */
  readonly held?: readonly { readonly name: string; readonly values: Readonly<Record<string, unknown>> }[];
  /** Only where the sheet has fits. */
  readonly fits?: Readonly<Record<string, unknown>>;
  readonly checks: readonly { readonly cell: string; readonly holds: boolean | null; readonly message: string }[];
  readonly errors: readonly { readonly cell: string; readonly message: string }[];
}

function readOptions(args: readonly string[]): Options {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: {
      set: { type: 'string', multiple: true, default: [] },
      rows: { type: 'string', multiple: true, default: [] },
      slip: { type: 'string', multiple: true, default: [] },
      draws: { type: 'string' },
      seed: { type: 'string' },
      json: { type: 'boolean', default: false },
    },
  });
  const [file, ...rest] = positionals;
  if (file === undefined) throw new UsageError('Name a worksheet file.');
  if (rest.length > 0) throw new UsageError(`One file at a time; what is ${rest.join(' ')}?`);
  return {
    file,
    set: values.set,
    rows: values.rows,
    slip: values.slip,
    draws: wholeNumber(values.draws, '--draws', 0, 2, MOST_DRAWS),
    seed: wholeNumber(values.seed, '--seed', DEFAULT_SEED, 0, 2 ** 32 - 1),
    json: values.json,
  };
}

function wholeNumber(text: string | undefined, name: string, absent: number, low: number, high: number): number {
  if (text === undefined) return absent;
  const value = Number(text);
  if (!Number.isInteger(value) || value < low || value > high) {
    throw new UsageError(`${name} takes a whole number from ${low} to ${high}, not “${text}”.`);
  }
  return value;
}

function openSheet({ file, set, rows, slip }: Options): SheetDocument {
  const text = acceptText(contentOf(file));
  if (!text.ok) throw new UsageError(problemSentence(text.problem));
  let document = parseSheet(text.value);
  const take = (edited: Result<SheetDocument>): void => {
    if (!edited.ok) throw new UsageError(problemSentence(edited.problem));
    document = edited.value;
  };
  for (const assignment of rows) {
    const [table, source] = partsOf(assignment, '--rows takes TABLE=FILE.csv');
    const known = document.blocks.flatMap((block) => (block.kind === 'cell' && block.cell.kind === 'table' ? [block.id] : []));
    if (!known.includes(table)) {
      throw new UsageError(`This sheet has no table called ${table}.${known.length > 0 ? ` It has: ${known.join(', ')}.` : ''}`);
    }
    const csv = acceptText(contentOf(source));
    if (!csv.ok) throw new UsageError(problemSentence(csv.problem));
    take(applyEdit(document, { do: 'replace rows', cellId: table, text: csv.value }));
  }
  // After the rows, since a choice may name a group that only they have.
  for (const assignment of set) {
    const [target, value] = partsOf(assignment, '--set takes SYMBOL=VALUE');
    take(enterText(document, target, value.trim()));
  }
  for (const id of slip) take(applyEdit(document, switchSlip(document, id, true)));
  return document;
}

function partsOf(assignment: string, usage: string): readonly [string, string] {
  const [, target, value] = /^\s*([^=]+?)\s*=(.*)$/s.exec(assignment) ?? [];
  if (target === undefined || value === undefined) throw new UsageError(`${usage}, not “${assignment}”.`);
  return [target, value];
}

function contentOf(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    const reason = code === 'ENOENT' ? 'There is no such file' : code === 'EISDIR' ? 'That is a folder' : 'It cannot be read';
    throw new UsageError(`${reason}: ${file}`);
  }
}

async function solve(options: Options): Promise<Answer> {
  const document = openSheet(options);
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  const context: PresentContext = { document, states, system: unitSystemOf(document), reveal: true };
  const draws =
    options.draws > 0 ? drawSheet(graph.plan(), states, createRandom(options.seed), options.draws) : undefined;
  const answer = {
    title: document.frontMatter.entries.get('title') ?? '',
    slips: presentSlipsOn(context).map(({ id }) => id),
    values: valueEntries(context, (symbol, unit) => drawsEntry(symbol, unit, draws, options)),
    ...heldEntries(context),
    ...fitEntries(document, states),
    checks: checkEntries(context),
    errors: errorEntries(context),
  };
  graph.dispose();
  return answer;
}

function valueEntries(context: PresentContext, more: (symbol: string, unit: Unit | undefined) => Entry): Answer['values'] {
  return Object.fromEntries(context.states.symbols.flatMap((symbol) => {
    const state = context.states.symbol(symbol);
    if (state === undefined) return [];
    const unit = shownUnit(symbol, state, context);
    return [[symbol, { ...valueEntry(symbol, state, unit, context), ...slipEntry(symbol, context), ...more(symbol, unit) }]];
  }));
}

/** The same for every held state. */
function heldEntries(context: PresentContext): Pick<Answer, 'held'> {
  const { held } = context.document.frontMatter;
  return held.length === 0 ? {} : { held: held.map((state) => ({ name: state.name, values: valueEntries(heldContext(state, context), () => ({})) })) };
}

/** What was typed keeps its unit; what is derived is shown in the sheet's system. */
function shownUnit(symbol: string, state: SymbolState, { document, states, system }: PresentContext): Unit | undefined {
  if (state.unit === undefined) return undefined;
  const definer = states.definedBy(symbol);
  const block = document.blocks.find(({ id }) => id === definer);
  return block?.kind === 'cell' && block.cell.kind === 'given' ? state.unit : counterpart(state.unit, system);
}

type Entry = Readonly<Record<string, unknown>>;

function valueEntry(symbol: string, state: SymbolState, unit: Unit | undefined, context: PresentContext): Entry {
  const presented = presentSymbol(symbol, context);
  const named = unit === undefined ? {} : { unit: unit.name };
  const none = { value: null, ...named, u: null, si: null, si_u: null };
  if (presented?.kind === 'range') return { ...none, range: presented.word, text: presented.text };
  if (presented?.kind === 'problem') return { ...none, text: problemSentence(presented.problem) };
  if (state.status !== 'value' || unit === undefined || presented === undefined) return none;
  const uncertainty = standardUncertainty(state.estimate);
  return {
    value: fromSI(state.estimate.value, unit),
    ...named,
    u: intervalFromSI(uncertainty, unit),
    si: state.estimate.value,
    si_u: uncertainty,
    text: presented.text,
  };
}

/** What is right where a slip has moved a value; null where that has no number. */
function slipEntry(symbol: string, context: PresentContext): Entry {
  if (!isMovedBySlips(symbol, context)) return {};
  const states = rightStates(context.document, context.states);
  const right = states.symbol(symbol);
  const unit = right === undefined ? undefined : shownUnit(symbol, right, { ...context, states });
  return { movedBySlip: true, right: right?.status === 'value' && unit !== undefined ? fromSI(right.estimate.value, unit) : null };
}

function drawsEntry(symbol: string, unit: Unit | undefined, draws: Draws | undefined, options: Options): Entry {
  if (draws === undefined) return {};
  const column = draws.get(symbol);
  if (column === undefined || unit === undefined) return { mc: null };
  const about = { draws: options.draws, seed: options.seed };
  if (typeof column === 'number') {
    const value = fromSI(column, unit);
    return { mc: { mean: value, u: 0, lo: value, hi: value, ...about } };
  }
  const finite = column.filter((value) => Number.isFinite(value));
  const lost = column.length - finite.length;
  if (finite.length < 2) return { mc: null };
  const { mean, standardDeviation, low, high } = summariseDraws(finite);
  return {
    mc: {
      mean: fromSI(mean, unit),
      u: intervalFromSI(standardDeviation, unit),
      lo: fromSI(low, unit),
      hi: fromSI(high, unit),
      ...about,
      ...(lost === 0 ? {} : { withoutValue: lost }),
    },
  };
}

/** Every fit that has a result, by cell id. */
function fitEntries(document: SheetDocument, states: SheetStates): Pick<Answer, 'fits'> {
  const fits: Record<string, unknown> = {};
  for (const block of document.blocks) {
    if (block.kind !== 'cell' || block.cell.kind !== 'fit' || block.cell.finds !== 'line') continue;
    const state = states.cell(block.id)?.fit;
    fits[block.id] = state === undefined ? null : { ...fitEntry(state.fit), ...(state.taken === undefined ? {} : { taken: state.taken }) };
  }
  return Object.keys(fits).length > 0 ? { fits } : {};
}

function fitEntry(fit: LineFit): Entry {
  const { method, model, life, stress, n, failures, runouts, covariance, s, logLikelihood, aic, lackOfFit } = fit;
  const parameters = Object.fromEntries(fit.parameters.map(({ name, value, se, lo, hi }) => [name, { value, se, lo, hi }]));
  return {
    method, model, life, stress, n, failures, runouts, parameters, covariance, s, logLikelihood, aic,
    lackOfFit: lackOfFit === null ? null : { F: lackOfFit.F, df1: lackOfFit.df1, df2: lackOfFit.df2, p: lackOfFit.p },
    replication: fit.replication.percent,
  };
}

function checkEntries(context: PresentContext): Answer['checks'] {
  return context.document.blocks.flatMap((block) => {
    if (block.kind !== 'cell' || block.cell.kind !== 'check') return [];
    const { holds, message } = presentCheck(block.cell, context);
    return [{ cell: block.id, holds: holds ?? null, message }];
  });
}

function errorEntries(context: PresentContext): Answer['errors'] {
  const { document, states } = context;
  const entry = (cell: string, problem: Problem) => ({
    cell,
    ...(problem.key === undefined ? {} : { key: problem.key }),
    ...(problem.line === undefined ? {} : { line: problem.line }),
    message: problemSentence(problem),
  });
  const whole = [...document.problems, ...document.frontMatter.problems, ...slipListProblems(document), ...heldProblems(context)].map((problem) => entry('', problem));
  const cells = document.blocks.flatMap(({ id }) => (states.cell(id)?.problems ?? []).map((problem) => entry(id, problem)));
  return [...whole, ...cells];
}

function printPlain({ title, slips, values, checks, errors }: Answer): string {
  const lines = [title, ''];
  if (slips.length > 0) lines.push(`SLIPS SWITCHED ON: ${slips.join(', ')}. Values marked ${SLIP_MARK} are wrong on purpose and no results.`, '');
  for (const [symbol, entry] of Object.entries(values)) {
    const { text, movedBySlip } = entry as { text?: unknown; movedBySlip?: true };
    lines.push(`${symbol.padEnd(10)} ${String(text ?? '')}${movedBySlip === true ? ` ${SLIP_MARK}` : ''}`);
  }
  if (checks.length > 0) lines.push('', 'Checks');
  for (const { cell, holds, message } of checks) {
    lines.push(`  ${holds === null ? 'open' : holds ? 'holds' : 'does not hold'}  ${cell}: ${message}`);
  }
  if (errors.length > 0) lines.push('', 'Errors');
  for (const { cell, message } of errors) lines.push(`  ${cell === '' ? 'sheet' : cell}: ${message}`);
  return lines.join('\n');
}

try {
  const options = readOptions(process.argv.slice(2));
  const answer = await solve(options);
  process.stdout.write(`${options.json ? JSON.stringify(answer, null, 2) : printPlain(answer)}\n`);
  process.exitCode = answer.errors.length > 0 ? 1 : 0;
} catch (error) {
  const badUsage = error instanceof UsageError || (error instanceof TypeError && 'code' in error);
  if (!badUsage) throw error;
  process.stderr.write(`${error instanceof Error ? error.message : ''}\n\n${USAGE}\n`);
  process.exitCode = 2;
}
