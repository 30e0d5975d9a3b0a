import { didYouMean, nearNames, type Problem, type Result } from '../../core/problem/index.ts';
import type { Dimension } from '../../core/units/index.ts';
import type { CellBlock, FitCell } from '../../sheet/index.ts';
import { askedSymbols, askedTables, askedValues, readAsks } from '../findings/read-asks.ts';
import { FINDINGS_FORMS, type FindingsForm, type FormReading, type PublishedValue } from '../findings/index.ts';
import { settingsOf } from './line-node.ts';
import { nameOf, type NodeOfForm } from '../form.ts';
import { resolveInputs, toldAt, valuesOf } from '../inputs.ts';
import type { Names, NodeInput, CompileContext } from '../compiled-types.ts';
import { someNames } from '../waits.ts';
import { blockedBy } from '../step.ts';
import { tableMissing } from './specimens.ts';
import { tableReads, type TableState } from '../table/index.ts';
import type { CellState, FitState, SymbolState } from '../types.ts';

/** What follows from a line or from the specimens: a node that reads a table or another fit, and publishes symbols. */
export function findingsNode(block: CellBlock, cell: FitCell, context: CompileContext): NodeOfForm {
  const form = formOf(cell);
  if (form === undefined) throw new Error(`${cell.id} finds a line`);
  const { names } = context;
  const settings = settingsOf(cell, names);
  const asked = readAsks(form.asks, cell, context);
  const reads = [...new Set(asked.symbols.values())];
  const { inputs, problems: unknown } = resolveInputs(reads, context, block.id, 'asks');
  const early = toldAt(block.id, [
    ...cell.problems, ...(context.problems.get(block.id) ?? []), ...settings.problems, ...asked.problems, ...unknown,
    ...ofProblems(cell, names), ...publishedProblems(cell, form),
  ]);
  const all: readonly NodeInput[] = [
    ...inputs,
    ...[...new Set([cell.table, ...asked.tables.values()])].filter((id) => names.tables.has(id)).map((id) => ({ table: true as const, cellId: id })),
    ...(cell.of !== undefined && names.fits.has(cell.of) ? [{ fit: true as const, cellId: cell.of }] : []),
  ];
  const unitOf = (name: string) => form.unitOf(name, cell, names);
  const units = [...cell.symbols.keys()].map((name) => unitOf(name)?.name);
  const state = (more: Partial<CellState>, published: (name: string) => PublishedValue | { readonly waiting: SymbolState }): CellState =>
    Object.freeze({
      cellId: block.id,
      reads,
      problems: [],
      warnings: [],
      ...more,
      results: new Map([...cell.symbols].map(([name, symbol]) => [symbol, publishedState(published(name), unitOf(name))])),
    });
  return {
    // A cell on a loop reads nobody, as a step does.
    inputs: early.length > 0 ? [] : all,
    signature: JSON.stringify(['findings', block.body, settings, [...asked.words], [...asked.tables], all, units, early]),
    compute: (symbols, tables, fits): CellState => {
      const [trouble] = early;
      if (trouble !== undefined) return state({ problems: early }, () => ({ problem: trouble }));
      const blocked = blockedBy(reads, symbols, undefined) ?? waitsForLine(cell, fits);
      if (blocked !== undefined) {
        return state(blocked.status === 'problem' ? { waiting: blocked.problem } : { waiting: noValue(blocked, reads.filter((name) => symbols.get(name)?.status !== 'value')) }, () => ({ waiting: blocked }));
      }
      const values = askedValues(form.asks, asked, valuesOf(reads, symbols));
      const found = values.ok ? form.find({ ...readingOf(cell, asked.tables, tables, fits), settings: settings.words, quantity: (name) => values.value.get(name), word: (name) => asked.words.get(name) }) : values;
      if (!found.ok) {
        const problem = { ...found.problem, cell: block.id };
        return state({ problems: [problem] }, () => ({ problem }));
      }
      const { findings, warnings, values: published } = found.value;
      return state({ findings, warnings: toldAt(block.id, [...asked.warnings, ...warnings]) }, (name) => published.get(name) ?? { problem: notAsked(name) });
    },
  };
}

/** Dimension of a symbol that such a cell publishes. */
export function findingsDimension(cell: FitCell, symbol: string, names: Names): Dimension | undefined {
  const name = nameOf(cell, symbol);
  return name === undefined ? undefined : formOf(cell)?.unitOf(name, cell, names)?.dimension;
}

