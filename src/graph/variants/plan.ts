import { checkDimensions, symbolInWords } from '../../core/formula/index.ts';
import { createRandom } from '../../core/numeric/index.ts';
import { composed, fail, ok, type Problem, type Result } from '../../core/problem/index.ts';
import { describeDimensionWithArticle, sameDimension, type Dimension, type Unit } from '../../core/units/index.ts';
import { askedRules, asksForStep, cellsOf, handedOut, withEntries } from '../../sheet/index.ts';
import type { GivenCell, SheetDocument, StepCell } from '../../sheet/types.ts';
import { chainOf } from '../along/index.ts';
import { parseBounds, satisfies } from '../bounds.ts';
import { compileSheet } from '../compile.ts';
import { parseRemembered, readsOf } from '../formulas.ts';
import { unitOf } from '../read-given.ts';
import { reckon, type Reckoned } from '../reckon.ts';
import { someNames } from '../waits.ts';
import { alongDrawn, isMet, LEAST_APART, withChecks } from './conditions.ts';
import { drawNumbers, middleNumbers } from './numbers.ts';
import { readVariation, type Variation } from './read-variation.ts';
import type { Condition, Varied, VariantPlan } from './types.ts';

/** Draws by which it is told what is the same whatever the numbers are, from a seed of their own. */
const LOOKED_AT = 64;
const SEED_OF_LOOK = 1;

/**
 * Reads what a sheet says of its teams' numbers. Problems: `variants-none` where nothing varies, those of a range, `variants-open` where a condition
 * can't be told, because what it rests on is empty.
 */
export function planVariants(sheet: SheetDocument): Result<VariantPlan> {
  const out = handedOut(sheet);
  if (!out.ok) return out;
  const varied = readVaried(sheet);
  if (!varied.ok) return varied;
  const known = knownNumbers(out.value);
  const middle = middleNumbers(varied.value, known);
  if (!middle.ok) return middle;
  const filled = withEntries(out.value, middle.value.entriesAt(0));
  if (!filled.ok) return filled;
  const compiled = compileSheet(filled.value, []);
  const reckoned: Reckoned = { compiled, states: reckon(compiled, []) };
  const own = conditionsOf(sheet, varied.value, reckoned);
  if (!own.ok) return own;
  const asked = askedSteps(sheet).filter(({ symbol }) => isTold(symbol, reckoned));
  const conditions = [...own.value, ...asked.map(knownCondition)];
  const chain = withChecks(chainOf(compiled, reckoned.states), conditions, reckoned);
  return ok(withPairs({ document: out.value, varied: varied.value, known, conditions, asked: asked.map(({ symbol }) => symbol), notes: [], middle: reckoned, chain }, asked));
}

/** The steps whose results are asked for. */
function askedSteps(sheet: SheetDocument): readonly StepCell[] {
  return cellsOf(sheet, 'step').filter((step) => asksForStep(step, sheet));
}

function isTold(symbol: string, { states }: Reckoned): boolean {
  const state = states.symbol(symbol);
  return state?.status === 'value' || (state?.status === 'range' && state.word !== 'open');
}

const knownCondition = ({ symbol }: StepCell): Condition => ({ kind: 'known', symbol, words: `${symbolInWords(symbol)} has a value` });

/** Values in SI of the givens that are the same for all, by symbol. */
function knownNumbers(document: SheetDocument): ReadonlyMap<string, number> {
  const compiled = compileSheet(document, []);
  const states = reckon(compiled, []);
  return new Map(cellsOf(document, 'given').flatMap(({ symbol }) => {
    const state = states.symbol(symbol);
    return state?.status === 'value' ? [[symbol, state.estimate.value] as const] : [];
  }));
}

