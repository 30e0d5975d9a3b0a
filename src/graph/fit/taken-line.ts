import type { Problem, Result } from '../../core/problem/index.ts';
import { fail } from '../../core/problem/index.ts';
import type { CellBlock, FitCell } from '../../sheet/index.ts';
import { publishedStates, type FitSettings } from './published.ts';
import type { NodeOfForm } from '../form.ts';
import { toldAt } from '../inputs.ts';
import { awaitsLine, LINE_AWAITED } from './line-awaited.ts';
import { readSnapshot, type LineSnapshot } from './line-snapshot.ts';
import type { CellState, FitState } from '../types.ts';

/** Whether the line of a fit comes from another sheet, or has still to. */
export function isTaken(cell: FitCell): boolean {
  return cell.finds === 'line' && (cell.snapshot !== undefined || awaitsLine(cell));
}

/** Settings of the line that was taken; undefined where there is none that can be used. */
export function takenSettings(cell: FitCell): FitSettings | undefined {
  const taken = cell.snapshot === undefined ? undefined : readSnapshot(cell.snapshot);
  return taken?.ok === true ? { ...taken.value.fit, group: taken.value.source.group } : undefined;
}

/**
 * A fit whose line was fitted in another sheet. As long as there is none the cell itself is in no trouble; its symbols are,
 * which is told where one of them is read.
 */
export function takenNode(block: CellBlock, cell: FitCell, early: readonly Problem[], usual: FitSettings): NodeOfForm {
  const taken = cell.snapshot === undefined ? fail(awaited(cell)) : usableSnapshot(cell, cell.snapshot);
  const told = taken.ok || taken.problem.code === LINE_AWAITED ? early : [...early, { ...taken.problem, cell: block.id }];
  const problem = told[0] ?? (taken.ok ? undefined : { ...taken.problem, cell: block.id });
  const fit: FitState | undefined = taken.ok && problem === undefined
    ? { fit: taken.value.fit, residuals: [], rows: [], group: taken.value.source.group, taken: taken.value.source }
    : undefined;
  const settings = takenSettings(cell) ?? usual;
  const state: CellState = Object.freeze({
    cellId: block.id,
    ...(fit === undefined ? {} : { fit }),
    results: publishedStates(cell, settings, fit, problem),
    reads: [],
    problems: told,
    warnings: toldAt(block.id, fit?.fit.warnings ?? []),
  });
  return { inputs: [], signature: JSON.stringify(['taken', block.body, early]), compute: () => state };
}

function awaited(cell: FitCell): Problem {
  const where = cell.label === undefined ? 'there' : `at “${cell.label}”`;
  return {
    code: LINE_AWAITED,
    what: 'No fitted line has been brought in yet.',
    mend: `Take one from another sheet ${where}.`,
  };
}

function usableSnapshot(cell: FitCell, snapshot: ReadonlyMap<string, string>): Result<LineSnapshot> {
  if (cell.table !== '') return fail(tableToo());
  const read = readSnapshot(snapshot);
  if (!read.ok) return read;
  const unfit = unfitFor(cell, read.value);
  return unfit === undefined ? read : fail(unfit);
}

/** Why a line is of no use to a fit, whose settings are what its sheet asks of a line; undefined where it is. */
export function unfitFor(cell: FitCell, { fit }: LineSnapshot): Problem | undefined {
  for (const key of ['method', 'model', 'life', 'stress'] as const) {
    const asked = cell[key];
    if (asked !== undefined && 'word' in asked && asked.word !== fit[key]) return otherwiseMade(key, asked.word, fit[key]);
  }
  return undefined;
}

function tableToo(): Problem {
  return {
    code: 'fit-table-and-line',
    what: 'This fit names a table and holds a line from another sheet.',
    mend: 'Take one of the two out of its own text.',
    key: 'snapshot',
  };
}

const WORDS: Readonly<Record<string, string>> = {
  linear: 'a straight line',
  quadratic: 'a curved line',
  limit: 'a line with a fatigue limit',
  log: 'a line over the logarithm of stress',
  plain: 'a line over stress itself',
  lognormal: 'lognormal lives',
  weibull: 'Weibull lives',
};

function otherwiseMade(key: string, asked: string, has: string): Problem {
  const words = (word: string): string => WORDS[word] ?? `a line by ${word.replace('-', ' ')}`;
  return {
    code: 'line-otherwise-made',
    what: `This sheet’s formulas are made for ${words(asked)}, and what was brought in has ${words(has)}.`,
    mend: 'Fit such a line in the other sheet and take it again.',
    key,
  };
}
