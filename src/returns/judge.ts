import { remembered } from '../core/remembered/index.ts';
import { standardUncertainty } from '../core/estimate/index.ts';
import { fail, ok, problemSentence, type Result } from '../core/problem/index.ts';
import { compileSheet, questionStanding, readRecord, reckon, rightStates, type QuestionStanding, type Reckoned } from '../graph/index.ts';
import { NUMBERS_CHANGED, presentCheck, presentMarked, presentSlipBehind, presentSymbol, recordRow, unitSystemOf, type WholeContext } from '../report/index.ts';
import { areNumbersChanged, askedRules, asksForStep, cellIn, cellsOf, earlierTries, isTakenOver, parseAgain, parseSheet, whyNoSheet, type Block, type GivenCell, type QuestionCell, type SheetDocument, type StepCell } from '../sheet/index.ts';
import type { ReturnedAnswer, ReturnedCheck, ReturnedHead, ReturnedSheet, ReturnedTest, ReturnedValue } from './types.ts';

/** A sheet worked out, as far as the next one of its kind can go on from it. */
interface Worked extends Reckoned {
  readonly document: SheetDocument;
}

/** A returned sheet as text, with the names of its files. */
interface ReturnedText {
  readonly id: string;
  readonly files: readonly string[];
  readonly text: string;
  readonly isAltered: boolean;
}

interface Judge {
  /** What a sheet says, judged; without the slips that wrong results come of, which take as long to find as all the rest. */
  readonly judge: (returned: ReturnedText) => Result<ReturnedSheet>;
  /** The same sheet with these. */
  readonly explain: (sheet: ReturnedSheet) => ReturnedSheet;
}

/**
 * Reads and judges returned sheets, one at a time. Sheets of a class are alike: what is the same text as in the first one is not read again, and what
 * reads the same values keeps them.
 */
export function createJudge(): Judge {
  let first: Worked | undefined;
  const work = (text: string): Worked => {
    const document = documentOf(text, first?.document);
    const compiled = compileSheet(document);
    return { document, compiled, states: reckon(compiled, first === undefined ? [] : [first]) };
  };
  return {
    judge: (returned) => {
      const worked = work(returned.text);
      const problem = whyNoSheet(worked.document);
      if (problem !== undefined) return fail(problem);
      first ??= worked;
      return ok(judged(returned, contextOf(worked)));
    },
    explain: (sheet) => {
      if (!sheet.answers.some(({ verdict }) => verdict === 'differs')) return sheet;
      const context = contextOf(work(sheet.text));
      const steps = new Map(cellsOf(context.document, 'step').map((step) => [step.symbol, step]));
      return { ...sheet, answers: sheet.answers.map((answer) => {
        const step = answer.verdict === 'differs' ? steps.get(answer.symbol) : undefined;
        return step === undefined ? answer : { ...answer, comesOf: presentSlipBehind(step, context) };
      }) };
    },
  };
}

function contextOf({ document, states }: Worked): WholeContext {
  return { document, states, system: unitSystemOf(document), reveal: true };
}

/** What is not plain in every respect (doubled ids, cells in trouble) is read by itself, as opening it would read it. */
function documentOf(text: string, like: SheetDocument | undefined): SheetDocument {
  const document = like === undefined ? undefined : parseAgain(text, like);
  const isPlain = document?.problems.length === 0 && document.blocks.every((block) => block.kind === 'prose' || block.cell.problems.length === 0);
  return document !== undefined && isPlain ? document : parseSheet(text);
}

function judged(returned: ReturnedText, context: WholeContext): ReturnedSheet {
  const { document, states } = context;
  return {
    ...returned,
    head: headOf(document),
    values: cellsOf(document, 'given').filter(isEntered).map((given) => valueOf(given, context)),
    answers: [...cellsOf(document, 'step').flatMap((step) => answerOf(step, context)), ...cellsOf(document, 'question').map((question) => questionOf(question, context))],
    checks: cellsOf(document, 'check').map((check): ReturnedCheck => {
      const { holds, message } = presentCheck(check, context);
      return { id: check.id, label: check.label ?? check.id, holds, message };
    }),
    tests: testsOf(context),
    remarks: cellsOf(document, 'remark').filter(({ text }) => text.trim() !== '').map(({ heading, text }) => ({ heading, text: text.trim() })),
    formulas: formulasOf(document),
    troubles: [...document.problems, ...document.frontMatter.problems, ...document.blocks.flatMap(({ id }) => states.cell(id)?.problems ?? [])].map(problemSentence).concat(areNumbersChanged(document) ? [NUMBERS_CHANGED] : []),
  };
}

function headOf({ frontMatter: { entries } }: SheetDocument): ReturnedHead {
  const said = (key: string): string => entries.get(key)?.trim() ?? '';
  return { title: said('title'), team: said('team'), operators: said('operators'), specimen: said('specimen'), machine: said('machine'), date: said('date'), variant: said('variant') };
}