/** Symbols that a fit rests on: those asked about, and those that its table's or its line's derived columns read. */
export function symbolsReadByFit(cell: FitCell, names: Names): readonly string[] {
  const readsOf = (id: string | undefined): readonly string[] => {
    const table = names.tables.get(id ?? '');
    return table === undefined ? [] : tableReads(table);
  };
  const asks = formOf(cell)?.asks ?? [];
  const of = cell.of === undefined || formOf(cell) === undefined ? undefined : names.fits.get(cell.of);
  return [...askedSymbols(asks, cell), ...[cell.table, ...askedTables(asks, cell), of?.table].flatMap(readsOf)];
}

function formOf(cell: FitCell): FindingsForm | undefined {
  return cell.finds === 'line' ? undefined : FINDINGS_FORMS[cell.finds];
}

/** What a form can read of other cells. */
function readingOf(
  cell: FitCell, asked: ReadonlyMap<string, string>, tables: ReadonlyMap<string, TableState>, fits: ReadonlyMap<string, FitState>,
): Pick<FormReading, 'cell' | 'line' | 'table' | 'askedTable'> {
  const tableOf = (id: string): Result<TableState> => {
    const table = tables.get(id);
    return table === undefined ? { ok: false, problem: tableMissing(id) } : { ok: true, value: table };
  };
  const line = fits.get(cell.of ?? '');
  return {
    cell,
    line: () => (line === undefined ? { ok: false, problem: lineMissing() } : { ok: true, value: line }),
    table: () => tableOf(cell.table),
    askedTable: (name) => {
      const id = asked.get(name);
      return id === undefined ? undefined : tableOf(id);
    },
  };
}

function publishedState(value: PublishedValue | { readonly waiting: SymbolState }, unit: SymbolState['unit']): SymbolState {
  const shown = unit === undefined ? {} : { unit };
  if ('problem' in value) return Object.freeze({ status: 'problem', problem: value.problem, ...shown });
  if ('waiting' in value) return Object.freeze({ ...value.waiting, ...shown });
  if (unit === undefined) throw new Error('a published symbol without a unit');
  if ('range' in value) return Object.freeze({ status: 'range', word: value.range, unit });
  return Object.freeze({ status: 'value', estimate: value.estimate, unit });
}

/** The fit that is asked has its own trouble, which is told there. */
function waitsForLine(cell: FitCell, fits: ReadonlyMap<string, FitState>): SymbolState | undefined {
  if (cell.of === undefined || fits.has(cell.of)) return undefined;
  return {
    status: 'problem',
    problem: { code: 'finding-waits', what: `This waits for the fit ${cell.of}.`, mend: `Mend ${cell.of} first.` },
    origin: cell.of,
  };
}

/** What is still to be filled in, or which of the symbols that it reads have no value where they stand. */
function noValue(blocked: SymbolState, without: readonly string[]): Problem {
  const waitsFor = blocked.status === 'range' ? blocked.waitsFor : undefined;
  const what = waitsFor === undefined ? `This can’t be told while there is no value of ${someNames(without)}.` : `This waits for ${someNames(waitsFor)}.`;
  return { code: 'finding-untold', what, mend: 'What is missing is said at its own line.' };
}

function notAsked(name: string): Problem {
  return { code: 'finding-none', what: `${name} is not found here, since what it takes is not asked.`, mend: 'Ask for it under `asks`, or take the symbol out.' };
}

function ofProblems(cell: FitCell, names: Names): readonly Problem[] {
  if (cell.of === undefined) return [];
  const of = names.fits.get(cell.of);
  if (of?.finds === 'line') return [];
  const lines = [...names.fits.values()].filter(({ finds }) => finds === 'line').map(({ id }) => id);
  const near = nearNames(cell.of, lines);
  return [{
    code: 'fit-of',
    what: of === undefined ? `There is no fit called ${cell.of} in this sheet.` : `The fit ${cell.of} finds no line.`,
    mend: near.length > 0 ? `Did you mean ${near.join(' or ')}?` : lines.length > 0 ? `Name one of: ${lines.join(', ')}.` : 'Add a fit that finds a line.',
    key: 'of',
  }];
}

function lineMissing(): Problem {
  return { code: 'fit-of-missing', what: 'This does not say yet which fit’s line is asked.', mend: 'Add a line such as `of: line` with the id of a fit.', key: 'of' };
}

function publishedProblems(cell: FitCell, form: FindingsForm): readonly Problem[] {
  return [...cell.symbols.keys()].filter((name) => !form.published.includes(name)).map((name) => ({
    code: 'finding-unknown',
    what: `There is no “${name}” among what is found here.`,
    mend: form.published.length > 0 ? `${didYouMean(name, form.published)}It has: ${form.published.join(', ')}.` : 'It publishes nothing.',
    key: 'symbols',
  }));
}
