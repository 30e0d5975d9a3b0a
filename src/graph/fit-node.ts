import {
  fitLeastSquares, fitMaximumLikelihood,
  type LeastSquaresFit, type LifeDistribution, type LineModel, type Outcome, type StressScale,
} from '../core/fatigue/index.ts';
import type { Problem, Result } from '../core/problem/index.ts';
import type { Dimension } from '../core/units/index.ts';
import { FIT_WORDS, type CellBlock, type FitCell, type FitSetting } from '../sheet/index.ts';
import { PUBLISHED, publishedState, publishedUnit, type FitSettings } from './fit-symbols.ts';
import { definedSymbols, type Names } from './names.ts';
import type { PlanContext, PlanNode } from './plan.ts';
import { filterRows, numbersOf, placesOf, valuesOf, type TableState } from './table/index.ts';
import type { CellState, FitState } from './types.ts';

const USUAL: FitSettings = { method: 'least-squares', life: 'lognormal', model: 'linear', stress: 'log', group: 'all' };

/** A line fitted to a table: a node that defines several symbols with their covariance. */
export function fitNode(block: CellBlock, cell: FitCell, context: PlanContext): PlanNode {
  const settings = settingsOf(cell, context.names);
  const early = [
    ...cell.problems, ...(context.problems.get(block.id) ?? []), ...settings.problems, ...publishedProblems(cell),
  ].map((problem) => ({ ...problem, cell: block.id }));
  const symbols = definedSymbols(cell);
  return {
    cellId: block.id,
    symbols,
    inputs: context.names.tables.has(cell.table) ? [{ table: true, cellId: cell.table }] : [],
    signature: JSON.stringify(['fit', block.body, settings, early]),
    compute: (_symbols, tables): CellState => {
      const [trouble] = early;
      const fitted = trouble === undefined ? fitTable(cell, settings.words, tables.get(cell.table)) : undefined;
      const problem = trouble ?? (fitted?.ok === false ? { ...fitted.problem, cell: block.id } : undefined);
      const fit = fitted?.ok === true ? fitted.value : undefined;
      return Object.freeze({
        cellId: block.id,
        ...(fit === undefined ? {} : { fit }),
        results: new Map([...cell.symbols].map(([name, symbol]) => [symbol, publishedState(name, cell, settings.words, fit, problem)])),
        reads: [],
        problems: problem === undefined ? [] : early.length > 0 ? early : [problem],
        warnings: (fit?.fit.warnings ?? []).map((warning) => ({ ...warning, cell: block.id })),
      });
    },
  };
}

/** Dimension of a symbol that a fit publishes. */
export function fitDimension(cell: FitCell, symbol: string, names: Names): Dimension | undefined {
  const [name] = [...cell.symbols].find(([, published]) => published === symbol) ?? [];
  return name === undefined ? undefined : publishedUnit(name, settingsOf(cell, names).words).dimension;
}

function settingsOf(cell: FitCell, names: Names): { readonly words: FitSettings; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const word = (key: keyof FitSettings): string => {
    const setting: FitSetting | undefined = cell[key];
    if (setting === undefined) return USUAL[key];
    const text = 'word' in setting ? setting.word : names.chosen.get(setting.by)?.key;
    if (text === undefined) {
      problems.push({
        code: 'fit-choice',
        what: `The fit takes its ${key} from a choice${'by' in setting ? ` “${setting.by}”` : ''}, and none is made there.`,
        mend: 'Add the choice, or choose one of its options.',
        key,
      });
      return USUAL[key];
    }
    const allowed: readonly string[] | undefined = key === 'group' ? undefined : FIT_WORDS[key];
    if (allowed === undefined || allowed.includes(text)) return text;
    problems.push({ code: 'fit-word', what: `“${text}” is no ${key} that a fit knows.`, mend: `Use one of: ${allowed.join(', ')}.`, key });
    return USUAL[key];
  };
  const words = { method: word('method'), life: word('life'), model: word('model'), stress: word('stress'), group: word('group') };
  return { words, problems };
}

function publishedProblems(cell: FitCell): readonly Problem[] {
  return [...cell.symbols.keys()].filter((name) => !PUBLISHED.includes(name)).map((name) => ({
    code: 'fit-symbol',
    what: `A fit has no “${name}”.`,
    mend: `It has: ${PUBLISHED.join(', ')}.`,
    key: 'symbols',
  }));
}

/** Fits the rows of the group in question that are valid; outcomes decide on the rest. */
function fitTable(cell: FitCell, settings: FitSettings, table: TableState | undefined): Result<FitState> {
  if (table === undefined) {
    return {
      ok: false,
      problem: {
        code: 'fit-table',
        what: cell.table === '' ? 'This fit names no table yet.' : `There is no table called ${cell.table} in this sheet.`,
        mend: 'Name the table that holds the specimens.',
        key: 'table',
      },
    };
  }
  const has = (name: string): boolean => table.columns.some((column) => column.name === name);
  for (const name of ['S', 'N']) if (!has(name)) return { ok: false, problem: columnMissing(name) };
  const every = <T>(name: string, usual: T): readonly T[] =>
    has(name) ? (valuesOf(table.all, name) as readonly T[]) : Array<T>(table.rowCount).fill(usual);
  const valid = every('valid', true);
  const groups = every('group', '');
  const inGroup = (row: number): boolean => settings.group === 'all' || groups[row] === settings.group;
  const used = filterRows(table.usable, (row) => valid[row] === true && inGroup(row));
  if (settings.group !== 'all' && !groups.includes(settings.group)) return { ok: false, problem: groupUnknown(settings.group, groups) };
  const specimens = {
    stressMpa: numbersOf(used, 'S').map((pascals) => pascals / 1e6),
    cycles: numbersOf(used, 'N'),
    outcomes: (has('outcome') ? valuesOf(used, 'outcome') : Array(placesOf(used).length).fill('fracture')) as readonly Outcome[],
  };
  const stress = settings.stress as StressScale;
  const model = settings.model as LineModel;
  const rows = placesOf(used);
  if (settings.method === 'least-squares') {
    if (model === 'limit') return { ok: false, problem: limitNeedsLikelihood() };
    const fitted = fitLeastSquares(specimens, { model, stress });
    return fitted.ok ? { ok: true, value: { fit: fitted.value, residuals: (fitted.value as LeastSquaresFit).residuals, rows } } : fitted;
  }
  const fitted = fitMaximumLikelihood(specimens, { model, stress, life: settings.life as LifeDistribution });
  return fitted.ok ? { ok: true, value: { fit: fitted.value, residuals: [], rows } } : fitted;
}

function columnMissing(name: string): Problem {
  return {
    code: 'fit-column',
    what: `The table has no column ${name}.`,
    mend: 'A fit needs a column S for the stress amplitude and a column N for the cycles.',
    key: 'table',
  };
}

function groupUnknown(group: string, groups: readonly string[]): Problem {
  const known = [...new Set(groups)].filter((name) => name !== '');
  return {
    code: 'fit-group',
    what: `The table has no group “${group}”.`,
    mend: known.length > 0 ? `Its groups are: ${known.slice(0, 12).join(', ')}.` : 'Add a column group, or fit all rows.',
    key: 'group',
  };
}

function limitNeedsLikelihood(): Problem {
  return {
    code: 'fit-limit-method',
    what: 'A line with a fatigue limit can’t be found by least squares.',
    mend: 'Choose maximum likelihood, which also uses the runouts.',
    key: 'method',
  };
}
