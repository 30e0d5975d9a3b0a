import type { FittedLine, Outcome } from '../../core/fatigue/index.ts';
import { isolated } from '../../core/problem/index.ts';
import type { ChartSpecimens, CurrentSpecimen, SnData, StatedLine } from '../../figures/charts/index.ts';
import { filterRows, groupNumbers, groupRows, numbersOf, placesOf, rollUp, rowsWith, valuesOf } from '../../core/rows/index.ts';
import type { FitState, TableState } from '../../graph/index.ts';
import { cellIn } from '../../sheet/index.ts';
import type { FigureCell } from '../../sheet/types.ts';
import { chartTexts } from './chart-texts.ts';
import { referenceContext } from './held.ts';
import { isSymbolHidden } from './hidden.ts';
import { definingCell, cellAt } from './lookup.ts';
import { specimenName } from './specimen-name.ts';
import { chosenLabel } from './step.ts';
import type { PresentContext } from './types.ts';

/** Share and confidence of the design curve unless the sheet says others: common practice, no published source. */
const USUAL_DESIGN = { share: 0.9, confidence: 0.95 };
/** Life at which an estimated line begins, cycles. */
const ESTIMATED_FROM = 1e3;
/** A knee beyond this life is the end of what a line claims, and no limit. */
const LAST_KNEE = 1e7;

const WITHOUT = {
  'below limit': 'below the limit, where the line gives no life',
  'low cycle': 'below 10³ cycles, outside this line',
  'beyond data': 'beyond the tested lives',
  open: 'not known yet',
} as const;

/**
 * What an S-N figure shows. Roles of its values, each a symbol of the sheet: `A`, `B` and `s` of the line that the sheet
 * works with; `knee` and `limit`, life and stress at which an estimated line ends, counted only where the line passes
 * there; `stress` (times `factor`), `life`, `low` and `high` of the specimen that the sheet is about; `share` and
 * `confidence` of the design curve. The fit's own line is drawn where it is the one that A and B are of, or where there
 * are none.
 */
export function snData(cell: FigureCell, context: PresentContext): SnData {
  const fitCell = cellIn(cellAt(cell.fit ?? '', context), 'fit');
  const state = context.states.cell(cell.fit ?? '')?.fit;
  const table = fitCell !== undefined ? context.states.cell(fitCell.table)?.table : undefined;
  const value = (role: string): number | undefined => roleValue(cell, role, context);
  const line = lineOf(cell, state, value, context);
  const specimens = table === undefined || (line !== undefined && 'stated' in line) ? undefined : specimensOf(table, state?.group ?? 'all');
  const current = currentOf(cell, value, context);
  const withheld = [...cell.values.values()].some((symbol) => isSymbolHidden(symbol, context));
  return {
    ...(line === undefined ? {} : { line }),
    ...(specimens === undefined ? {} : { specimens }),
    ...(current === undefined ? {} : { current }),
    ...heldOf(cell, { line, current }, context),
    design: { share: shareOr(value('share'), USUAL_DESIGN.share), confidence: shareOr(value('confidence'), USUAL_DESIGN.confidence) },
    stressScale: cell.scale ?? state?.fit.stress ?? 'log',
    texts: chartTexts(context.system),
    ...(withheld ? { note: line === undefined && current === undefined ? 'The line and your specimen appear here once you have worked them out.' : 'The rest appears here once you have worked it out.' } : {}),
  };
}

/** SI value of a role; undefined while there is none or the reader is still asked for it. */
function roleValue(cell: FigureCell, role: string, context: PresentContext): number | undefined {
  const symbol = cell.values.get(role);
  const state = symbol === undefined || isSymbolHidden(symbol, context) ? undefined : context.states.symbol(symbol);
  return state?.status === 'value' && Number.isFinite(state.estimate.value) ? state.estimate.value : undefined;
}

function shareOr(given: number | undefined, usual: number): number {
  return given !== undefined && given > 0.01 && given < 0.999999 ? given : usual;
}

function lineOf(cell: FigureCell, state: FitState | undefined, value: (role: string) => number | undefined, context: PresentContext): SnData['line'] {
  const fitted = state?.fit;
  if (!cell.values.has('A') || !cell.values.has('B')) return fitted === undefined ? undefined : { fitted };
  const [A, B] = [value('A'), value('B')];
  if (A === undefined || B === undefined) return undefined;
  if (fitted !== undefined && isLine(fitted, A, B)) return { fitted };
  const origin = originOf(cell, context);
  return { stated: { A, B, s: Math.max(0, value('s') ?? 0), ...rangeOf(A, B, value), ...(origin === undefined ? {} : { origin: isolated(origin) }) } };
}

function isLine({ model, stress, parameters }: FittedLine, A: number, B: number): boolean {
  const same = (name: string, number: number): boolean =>
    parameters.some((parameter) => parameter.name === name && Math.abs(parameter.value - number) <= 1e-9 * Math.abs(number));
  return model === 'linear' && stress === 'log' && same('A', A) && same('B', B);
}