function readVaried(sheet: SheetDocument): Result<readonly Varied[]> {
  const varied: Varied[] = [];
  const dimensions = new Map(cellsOf(sheet, 'given').flatMap((cell) => {
    const unit = unitOf(cell, undefined);
    return unit.ok ? [[cell.symbol, unit.value.dimension] as const] : [];
  }));
  for (const cell of cellsOf(sheet, 'given')) {
    if (cell.varies === undefined || cell.symbol === '') continue;
    const unit = unitOf(cell, undefined);
    const variation = unit.ok ? readVariation(cell.varies, unit.value) : unit;
    if (!unit.ok) return fail(atGiven(unit.problem, cell));
    if (!variation.ok) return fail(atGiven(variation.problem, cell));
    const clash = clashOf(variation.value, unit.value, dimensions);
    if (clash !== undefined) return fail(atGiven(clash, cell));
    const bounds = boundsOf(cell, unit.value);
    if (!bounds.ok) return fail({ ...bounds.problem, cell: cell.id });
    varied.push({ cellId: cell.id, symbol: cell.symbol, label: cell.label ?? cell.symbol, unit: unit.value, variation: variation.value, ...bounds.value });
  }
  if (varied.length > 0) return inOrder(varied);
  return fail({ code: 'variants-none', what: 'Nothing in this sheet varies from team to team.', mend: 'Give one of its givens a range, such as 100 mm .. 140 mm step 1 mm.' });
}

/** What follows from other givens has to be a quantity of the given's kind; a name that is none is told when its value is missing. */
function clashOf(variation: Variation, unit: Unit, dimensions: ReadonlyMap<string, Dimension>): Problem | undefined {
  if (variation.kind !== 'follows' || readsOf([variation.expression]).some((name) => !dimensions.has(name))) return undefined;
  const found = checkDimensions(variation.expression, (name) => dimensions.get(name));
  if (!found.ok) return found.problem;
  if (found.value === 'truth') return { code: 'variation-truth', what: 'What it follows from is a condition and no number.', mend: 'Write a formula of other givens.' };
  if (sameDimension(found.value, unit.dimension)) return undefined;
  return { code: 'variation-kind', what: `What it follows from is ${describeDimensionWithArticle(found.value)}; this blank takes ${describeDimensionWithArticle(unit.dimension)}.`, mend: 'Look at the formula.' };
}

function atGiven(problem: Problem, cell: GivenCell): Problem {
  return { ...problem, what: composed`${cell.label ?? cell.symbol}: ${problem.what}`, cell: cell.id, key: 'varies' };
}

function boundsOf(cell: GivenCell, unit: Unit): Result<Pick<Varied, 'possible' | 'plausible'>> {
  const possible = parseBounds(cell.possible ?? '> 0', unit);
  if (!possible.ok) return possible;
  if (cell.plausible === undefined) return ok({ possible: possible.value });
  const plausible = parseBounds(cell.plausible, unit);
  return plausible.ok ? ok({ possible: possible.value, plausible: plausible.value }) : plausible;
}

/** What follows from others behind them; two that follow from each other are told. */
function inOrder(varied: readonly Varied[]): Result<readonly Varied[]> {
  const ordered: Varied[] = [];
  let left = varied;
  while (left.length > 0) {
    const waiting = new Set(left.map(({ symbol }) => symbol));
    const ready = left.filter(({ variation }) => variation.kind !== 'follows' || !readsOf([variation.expression]).some((symbol) => waiting.has(symbol)));
    if (ready.length === 0) {
      return fail({ code: 'variants-loop', what: `The numbers of ${someNames(left.map(({ symbol }) => symbol))} follow from one another.`, mend: 'Give one of them a range of its own.' });
    }
    ordered.push(...ready);
    left = left.filter((one) => !ready.includes(one));
  }
  return ok(ordered);
}

function conditionsOf(sheet: SheetDocument, varied: readonly Varied[], reckoned: Reckoned): Result<readonly Condition[]> {
  const conditions: Condition[] = varied.flatMap(({ symbol, possible, plausible }) => [possible, ...(plausible === undefined ? [] : [plausible])]
    .map((bounds): Condition => ({ kind: 'within', symbol, bounds, words: `${symbolInWords(symbol)} ${bounds.words}` })));
  for (const { id, symbol, wanted } of cellsOf(sheet, 'step')) {
    if (wanted === undefined) continue;
    const unit = reckoned.states.symbol(symbol)?.unit;
    if (!isTold(symbol, reckoned) || unit === undefined) return fail(openProblem(symbolInWords(symbol), waitsFor(symbol, reckoned), id));
    const bounds = parseBounds(wanted, unit);
    if (!bounds.ok) return fail({ ...bounds.problem, cell: id, key: 'wanted' });
    conditions.push({ kind: 'within', symbol, bounds: bounds.value, words: `${symbolInWords(symbol)} ${bounds.value.words}` });
  }
  for (const { id, label, condition, wanted } of cellsOf(sheet, 'check')) {
    if (wanted !== true) continue;
    const read = parseRemembered(condition);
    if (!read.ok) return fail({ ...read.problem, cell: id });
    if (reckoned.states.cell(id)?.check?.holds === undefined) return fail(openProblem(composed`“${label ?? id}”`, readsOf([read.value]).flatMap((symbol) => waitsFor(symbol, reckoned)), id));
    conditions.push({ kind: 'holds', cellId: id, condition: read.value, words: composed`“${label ?? id}” holds` });
  }
  return ok(conditions);
}

