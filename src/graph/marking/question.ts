import { parseFormula, referencedSymbols, symbolInWords } from '../../core/formula/index.ts';
import type { Expression } from '../../core/formula/types.ts';
import { composed, type Problem } from '../../core/problem/index.ts';
import { askedRules, earlierTries, handedIn, triesText, type SheetDocument } from '../../sheet/index.ts';
import type { QuestionCell } from '../../sheet/types.ts';
import type { SheetStates } from '../types.ts';
import { sameExpression } from './same-expression.ts';

/** An answer to a question: `for the marker` where no answer of it is right or wrong by itself. */
export type QuestionVerdict = 'agrees' | 'differs' | 'other dimension' | 'for the marker';

/** How a question stands with its reader. */
export interface QuestionStanding {
  /** What keeps the answer from being judged; it counts as no try. */
  readonly problem?: Problem;
  readonly verdict?: QuestionVerdict;
  /** Wrong answers so far, and how many there may be. */
  readonly used: number;
  readonly tries: number;
  /** Whether the right answer shows. */
  readonly isTold: boolean;
  readonly isKeptForLater: boolean;
}

/** Whether an answer to it is right or wrong by itself. */
export function isJudged({ right, formula }: QuestionCell): boolean {
  return right !== undefined || formula !== undefined;
}

/** Symbols in which an expression may be written. */
export function symbolsOffered(cell: QuestionCell): readonly string[] {
  if (cell.in !== undefined) return cell.in;
  const right = cell.formula === undefined ? undefined : parseFormula(cell.formula);
  return right?.ok === true ? referencedSymbols(right.value) : [];
}

/** How a question stands. @param states without slips */
export function questionStanding(cell: QuestionCell, document: SheetDocument, states: SheetStates): QuestionStanding {
  const { tries, feedback } = askedRules(cell, document);
  const judged = judge(cell, states);
  const isKeptForLater = feedback === 'at the end' && handedIn(document) === undefined;
  const used = earlierTries(cell).length + (isWrong(judged.verdict) && earlierTries(cell).at(-1) !== cell.answer?.trim() ? 1 : 0);
  const isShown = judged.verdict !== undefined && (!isWrong(judged.verdict) || cell.isTold === true || used >= tries || feedback === 'at the end');
  return { ...judged, used, tries, isKeptForLater, isTold: isShown && !isKeptForLater };
}

function isWrong(verdict: QuestionVerdict | undefined): boolean {
  return verdict === 'differs' || verdict === 'other dimension';
}

function judge(cell: QuestionCell, states: SheetStates): Pick<QuestionStanding, 'verdict' | 'problem'> {
  const typed = cell.answer?.trim() ?? '';
  if (typed === '') return {};
  if (cell.options !== undefined && !cell.options.has(typed)) return { problem: answerProblem(cell, 'answer-no-option', composed`“${typed}” is none of the options here.`, 'Choose one of them.') };
  if (!isJudged(cell)) return { verdict: 'for the marker' };
  if (cell.options !== undefined) return { verdict: typed === cell.right ? 'agrees' : 'differs' };
  return judgeExpression(cell, typed, states);
}

function judgeExpression(cell: QuestionCell, typed: string, states: SheetStates): Pick<QuestionStanding, 'verdict' | 'problem'> {
  const [yours, right] = [parseFormula(typed), parseFormula(cell.formula ?? '')];
  if (!yours.ok) return { problem: { ...yours.problem, cell: cell.id, key: 'answer' } };
  if (!right.ok) return {};
  const strange = strangeIn(yours.value, symbolsOffered(cell));
  if (strange !== undefined) {
    return { problem: answerProblem(cell, 'answer-other-symbol', composed`${symbolInWords(strange)} is not among what it is asked in.`, `Write it in ${symbolsOffered(cell).map(symbolInWords).join(', ')}. It counts as no try.`) };
  }
  const same = sameExpression(yours.value, right.value, states);
  if (same === undefined) return {};
  return { verdict: same === 'same' ? 'agrees' : same === 'other' ? 'differs' : same };
}

function strangeIn(expression: Expression, offered: readonly string[]): string | undefined {
  return referencedSymbols(expression).find((symbol) => !offered.includes(symbol));
}

function answerProblem({ id }: QuestionCell, code: string, what: string, mend: string): Problem {
  return { code, what, mend, cell: id, key: 'answer' };
}

/** The keys of a question once something else is answered: what was wrong before goes to the tries, and what brings the right one to light says so. */
export function questionKeys(cell: QuestionCell, typed: string, document: SheetDocument, states: SheetStates): ReadonlyMap<string, string | undefined> {
  const earlier = earlierTries(cell);
  const before = cell.answer?.trim() ?? '';
  const tried = triesText(isWrong(judge(cell, states).verdict) && earlier.at(-1) !== before ? [...earlier, before] : earlier);
  const next = { ...cell, answer: typed, isTold: false, ...(tried === undefined ? {} : { tried }) };
  const { isTold } = questionStanding(next, document, states);
  return new Map([['answer', typed === '' ? undefined : typed], ['tried', tried], ['told', isTold && isJudged(cell) && askedRules(cell, document).feedback === 'at once' ? 'true' : undefined]]);
}
