import type { Problem } from '../../core/problem/index.ts';
import { askedRules, asksForStep, cellsOf, earlierTries, handedIn, triesText } from '../../sheet/index.ts';
import type { SheetDocument, StepCell } from '../../sheet/types.ts';
import type { RangeWord, SheetStates, SymbolState } from '../types.ts';
import { allowanceOf, isAllowed, isWithin, isZero, type Allowance } from './allowance.ts';
import { readAnswer, unitOfStep, type ReadAnswer } from './read-answer.ts';
import { cellOf, valueFrom } from './working.ts';

/** A sheet whose own results are judged. */
export interface MarkedSheet {
  readonly document: SheetDocument;
  /** Without slips: one that is switched on to show what it does is no measure for anybody's result. */
  readonly states: SheetStates;
  /** A symbol's value as the sheet shows it, rounded, SI; undefined where it has none. */
  readonly shown: (symbol: string) => number | undefined;
}

/**
 * - `agrees`: within the tolerance, of the sheet's result or of what its numbers give as they are shown.
 * - `carried`: right for earlier results of the reader's that are not the sheet's.
 * - `too few digits`: could be the sheet's, rounded further than the tolerance.
 * - `differs`: none of these. Only this counts as a try.
 */
export type Verdict = 'agrees' | 'carried' | 'too few digits' | 'differs';

/** What is to be said of an own result. */
export type Mark =
  | { readonly kind: 'unreadable'; readonly problem: Problem }
  /** The sheet has no number to hold it against, for its stress lies outside a line or something is open. */
  | { readonly kind: 'no result'; readonly word?: RangeWord }
  | {
    readonly kind: 'judged';
    readonly verdict: Verdict;
    readonly answer: ReadAnswer;
    /** The sheet's, SI. */
    readonly right: number;
    /** Symbols of the earlier results that it is right for; empty unless it is carried. */
    readonly carriedFrom: readonly string[];
  };

/** What an own result is; undefined where none is typed. */
export function markOf(step: StepCell, sheet: MarkedSheet): Mark | undefined {
  const typed = step.answer?.trim() ?? '';
  if (typed === '') return undefined;
  const { states, document } = sheet;
  const unit = unitOfStep(step, states);
  if (unit === undefined) return { kind: 'no result' };
  const rules = askedRules(step, document);
  const read = readAnswer(typed, unit, rules.isUnitRequired);
  if (!read.ok) return { kind: 'unreadable', problem: { ...read.problem, cell: step.id, key: 'answer' } };
  const state = states.symbol(step.symbol);
  if (state?.status !== 'value') return { kind: 'no result', ...(state?.status === 'range' ? { word: state.word } : {}) };
  const allowance = allowanceOf(rules.tolerance, step, state);
  return { kind: 'judged', answer: read.value, right: state.estimate.value, ...judge(step, read.value, { state, allowance }, sheet) };
}

interface Measure {
  readonly state: SymbolState & { readonly status: 'value' };
  readonly allowance: Allowance;
}

function judge(step: StepCell, answer: ReadAnswer, { state, allowance }: Measure, sheet: MarkedSheet): { readonly verdict: Verdict; readonly carriedFrom: readonly string[] } {
  const yours = answer.quantity.value;
  const right = state.estimate.value;
  const plain = (verdict: Verdict) => ({ verdict, carriedFrom: [] });
  if (isZero(state)) return plain(yours === 0 || isAllowed(yours, right, allowance) ? 'agrees' : 'differs');
  // Before all that is rounded: zero stands for nothing but zero.
  if (yours === 0) return plain('differs');
  if (isAllowed(yours, between(yours, right, asShown(step, right, sheet)), allowance)) return plain('agrees');
  if (isWithin(answer.halfLastPlace, yours, right)) return plain('too few digits');
  const carriedFrom = carriedBy(step, yours, { state, allowance }, sheet);
  return carriedFrom.length > 0 ? { verdict: 'carried', carriedFrom } : plain('differs');
}

/** What comes out where the numbers that a step reads are put in as the sheet shows them. */
function asShown(step: StepCell, right: number, { states, shown }: MarkedSheet): number {
  const put = new Map((cellOf(step.symbol, states)?.reads ?? []).flatMap((symbol): [string, number][] => {
    const value = shown(symbol);
    return value === undefined ? [] : [[symbol, value]];
  }));
  return valueFrom(put, step.symbol, states)?.value ?? right;
}

/** The value from one to the other that is nearest to one's own: whoever rounds on the way comes out between them. */
function between(yours: number, one: number, other: number): number {
  return Math.min(Math.max(yours, Math.min(one, other)), Math.max(one, other));
}

interface Own {
  readonly document: SheetDocument;
  readonly results: ReadonlyMap<string, ReadAnswer>;
}

/** Read once for one state of the sheet: each wrong result is held against all of them. */
const known = new WeakMap<SheetStates, Own>();

/** The reader's own results by symbol, as far as they can be read. */
export function ownResults({ document, states }: Pick<MarkedSheet, 'document' | 'states'>): ReadonlyMap<string, ReadAnswer> {
  const before = known.get(states);
  if (before?.document === document) return before.results;
  const results = readResults(document, states);
  known.set(states, { document, results });
  return results;
}