function waitsFor(symbol: string, { states }: Reckoned): readonly string[] {
  const state = states.symbol(symbol);
  return state?.status === 'range' ? (state.waitsFor ?? []) : [];
}

function openProblem(what: string, names: readonly string[], cell: string): Problem {
  const waits = names.length === 0 ? '' : `: it waits for ${someNames([...new Set(names)])}`;
  return { code: 'variants-open', what: composed`${what} is to be kept to for every team and can not be told${waits}.`, mend: 'Fill these in, or let them vary too.', cell };
}

/** Pairs of asked results that may not be alike; those that are whatever the numbers are can't be kept apart, and are said. */
function withPairs(plan: VariantPlan, asked: readonly StepCell[]): VariantPlan {
  const pairs = asked.flatMap((one, i) => asked.slice(i + 1).flatMap((other) => (sameKind(one, other, plan) ? [[one, other] as const] : [])));
  if (pairs.length === 0) return plan;
  const conditions = pairs.map(([one, other]): Apart => ({ kind: 'apart', symbols: [one.symbol, other.symbol], share: Math.max(shareOf(one, plan), shareOf(other, plan)), words: `${namesOf([one.symbol, other.symbol])} can be told apart` }));
  const always = new Set(alwaysMissed(plan, conditions));
  return {
    ...plan,
    conditions: [...plan.conditions, ...conditions.filter((one) => !always.has(one))],
    notes: always.size === 0 ? [] : [`Asked for and alike whatever the numbers are, so that one passes for the other: ${[...always].map(({ symbols }) => namesOf(symbols)).join('; ')}.`],
  };
}

type Apart = Condition & { readonly kind: 'apart' };

/** How far off an own result may be by what the sheet says as a share; what hangs on uncertainties is asked of the sheet itself. */
function shareOf(step: StepCell, { document }: VariantPlan): number {
  const { tolerance } = askedRules(step, document);
  const share = tolerance?.kind === 'share' ? tolerance.share : tolerance?.kind === 'factor' ? tolerance.factor - 1 : 0;
  return Math.max(LEAST_APART, share);
}

function namesOf([a, b]: readonly [string, string]): string {
  return `${symbolInWords(a)} and ${symbolInWords(b)}`;
}

/** Those of the pairs that are alike at all numbers that the givens can have. */
function alwaysMissed({ varied, known, chain }: VariantPlan, pairs: readonly Apart[]): readonly Apart[] {
  const random = createRandom(SEED_OF_LOOK);
  const drawn = drawNumbers(varied, known, (count) => Math.floor(random.uniform() * count), LOOKED_AT);
  const there = alongDrawn(chain, pairs, drawn);
  const places = Array.from({ length: LOOKED_AT }, (_none, place) => place)
    .filter((place) => varied.every(({ symbol, possible }) => satisfies(drawn.columns.get(symbol)?.[place] ?? Number.NaN, possible))).map(there);
  return pairs.filter((pair) => {
    const told = places.filter(({ value }) => pair.symbols.every((symbol) => !Number.isNaN(value(symbol))));
    return told.length > 0 && !told.some((place) => isMet(pair, place));
  });
}

function sameKind(one: StepCell, other: StepCell, { middle: { states } }: VariantPlan): boolean {
  const [a, b] = [states.symbol(one.symbol)?.unit?.dimension, states.symbol(other.symbol)?.unit?.dimension];
  return a !== undefined && b !== undefined && sameDimension(a, b);
}