/** Whether somebody entered something of their own there: nothing assumed, invented, or given to the team. */
function isEntered(given: GivenCell): boolean {
  return typedIn(given) !== '' && given.origin === undefined && !isTakenOver(given);
}

function typedIn({ readings, value }: GivenCell): string {
  return (readings ?? value ?? '').trim();
}

function valueOf(given: GivenCell, context: WholeContext): ReturnedValue {
  const { symbol, label = given.symbol } = given;
  const cell = context.states.cell(given.id);
  // A trial value is nothing that was measured.
  const state = cell?.reading?.aside ?? context.states.symbol(symbol);
  const presented = presentSymbol(symbol, context);
  return {
    symbol, label, typed: typedIn(given),
    text: presented === undefined ? '' : presented.kind === 'problem' ? problemSentence(presented.problem) : presented.text,
    readings: cell?.reading?.readings ?? [],
    ...(state?.status === 'value' ? { value: state.estimate.value, unit: state.unit, standardUncertainty: standardUncertainty(state.estimate) } : { standardUncertainty: 0 }),
  };
}

function answerOf(step: StepCell, context: WholeContext): readonly ReturnedAnswer[] {
  const isAnswered = (step.answer ?? '').trim() !== '';
  if (!isAnswered && !asksForStep(step, context.document)) return [];
  const presented = isAnswered ? presentMarked(step, context) : undefined;
  const right = presentSymbol(step.symbol, context);
  const { typed = '', verdict, sentence = '', problem } = presented ?? {};
  return [{
    symbol: step.symbol, label: step.label ?? step.symbol, isQuestion: false, typed, earlier: earlierTries(step), comesOf: [],
    verdict: presented === undefined ? 'open' : problem === undefined ? (verdict ?? 'no result') : 'unreadable',
    sentence: problem === undefined ? sentence : problemSentence(problem),
    right: right === undefined || right.kind === 'problem' ? '' : right.text,
  }];
}

const QUESTION_VERDICTS: Readonly<Record<NonNullable<QuestionStanding['verdict']>, ReturnedAnswer['verdict']>> = {
  agrees: 'agrees', differs: 'differs', 'other dimension': 'differs', 'for the marker': 'for the marker',
};

function questionOf(cell: QuestionCell, { document, states }: WholeContext): ReturnedAnswer {
  const { verdict, problem } = questionStanding(cell, document, rightStates(document, states));
  const typed = cell.answer?.trim() ?? '';
  const right = cell.options?.get(cell.right ?? '') ?? cell.formula ?? '';
  const told = problem === undefined ? (verdict === undefined ? 'no result' : QUESTION_VERDICTS[verdict]) : 'unreadable';
  return {
    symbol: cell.id, label: cell.label ?? cell.id, isQuestion: true, typed: cell.options?.get(typed) ?? typed, earlier: earlierTries(cell), comesOf: [], right,
    verdict: typed === '' ? 'open' : told,
    sentence: problem !== undefined ? problemSentence(problem) : verdict === 'other dimension' ? 'It has another dimension than what is asked for.' : '',
  };
}

function testsOf(context: WholeContext): readonly ReturnedTest[] {
  return cellsOf(context.document, 'record').map((cell) => {
    const { phase, outcome = '' } = readRecord(cell);
    const row = recordRow(cell, context);
    return { label: cell.label ?? cell.id, phase, outcome, ...(row === undefined ? {} : { row }) };
  });
}

/** Formulas and conditions by symbol or cell. What an option of a choice puts in a step's place is among its options, which the sheet has as well. */
function formulasOf(document: SheetDocument): ReadonlyMap<string, string> {
  const rules = [...cellsOf(document, 'step').filter((step) => asksForStep(step, document)).map((step) => [step.symbol, step] as const), ...cellsOf(document, 'question').map((cell) => [cell.id, cell] as const)];
  return new Map([...document.blocks.flatMap(formulasIn), ...rules.map(([name, cell]): [string, string] => [`own ${name}`, JSON.stringify(askedRules(cell, document))])]);
}

/** Of one block: in a class most blocks are the same object in all sheets. */
const formulasIn = remembered((block: Block): readonly (readonly [string, string])[] => {
  const [step, check, choice, question] = [cellIn(block, 'step'), cellIn(block, 'check'), cellIn(block, 'choice'), cellIn(block, 'question')];
  const plain = (text: string): string => text.replace(/\s+/g, '');
  if (step !== undefined) return [[step.symbol, step.formula === undefined ? `by ${step.by ?? ''}` : plain(step.formula)]];
  if (check !== undefined) return [[check.id, plain(check.condition)]];
  if (question !== undefined) return [[question.id, JSON.stringify([question.right, question.formula])]];
  return (choice?.options ?? []).flatMap(({ key, sets }) => [...sets].map(([symbol, text]): [string, string] => [`${symbol} by ${key}`, plain(text)]));
});