/** Range and limit of an estimated line: those of its knee, if the line in force passes through that. */
function rangeOf(A: number, B: number, value: (role: string) => number | undefined): Pick<StatedLine, 'from' | 'to' | 'limitMpa'> {
  const [knee, limit] = [value('knee'), value('limit')];
  if (knee === undefined || limit === undefined || !(knee > ESTIMATED_FROM) || !(limit > 0)) return {};
  const limitMpa = limit / 1e6;
  if (Math.abs(A + B * Math.log10(limitMpa) - Math.log10(knee)) > 1e-6) return {};
  return { from: ESTIMATED_FROM, to: knee, ...(knee <= LAST_KNEE ? { limitMpa } : {}) };
}

/** The option by which the line was chosen, as the sheet words it. */
function originOf(cell: FigureCell, context: PresentContext): string | undefined {
  const step = cellIn(definingCell(cell.values.get('A') ?? '', context), 'step');
  return step && chosenLabel(step, context);
}

function currentOf(cell: FigureCell, value: (role: string) => number | undefined, context: PresentContext): CurrentSpecimen | undefined {
  const stress = value('stress');
  if (stress === undefined) return undefined;
  const factor = cell.values.has('factor') ? value('factor') : 1;
  if (factor === undefined || !(stress * factor > 0)) return undefined;
  const stressMpa = (stress * factor) / 1e6;
  const [median, low, high] = [value('life'), value('low'), value('high')];
  if (median !== undefined) {
    return { stressMpa, life: { median, ...(low === undefined ? {} : { low }), ...(high === undefined ? {} : { high }) } };
  }
  const symbol = cell.values.get('life') ?? '';
  const state = isSymbolHidden(symbol, context) ? undefined : context.states.symbol(symbol);
  return { stressMpa, ...(state?.status === 'range' ? { without: WITHOUT[state.word] } : {}) };
}

/** Specimen and line in the state that the sheet is compared with, where they are others. */
function heldOf(cell: FigureCell, now: { readonly line: SnData['line']; readonly current: CurrentSpecimen | undefined }, context: PresentContext): Pick<SnData, 'held'> {
  const reference = referenceContext(context);
  if (reference === undefined) return {};
  const value = (role: string): number | undefined => roleValue(cell, role, reference);
  const specimen = now.current === undefined ? undefined : currentOf(cell, value, reference);
  const line = lineOf(cell, reference.states.cell(cell.fit ?? '')?.fit, value, reference);
  const isElsewhere = specimen !== undefined && (specimen.stressMpa !== now.current?.stressMpa || specimen.life?.median !== now.current.life?.median);
  const isOther = line !== undefined && !isSameLine(line, now.line);
  if (!isElsewhere && !isOther) return {};
  return { held: { name: reference.held.name, ...(isElsewhere ? { specimen } : {}), ...(isOther ? { line } : {}) } };
}

/** As far as its median goes. */
function isSameLine(a: NonNullable<SnData['line']>, b: SnData['line']): boolean {
  if (b === undefined) return false;
  if ('stated' in a || 'stated' in b) return 'stated' in a && 'stated' in b && a.stated.A === b.stated.A && a.stated.B === b.stated.B;
  return a.fitted === b.fitted || (a.fitted.model === b.fitted.model && a.fitted.stress === b.fitted.stress
    && a.fitted.parameters.length === b.fitted.parameters.length && a.fitted.parameters.every(({ value }, i) => value === b.fitted.parameters[i]?.value));
}

/** Column of the stress at the place of fracture, as a machine's sheet hands it on. */
const LOCAL = 'S_break';

const columns = new WeakMap<TableState, Map<string, ChartSpecimens>>();

/** Usable rows of a group, column by column; worked out once for a state of the table. */
function specimensOf(table: TableState, group: string): ChartSpecimens | undefined {
  const known = columns.get(table) ?? new Map<string, ChartSpecimens>();
  columns.set(table, known);
  const found = known.get(group) ?? readSpecimens(table, group);
  if (found !== undefined) known.set(group, found);
  return found;
}

function readSpecimens(table: TableState, wanted: string): ChartSpecimens | undefined {
  const has = (name: string): boolean => table.columns.some((column) => column.name === name);
  if (!has('S') || !has('N')) return undefined;
  const shown = wanted === 'all' ? table.usable : has('group') ? rowsWith(table.usable, 'group', wanted) : filterRows(table.usable, () => false);
  const places = placesOf(shown);
  const seen = (name: string): readonly (string | boolean | number)[] | undefined => (has(name) ? valuesOf(shown, name) : undefined);
  const [outcomes, valid] = [seen('outcome'), seen('valid')];
  const byGroup = groupRows(shown, has('group') ? ['group'] : []);
  const numbers = groupNumbers(byGroup);
  const names = has('group') ? valuesOf(rollUp(byGroup), 'group') : places.length === 0 ? [] : [''];
  return {
    count: places.length,
    stressMpa: numbersOf(shown, 'S').map((pascals) => pascals / 1e6),
    cycles: numbersOf(shown, 'N'),
    ...(has(LOCAL) ? { localMpa: numbersOf(shown, LOCAL).map((pascals) => pascals / 1e6) } : {}),
    outcome: (place) => (valid?.[place] === false ? 'invalid' : ((outcomes?.[place] as Outcome | undefined) ?? 'fracture')),
    group: (place) => numbers[place] ?? 0,
    name: (place) => specimenName(places[place] ?? 0, table),
    groups: names.map((name) => isolated(String(name))),
  };
}
