import {
  fitLeastSquares, fitMaximumLikelihood,
  type LeastSquaresFit, type LifeDistribution, type LineModel, type StressScale,
} from '../../core/fatigue/index.ts';
import { didYouMean, type Problem, type Result } from '../../core/problem/index.ts';
import type { Dimension } from '../../core/units/index.ts';
import { FIT_WORDS, type CellBlock, type FitCell, type FitSetting } from '../../sheet/index.ts';
import { PUBLISHED, publishedStates, publishedUnit, type FitSettings } from './published.ts';
import { besideLine } from './models-beside.ts';
import { nameOf, type NodeOfForm } from '../form.ts';
import { toldAt } from '../inputs.ts';
import type { Names, CompileContext } from '../compiled-types.ts';
import { isTaken, takenNode, takenSettings } from './taken-line.ts';
import { openState } from '../step.ts';
import { specimensOf, tableMissing } from './specimens.ts';
import type { TableState } from '../table/index.ts';
import type { CellState, FitState } from '../types.ts';

const USUAL: FitSettings = { method: 'least-squares', life: 'lognormal', model: 'linear', stress: 'log', group: 'all' };

/** A line fitted to a table: a node that defines several symbols with their covariance. */
export function fitNode(block: CellBlock, cell: FitCell, context: CompileContext): NodeOfForm {
  const settings = settingsOf(cell, context.names);
  const early = toldAt(block.id, [...cell.problems, ...(context.problems.get(block.id) ?? []), ...settings.problems, ...publishedProblems(cell)]);
  if (isTaken(cell)) return takenNode(block, cell, early, settings.words);
  return {
    // A cell on a loop reads nobody, as a step does.
    inputs: early.length === 0 && context.names.tables.has(cell.table) ? [{ table: true, cellId: cell.table }] : [],
    signature: JSON.stringify(['fit', block.body, settings, early]),
    compute: (_symbols, tables): CellState => {
      const [trouble] = early;
      const table = tables.get(cell.table);
      if (trouble === undefined && table !== undefined && table.rowCount === table.blank) return rowsAwaited(block, cell, settings.words);
      const fitted = trouble === undefined ? fitTable(cell, settings.words, table) : undefined;
      const problem = trouble ?? (fitted?.ok === false ? { ...fitted.problem, cell: block.id } : undefined);
      const fit = fitted?.ok === true ? fitted.value : undefined;
      return Object.freeze({
        cellId: block.id,
        ...(fit === undefined ? {} : { fit }),
        results: publishedStates(cell, settings.words, fit, problem),
        reads: [],
        problems: problem === undefined ? [] : early.length > 0 ? early : [problem],
        warnings: toldAt(block.id, fit?.fit.warnings ?? []),
      });
    },
  };
}

/** A table that nobody has filled in is in nobody's error. */
function rowsAwaited(block: CellBlock, cell: FitCell, words: FitSettings): CellState {
  const results = new Map([...cell.symbols].map(([name, symbol]) => [symbol, openState(publishedUnit(name, words), 'rows of its table')]));
  return Object.freeze({ cellId: block.id, results, reads: [], problems: [], warnings: [] });
}

/** Dimension of a symbol that a fit publishes. */
export function fitDimension(cell: FitCell, symbol: string, names: Names): Dimension | undefined {
  const name = nameOf(cell, symbol);
  return name === undefined ? undefined : publishedUnit(name, takenSettings(cell) ?? settingsOf(cell, names).words).dimension;
}

/** Settings in force: words of the cell's own, of the choices that it names, or the usual ones. */
export function settingsOf(cell: FitCell, names: Names): { readonly words: FitSettings; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const word = (key: keyof FitSettings): string => {
    const setting: FitSetting | undefined = cell[key];
    if (setting === undefined) return USUAL[key];
    const text = 'word' in setting ? setting.word : (names.chosen.get(setting.by)?.key ?? groupTyped(key, setting.by, names));
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

/** A choice may name a group that is none of its options; whether the table has it is seen with its rows. */
function groupTyped(key: keyof FitSettings, choiceId: string, names: Names): string | undefined {
  const typed = key === 'group' ? names.otherKeys.get(choiceId)?.typed : undefined;
  return typed === '' ? undefined : typed;
}

function publishedProblems(cell: FitCell): readonly Problem[] {
  return [...cell.symbols.keys()].filter((name) => !PUBLISHED.includes(name)).map((name) => ({
    code: 'fit-symbol',
    what: `A fit has no “${name}”.`,
    mend: `${didYouMean(name, PUBLISHED)}It has: ${PUBLISHED.join(', ')}.`,
    key: 'symbols',
  }));
}

/** Fits the rows of the group in question that are valid; outcomes decide on the rest. */
function fitTable(cell: FitCell, settings: FitSettings, table: TableState | undefined): Result<FitState> {
  if (table === undefined) return { ok: false, problem: tableMissing(cell.table) };
  const chosen = specimensOf(table, settings.group);
  if (!chosen.ok) return chosen;
  const { specimens, rows } = chosen.value;
  const stress = settings.stress as StressScale;
  const model = settings.model as Exclude<LineModel, 'constant'>;
  if (settings.method === 'least-squares') {
    if (model === 'limit') return { ok: false, problem: limitNeedsLikelihood() };
    const fitted = fitLeastSquares(specimens, { model, stress });
    return fitted.ok ? { ok: true, value: ofLeastSquares(fitted.value, rows, settings.group) } : fitted;
  }
  const fitted = fitMaximumLikelihood(specimens, { model, stress, life: settings.life as LifeDistribution });
  if (!fitted.ok) return fitted;
  const beside = besideLine(specimens, fitted.value);
  return { ok: true, value: { fit: fitted.value, residuals: [], rows, group: settings.group, get beside() { return beside(); } } };
}

/** Residuals are worked out when they are read: a chart of a hundred thousand points may never be asked for. */
function ofLeastSquares(fit: LeastSquaresFit, rows: FitState['rows'], group: string): FitState {
  return { fit, get residuals() { return fit.residuals; }, rows, group };
}

function limitNeedsLikelihood(): Problem {
  return {
    code: 'fit-limit-method',
    what: 'A line with a fatigue limit can’t be found by least squares.',
    mend: 'Choose maximum likelihood, which also uses the runouts.',
    key: 'method',
  };
}
