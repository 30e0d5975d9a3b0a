import { applyCases, openBrackets, typeset, typesetSubstituted, type AppliedCases, type Environment } from '../../core/formula/index.ts';
import type { Expression } from '../../core/formula/types.ts';
import { standardUncertainty } from '../../core/estimate/index.ts';
import type { CellState } from '../../graph/types.ts';
import { optionInForce, type OptionInForce } from '../../graph/index.ts';
import { cellIn } from '../../sheet/index.ts';
import type { ChoiceCell, StepCell } from '../../sheet/types.ts';
import { presentAnswer } from './answer.ts';
import { asked, sameWords } from './asked.ts';
import { isAsked, isGuessing, awaitsGuess, isHidden, isSymbolHidden, withheldWords } from './hidden.ts';
import { cellAt } from './lookup.ts';
import { notesOf } from './notes.ts';
import { decimalTex, withUnitTex } from './number.ts';
import { equationNumber } from './numbering.ts';
import { presentResult, roundedIn } from './result.ts';
import { presentSlipMark } from './slips.ts';
import { symbolOf } from './symbol.ts';
import type { PresentContext, PresentedResult, PresentedStep, WholeContext } from './types.ts';

export function presentStep(step: StepCell, context: PresentContext): PresentedStep {
  const state = context.states.cell(step.id);
  const expression = state?.expression;
  const left = symbolOf(step.symbol);
  const cases = expression === undefined ? undefined : casesThatApply(expression, state, context);
  const shown = cases?.expression ?? expression;
  const bare = shown === undefined || isNumber(shown);
  const numbersTex = shown === undefined ? undefined : numbersLine(shown, state, context);
  const isAwaited = awaitsGuess(step.id, context);
  const answer = isAwaited ? undefined : presentAnswer(step, context);
  const slipMark = presentSlipMark(step, context);
  const setBy = slipMark?.slip === undefined ? chosenLabel(step, context) : undefined;
  return {
    ...notesOf(step, context),
    // What is said of a result may give it away.
    ...(isAwaited ? { problems: [], warnings: [] } : {}),
    number: equationNumber(step.id, context),
    symbol: step.symbol,
    symbolTex: left,
    symbolsTex: bare ? '' : `${left} = ${typeset(shown)}`,
    ...(numbersTex === undefined ? {} : { numbersTex: `= ${numbersTex}` }),
    resultPrefixTex: bare ? `${left} =` : '=',
    takesOver: shown?.kind === 'symbol',
    ...(cases === undefined || expression === undefined ? {} : { wholeTex: `${left} = ${typeset(expression)}`, sinceTex: cases.since.map((reason) => typeset(reason)) }),
    result: resultOf(step, state, context),
    hidden: isHidden(step.id, context),
    asked: !isAwaited && isAsked(step, context),
    withheld: withheldWords(step.id, context),
    ...(answer === undefined ? {} : { answer }),
    ...(setBy === undefined ? {} : { setBy }),
    ...(expression === undefined && step.formula !== undefined ? { formulaText: step.formula } : {}),
    ...(slipMark === undefined ? {} : { slipMark }),
  };
}

/** The cases of a formula that apply as the sheet stands; undefined where it has none, and while one of its values is still kept from the reader. */
function casesThatApply(expression: Expression, state: CellState | undefined, context: PresentContext): AppliedCases | undefined {
  const reads = state?.reads ?? [];
  if (state?.result?.status !== 'value' || reads.some((symbol) => isSymbolHidden(symbol, context))) return undefined;
  return applyCases(expression, environmentOf(context));
}

function environmentOf({ states }: PresentContext): Environment {
  const estimate = (name: string) => {
    const state = states.symbol(name);
    return state?.status === 'value' ? state.estimate : undefined;
  };
  return {
    value: (name) => estimate(name)?.value ?? Number.NaN,
    standardUncertainty: (name) => {
      const known = estimate(name);
      return known === undefined ? Number.NaN : standardUncertainty(known);
    },
  };
}

function resultOf(step: StepCell, state: CellState | undefined, context: PresentContext): PresentedResult {
  if (state?.result !== undefined) {
    return presentResult(state.result, context.system, step.spread === undefined ? {} : { spread: step.spread });
  }
  const problem = state?.problems[0] ?? step.problems[0] ?? {
    code: 'step-open', what: 'This has no value yet.', mend: 'Fill in what it is made of.', cell: step.id,
  };
  return { kind: 'problem', problem };
}

/**
 * The formula with its numbers put in. None where it would only repeat the
 * line above or the result, and none while an input has no value; an input still asked of the reader keeps its letter.
 */
function numbersLine(expression: Expression, state: CellState | undefined, context: PresentContext): string | undefined {
  const reads = state?.reads ?? [];
  if (reads.length === 0 || repeatsResult(expression)) return undefined;
  if (isGuessing(context) && reads.every((symbol) => isSymbolHidden(symbol, context))) return undefined;
  if (reads.some((symbol) => context.states.symbol(symbol)?.status !== 'value')) return undefined;
  const line = typesetSubstituted(
    reads.some((symbol) => isSymbolHidden(symbol, context)) ? expression : openBrackets(expression, environmentOf(context)),
    (symbol) => (isSymbolHidden(symbol, context) ? symbolOf(symbol) : substituted(symbol, context)),
    (symbol) => (isSymbolHidden(symbol, context) ? `u(${symbolOf(symbol)})` : substitutedUncertainty(symbol, context)),
  );
  return line === typeset(expression) ? undefined : line;
}

/** A formula that only names a value or its uncertainty: the number put in would be the result itself. */
function repeatsResult(expression: Expression): boolean {
  return expression.kind === 'symbol' || (expression.kind === 'call' && (expression.name === 'u' || expression.name === 'best'));
}

function substituted(symbol: string, { states, system }: PresentContext): string {
  const state = states.symbol(symbol);
  if (state?.status !== 'value') return symbolOf(symbol);
  const { unit, rounded } = roundedIn(state, system);
  return withUnitTex(decimalTex(rounded.number, rounded.exponent), unit);
}

function substitutedUncertainty(symbol: string, { states, system }: PresentContext): string {
  const state = states.symbol(symbol);
  if (state?.status !== 'value') return `u(${symbolOf(symbol)})`;
  const { unit, rounded } = roundedIn(state, system);
  return withUnitTex(decimalTex(rounded.uncertainty ?? '0', rounded.exponent), unit);
}

function isNumber(expression: Expression): boolean {
  return expression.kind === 'number' || (expression.kind === 'negative' && isNumber(expression.operand));
}

/** The choice's option that sets this step's formula, by its label. */
export function chosenLabel(step: StepCell, context: PresentContext): string | undefined {
  const choice = step.by === undefined ? undefined : cellIn(cellAt(step.by, context), 'choice');
  return choice && asked(context, optionInForceIn, choice, sameInForce)?.option.label;
}

/** What a choice sets at present. */
export const optionInForceIn = ({ document }: WholeContext, choice: ChoiceCell): OptionInForce | undefined => optionInForce(choice, document);

export function sameInForce(a: OptionInForce | undefined, b: OptionInForce | undefined): boolean {
  return a?.option === b?.option && sameWords(a?.waitsFor ?? [], b?.waitsFor ?? []);
}

export function chosenOption(choice: ChoiceCell) {
  return choice.options.find(({ key }) => key === choice.chosen);
}
