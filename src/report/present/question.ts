import { parseFormula, typeset } from '../../core/formula/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import { isJudged, questionStanding, rightStates, symbolsOffered, type QuestionStanding } from '../../graph/index.ts';
import type { QuestionCell } from '../../sheet/types.ts';
import { asked } from './asked.ts';
import { liveText } from './live.ts';
import { notesOf } from './notes.ts';
import { symbolOf } from './symbol.ts';
import type { PresentContext, PresentedNotes, WholeContext } from './types.ts';

/** A question with its reader's answer. */
export interface PresentedQuestion extends PresentedNotes {
  readonly way: 'options' | 'expression' | 'words';
  /** Of a question with options. */
  readonly options: readonly { readonly key: string; readonly words: string; readonly isAnswer: boolean; readonly isRight: boolean }[];
  /** Symbols that an expression may be written in, in TeX. */
  readonly offeredTex: readonly string[];
  readonly typed: string;
  /** The reader's expression as it was read. */
  readonly typedTex?: string;
  /** What is said before the answer: how many tries. */
  readonly rule: string;
  readonly verdict?: QuestionStanding['verdict'];
  readonly sentence?: string;
  readonly problem?: Problem;
  /** Whether it can still be answered. */
  readonly isOpen: boolean;
  /** The right answer, once it is told and there is one. */
  readonly right?: { readonly tex: string } | { readonly words: string };
  readonly why?: string;
}

export function presentQuestion(cell: QuestionCell, context: PresentContext): PresentedQuestion {
  const standing = asked(context, standingIn, cell, (one, other) => JSON.stringify(one) === JSON.stringify(other));
  const { verdict, problem, isTold } = standing;
  const typed = cell.answer?.trim() ?? '';
  const isShown = isTold && isJudged(cell);
  const sentence = sentenceOf(standing, typed);
  return {
    ...notesOf(cell, context),
    way: cell.options !== undefined ? 'options' : cell.formula !== undefined ? 'expression' : 'words',
    options: [...(cell.options ?? [])].map(([key, words]) => ({ key, words, isAnswer: key === typed, isRight: isShown && key === cell.right })),
    offeredTex: symbolsOffered(cell).map(symbolOf),
    typed,
    ...(cell.formula === undefined ? {} : texOf('typedTex', typed)),
    rule: isJudged(cell) ? ruleOf(standing) : 'For whoever marks it.',
    ...(verdict === undefined || standing.isKeptForLater ? {} : { verdict }),
    ...(sentence === undefined ? {} : { sentence }),
    ...(problem === undefined ? {} : { problem }),
    isOpen: !isShown,
    ...(isShown ? rightOf(cell) : {}),
    ...(isShown && cell.why !== undefined ? { why: liveText(cell.why, context) } : {}),
  };
}

const standingIn = ({ document, states }: WholeContext, cell: QuestionCell): QuestionStanding => questionStanding(cell, document, rightStates(document, states));

function texOf<K extends string>(name: K, typed: string): { readonly [name in K]?: string } {
  const parsed = typed === '' ? undefined : parseFormula(typed);
  return parsed?.ok === true ? { [name]: typeset(parsed.value) } as { readonly [name in K]?: string } : {};
}

function rightOf(cell: QuestionCell): Pick<PresentedQuestion, 'right'> {
  if (cell.options !== undefined) return { right: { words: cell.options.get(cell.right ?? '') ?? '' } };
  const { tex } = texOf('tex', cell.formula ?? '');
  return tex === undefined ? {} : { right: { tex } };
}

function ruleOf({ tries, used, isKeptForLater }: QuestionStanding): string {
  const left = tries - used;
  if (isKeptForLater) return 'You are told once you hand in.';
  return left <= 1 ? 'One try, then the right answer shows.' : `${left} tries, then the right answer shows.`;
}

function sentenceOf({ verdict, used, tries, isTold, isKeptForLater }: QuestionStanding, typed: string): string | undefined {
  if (typed === '' || verdict === undefined) return undefined;
  if (isKeptForLater) return 'Kept. You are told once you hand in.';
  if (verdict === 'agrees') return 'Right.';
  if (verdict === 'for the marker') return 'Kept for whoever marks it.';
  const wrong = verdict === 'differs' ? 'Not right.' : 'Not right: it has another dimension than what is asked for.';
  return isTold ? wrong : `${wrong} ${tries - used === 1 ? 'One try is' : `${tries - used} tries are`} left.`;
}

/** Whether a question waits for its answer. */
export function isUnanswered(cell: QuestionCell, whole: WholeContext): boolean {
  const { isTold, verdict, isKeptForLater } = standingIn(whole, cell);
  return !isTold && !(isKeptForLater && verdict !== undefined);
}

