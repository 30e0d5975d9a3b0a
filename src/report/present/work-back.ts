import { counterpart, fromSI, parseQuantity } from '../../core/units/index.ts';
import type { Unit } from '../../core/units/types.ts';
import { unitOfGiven, unitOfStep, workBack, type WorkBackAnswer, type WorkBackFound } from '../../graph/index.ts';
import type { Problem, Result } from '../../core/problem/index.ts';
import type { GivenCell, StepCell } from '../../sheet/types.ts';
import { wholeOf } from './asked.ts';
import { isHidden } from './hidden.ts';
import { cellAt } from './lookup.ts';
import { plainFigures, unitText, withUnit } from './number.ts';
import { presentResult } from './result.ts';
import { gapWords } from './sweep-axis.ts';
import { readRange, searchRange, type SweepRange } from './sweep-range.ts';
import type { PresentContext } from './types.ts';

/** A wanted result and the given that may move. */
interface WorkBackWish {
  readonly result: StepCell;
  /** As typed: `400 MPa`. */
  readonly wanted: string;
  readonly input: GivenCell;
  /** Between which values; as typed, '' for the usual ones. */
  readonly from: string;
  readonly to: string;
}

/** What was found, in words. */
export interface PresentedWorkBack {
  /** `One answer.`, `Two answers.`, `No answer.`, and between which values it was looked for. */
  readonly summary: string;
  readonly answers: readonly PresentedSolution[];
  /** What else there is to know, a sentence each. */
  readonly notes: readonly string[];
}

export interface PresentedSolution {
  /** `7.339 mm`, rounded for reading. */
  readonly value: string;
  /** What is put in: `7.3388012463 mm`. */
  readonly typed: string;
  /** What the sheet gives with it, with its uncertainty, and what else follows. */
  readonly sentences: readonly string[];
  /** Checks that would no longer hold, a sentence each. */
  readonly warnings: readonly string[];
}

const READABLE = 5;
const COUNTS = ['No answer', 'One answer', 'Two answers', 'Three answers', 'Four answers'] as const;

/** The unit in which a wanted result is read and shown. */
function wantedUnit(result: StepCell, context: PresentContext): Unit | undefined {
  const unit = unitOfStep(result, context.states);
  return unit === undefined ? undefined : counterpart(unit, context.system);
}

export function presentWorkBack(wish: WorkBackWish, context: PresentContext): Result<PresentedWorkBack> {
  const [shown, own] = [wantedUnit(wish.result, context), unitOfGiven(wish.input, context.states)];
  if (shown === undefined || own === undefined) return failed('This result has no unit yet.', 'Mend the line itself first.');
  if (wish.wanted.trim() === '') return failed('There is no wanted result yet.', `Type one, such as ${withUnit('100', unitText(shown))}.`);
  const read = parseQuantity(wish.wanted, shown);
  if (!read.ok) return read;
  const range = readRange(wish, searchRange(wish.input, context.states), own);
  if (range === undefined) return failed('It is not clear between which values to look.', `Type two different values with their unit, such as ${unitText(own)}.`);
  const { document, states } = wholeOf(context);
  const found = workBack(document, states, { result: wish.result.symbol, wanted: read.value.value, input: wish.input, ...range });
  return { ok: true, value: inWords(found, wish, { shown, own, range, wanted: read.value.value }, context) };
}

function failed(what: string, mend: string): { readonly ok: false; readonly problem: Problem } {
  return { ok: false, problem: { code: 'work-back', what, mend } };
}

interface Units {
  readonly shown: Unit;
  readonly own: Unit;
}

/** What was asked, as it was understood, SI. */
interface Asked extends Units {
  readonly range: SweepRange;
  readonly wanted: number;
}

function inWords(found: WorkBackFound, wish: WorkBackWish, { range, wanted, ...units }: Asked, context: PresentContext): PresentedWorkBack {
  const result = (si: number): string => written(si, units.shown);
  const input = (si: number): string => written(si, units.own);
  const between = `between ${input(range.from)} and ${input(range.to)}`;
  if (!found.hangsOnIt) return { summary: `${nameOf(wish.input)} has no part in this result, or can’t lie ${between}.`, answers: [], notes: [] };
  const count = found.answers.length;
  const summary = count === 0 && found.stretches.length > 0
    ? `Every value ${found.stretches.map(([from, to]) => `from ${input(from)} to ${input(to)}`).join(' and ')} gives ${result(wanted)}.`
    : `${COUNTS[count] ?? `${count} answers`} ${between}${count === 0 ? ` gives ${result(wanted)}` : ''}.`;
  const rest = count > 0 ? found.stretches.map(([from, to]) => `So does every value from ${input(from)} to ${input(to)}.`) : [];
  return {
    summary,
    answers: found.answers.map((answer) => presentAnswerAt(answer, wish, units, context)),
    notes: [
      ...rest,
      ...found.jumps.map((at) => `At ${input(at)} the result jumps over ${result(wanted)} without taking it.`),
      ...(count === 0 && found.between !== undefined && found.stretches.length === 0
        ? [`Where it has a value here, the result lies between ${result(found.between[0].value)} (at ${input(found.between[0].at)}) and ${result(found.between[1].value)} (at ${input(found.between[1].at)}).`]
        : []),
      ...found.gaps.map((gap) => `About ${input(gap.from)}${gap.to > gap.from ? ` to ${input(gap.to)}` : ''} it has no value: ${gapWords(gap.why, context)}.`),
    ],
  };
}

function presentAnswerAt(answer: WorkBackAnswer, { result, input }: WorkBackWish, { own }: Units, context: PresentContext): PresentedSolution {
  const gives = presentResult(answer.result, context.system, result.spread === undefined ? {} : { spread: result.spread });
  const way = answer.slope > 0 ? 'more' : 'less';
  return {
    value: written(answer.value, own),
    typed: answer.text,
    sentences: [
      ...(gives.kind === 'value' ? [`The result is then ${gives.text}.`] : []),
      ...(answer.isTouch
        ? ['It is just reached there and not passed: a little further on either side gives too little or too much, and beyond it there is no answer.']
        : Number.isFinite(answer.slope) && answer.slope !== 0 ? [`A larger ${nameOf(input)} gives ${way} there.`] : []),
    ],
    warnings: answer.fails.filter((cellId) => !isHidden(cellId, context)).map((cellId) => `The check “${cellAt(cellId, context)?.cell.label ?? cellId}” would no longer hold.`),
  };
}

function nameOf({ label, symbol }: GivenCell): string {
  return label === undefined ? symbol : `“${label}”`;
}

function written(si: number, unit: Unit): string {
  return withUnit(plainFigures(fromSI(si, unit), READABLE), unitText(unit));
}