function readResults(document: SheetDocument, states: SheetStates): ReadonlyMap<string, ReadAnswer> {
  return new Map(cellsOf(document, 'step').flatMap((step): [string, ReadAnswer][] => {
    const unit = (step.answer?.trim() ?? '') === '' ? undefined : unitOfStep(step, states);
    const read = unit === undefined ? undefined : readAnswer(step.answer ?? '', unit, false);
    return read?.ok === true ? [[step.symbol, read.value]] : [];
  }));
}

/** However few digits an earlier result was typed with, going on from more of them explains no more than this share. */
const MOST_ROUNDING = 0.005;

/** Symbols of the reader's earlier results with which theirs is right, rounded as they typed them or not. */
function carriedBy(step: StepCell, yours: number, { state, allowance }: Measure, sheet: MarkedSheet): readonly string[] {
  const own = ownResults(sheet);
  const values = new Map([...own].map(([symbol, { quantity }]) => [symbol, quantity.value]));
  const carried = valueFrom(values, step.symbol, sheet.states);
  if (carried === undefined) return [];
  let reach = 0;
  for (const symbol of carried.used) {
    const value = values.get(symbol) ?? 0;
    const half = Math.min(own.get(symbol)?.halfLastDigit ?? 0, MOST_ROUNDING * Math.abs(value));
    reach += Math.abs((valueFrom(new Map([...values, [symbol, value + half]]), step.symbol, sheet.states)?.value ?? carried.value) - carried.value);
  }
  const nearest = between(yours, carried.value - reach, carried.value + reach);
  return isAllowed(yours, nearest, scaled(allowance, carried.value / state.estimate.value)) ? carried.used : [];
}

function scaled(allowance: Allowance, ratio: number): Allowance {
  return allowance.kind === 'interval' && Number.isFinite(ratio) ? { ...allowance, half: allowance.half * Math.abs(ratio) } : allowance;
}

/** How an asked step stands with its reader. */
export interface Standing {
  readonly mark: Mark | undefined;
  /** Wrong entries so far, and how many there may be. */
  readonly used: number;
  readonly tries: number;
  /** Whether the sheet's result shows beside theirs. */
  readonly isTold: boolean;
  /** Whether a verdict is kept until they hand in. */
  readonly isKeptForLater: boolean;
}

/**
 * The standing of every step that the sheet asks for, by id. An answer brings the sheet's result to light where it is right, where it has none to show, where
 * the tries are used up, where it did so before, and where it is right for earlier results that are told themselves.
 */
export function standings(sheet: MarkedSheet): ReadonlyMap<string, Standing> {
  const { document } = sheet;
  const isOver = handedIn(document) !== undefined;
  const found = new Map<string, Standing>();
  const byId = new Map(cellsOf(document, 'step').filter((step) => asksForStep(step, document)).map((step) => [step.id, step]));
  const idOf = new Map([...byId.values()].map(({ symbol, id }) => [symbol, id]));
  for (const step of byId.values()) {
    const { tries, feedback } = askedRules(step, document);
    const mark = markOf(step, sheet);
    const used = wrongEntries(step, mark);
    const isKeptForLater = feedback === 'at the end' && !isOver;
    const isTold = !isKeptForLater && isShownFor(step, mark, used >= tries || feedback === 'at the end');
    found.set(step.id, { mark, used, tries, isTold, isKeptForLater });
  }
  tellCarried(found, (symbol) => found.get(idOf.get(symbol) ?? '')?.isTold !== false);
  return found;
}

/** What is right for earlier results is told once those are. They may stand further down, and rest on others in turn. */
function tellCarried(found: Map<string, Standing>, isTold: (symbol: string) => boolean): void {
  for (let isMore = true; isMore;) {
    isMore = false;
    for (const [id, standing] of found) {
      const { mark, isKeptForLater } = standing;
      if (standing.isTold || isKeptForLater || mark?.kind !== 'judged' || mark.verdict !== 'carried' || !mark.carriedFrom.every(isTold)) continue;
      found.set(id, { ...standing, isTold: true });
      isMore = true;
    }
  }
}

function isShownFor(step: StepCell, mark: Mark | undefined, isLast: boolean): boolean {
  if (mark === undefined || mark.kind === 'unreadable') return false;
  if (mark.kind === 'no result' || step.isTold === true || isLast) return true;
  return mark.verdict === 'agrees';
}

function wrongEntries(step: StepCell, mark: Mark | undefined): number {
  const earlier = earlierTries(step);
  return earlier.length + (isWrong(mark) && earlier.at(-1) !== step.answer?.trim() ? 1 : 0);
}

function isWrong(mark: Mark | undefined): boolean {
  return mark?.kind === 'judged' && mark.verdict === 'differs';
}

/** The keys of a step once something else is entered as its own result: what was wrong before goes to the tries, and what brings the sheet's result to light says so. */
export function entryKeys(step: StepCell, typed: string, sheet: MarkedSheet): ReadonlyMap<string, string | undefined> {
  const earlier = earlierTries(step);
  const before = step.answer?.trim() ?? '';
  const tried = triesText(isWrong(markOf(step, sheet)) && earlier.at(-1) !== before ? [...earlier, before] : earlier);
  const next: StepCell = { ...step, answer: typed, isTold: false, ...(tried === undefined ? {} : { tried }) };
  const mark = markOf(next, sheet);
  const { tries, feedback } = askedRules(step, sheet.document);
  const isTold = feedback === 'at once' && mark?.kind === 'judged' && isShownFor(next, mark, wrongEntries(next, mark) >= tries);
  return new Map([['answer', typed === '' ? undefined : typed], ['tried', tried], ['told', isTold ? 'true' : undefined]]);
}
