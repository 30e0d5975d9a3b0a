import { diagnose } from '../../core/diagnosis/index.ts';
import { composed } from '../../core/problem/index.ts';
import { fromSI, type Quantity } from '../../core/units/index.ts';
import { allowanceOf, markOf, ownResults, ownWorkingOf, rightStates, workingOf, type Allowance, type Mark, type Standing, type Verdict } from '../../graph/index.ts';
import type { RangeWord } from '../../graph/types.ts';
import { askedRules, type AskedRules } from '../../sheet/index.ts';
import type { SheetDocument, StepCell } from '../../sheet/types.ts';
import { asked, sameWords } from './asked.ts';
import { figures, plainFigures, unitText, withUnit } from './number.ts';
import { explanationWords } from './slip-words.ts';
import { withoutSlips } from './slips.ts';
import { markedSheet, standingOf } from './standing-of.ts';
import type { PresentContext, WholeContext, PresentedAnswer } from './types.ts';

/** The reader's own result beside the sheet's; undefined where they have entered none. */
export function presentAnswer(step: StepCell, context: PresentContext): PresentedAnswer | undefined {
  const typed = step.answer?.trim() ?? '';
  if (typed === '') return undefined;
  // What nobody asks for any more is beside the sheet's result still.
  const { mark, ...standing } = standingOf(step.id, context) ?? { mark: asked(context, markBeside, step), isTold: true, isKeptForLater: false, used: 0, tries: 1 };
  if (mark === undefined) return { typed };
  if (mark.kind === 'unreadable') return { typed, problem: mark.problem };
  if (standing.isKeptForLater) return { typed, sentence: 'Kept. You are told once you hand in.' };
  if (mark.kind === 'no result') return { typed, ...(mark.word === undefined ? {} : { sentence: noResultSentence(mark.word) }) };
  const comesOf = mark.verdict === 'differs' ? comesOfWrong(step, mark, askedHints, context) : [];
  return { typed, verdict: mark.verdict, sentence: verdictSentence(mark, standing), ...(comesOf.length === 0 ? {} : { comesOf }) };
}

/** An own result as whoever marks it sees it: judged, and told how far off it is, whatever its reader was told so far. What slip it comes of is asked apart, since that takes as long as all the rest. */
export function presentMarked(step: StepCell, context: WholeContext): Omit<PresentedAnswer, 'comesOf'> | undefined {
  const mark = markBeside(context, step);
  const typed = step.answer?.trim() ?? '';
  if (mark === undefined) return undefined;
  if (mark.kind === 'unreadable') return { typed, problem: mark.problem };
  if (mark.kind === 'no result') return { typed, ...(mark.word === undefined ? {} : { sentence: noResultSentence(mark.word) }) };
  return { typed, verdict: mark.verdict, sentence: verdictSentence(mark, { isTold: true, used: 0, tries: 1 }) };
}

/** What slip a wrong own result comes of, whether its reader is given hints or not; none where it is not wrong. */
export function presentSlipBehind(step: StepCell, context: WholeContext): readonly string[] {
  const mark = markBeside(context, step);
  return mark?.kind === 'judged' && mark.verdict === 'differs' ? comesOfWrong(step, mark, () => 'all', context) : [];
}

const markBeside = (whole: WholeContext, step: StepCell): Mark | undefined => markOf(step, markedSheet(whole));

function noResultSentence(word: RangeWord): string {
  if (word === 'open') return 'The sheet has no number here yet.';
  return 'The sheet gives no number here, because the stress lies outside the range of its line.';
}

type Judged = Mark & { readonly kind: 'judged' };

function verdictSentence(mark: Judged, standing: Pick<Standing, 'isTold' | 'used' | 'tries'>): string {
  if (mark.verdict !== 'differs') return PLAIN_SENTENCES[mark.verdict](mark);
  const { value, unit } = mark.answer.quantity;
  const left = standing.tries - standing.used;
  // How far off it is would tell the result itself.
  const far = value === 0 ? 'Yours is zero, and the sheet’s is not.' : standing.isTold ? differenceSentence({ value, unit }, mark.right) : 'This is not the sheet’s.';
  return standing.isTold ? far : `${far} ${left === 1 ? 'One try is' : `${left} tries are`} left.`;
}

type HintsFor = (step: StepCell, document: SheetDocument) => AskedRules['hints'];
const askedHints: HintsFor = (step, document) => askedRules(step, document).hints;

function comesOfWrong(step: StepCell, { answer }: Judged, hintsFor: HintsFor, context: PresentContext): readonly string[] {
  const { value } = answer.quantity;
  return value === 0 ? [] : asked(context, whatWentWrong, { step, value, halfLastPlace: answer.halfLastDigit, hintsFor }, sameWords);
}

const PLAIN_SENTENCES: Readonly<Record<Exclude<Verdict, 'differs'>, (mark: Judged) => string>> = {
  agrees: () => 'Yours agrees with the sheet’s.',
  'too few digits': () => 'More digits, please: what is typed could be the sheet’s, rounded too far.',
  carried: ({ carriedFrom }) => composed`Right for what you had before, though that is not the sheet’s: ${carriedFrom.join(', ')}.`,
};

/** A result of the reader's that is not the sheet's. */
interface WrongAnswer {
  readonly step: StepCell;
  readonly value: number;
  readonly halfLastPlace: number;
  readonly hintsFor: HintsFor;
}

/** More than these would say nothing. */
const MOST_WORDS = 2;

/** Where two sets of numbers are searched, each may explain half as much by chance. */
const BY_CHANCE_EACH = 0.0225;

/** What slip theirs comes of, the simplest first, and what is the same thing in other words. First with their own earlier results, which they may have gone on with. */
function whatWentWrong(context: WholeContext, { step, value, halfLastPlace }: WrongAnswer): readonly string[] {
  const { document, states } = context;
  const { hints } = askedRules(step, document);
  if (hints === 'none') return [];
  const right = rightStates(document, states);
  const own = ownResults({ document, states: right });
  const working = workingOf(step, document, right, (symbol) => own.has(symbol));
  if (working === undefined) return [];
  const theirs = hints === 'all' ? ownWorkingOf(working, step, new Map([...own].map(([symbol, { quantity }]) => [symbol, quantity.value])), right) : undefined;
  const wrong = { value, halfLastPlace };
  const ofTheirs = theirs && diagnose(theirs, wrong, BY_CHANCE_EACH)?.explanations;
  const ofTheSheets = diagnose(working, wrong, theirs && BY_CHANCE_EACH)?.explanations.filter(({ slips }) => hints === 'all' || slips.every(({ kind }) => kind === 'listed'));
  const isTheirs = Math.floor(ofTheirs?.[0]?.tier ?? Number.POSITIVE_INFINITY) <= Math.floor(ofTheSheets?.[0]?.tier ?? Number.MAX_VALUE);
  const [simplest, ...same] = (isTheirs ? ofTheirs : ofTheSheets) ?? [];
  if (simplest === undefined) return [];
  const told = [simplest, ...same.filter(({ tier }) => Math.floor(tier) === Math.floor(simplest.tier))].slice(0, MOST_WORDS).map((one) => explanationWords(one, step.symbol, context));
  return isTheirs ? told.map((words) => `${words}, going on with your own earlier results`) : told;
}

/** The ratio, since it tells how far off it is; the difference where a ratio means nothing. */
function differenceSentence({ value, unit }: Pick<Quantity, 'value' | 'unit'>, ours: number): string {
  if (ours !== 0 && unit.offset === 0) return `Yours is ${figures(value / ours, 3)} times the sheet’s.`;
  return `Yours is ${withUnit(figures(fromSI(value, unit) - fromSI(ours, unit), 3), unitText(unit))} away from the sheet’s.`;
}

/** What is said before an own result is entered: how near it has to be, and when the sheet's shows. */
export function answerRule(step: StepCell, context: PresentContext): string {
  const rules = asked(context, rulesOf, step, (one, other) => JSON.stringify(one) === JSON.stringify(other));
  const state = withoutSlips(context).states.symbol(step.symbol);
  const near = state?.status === 'value' ? `Right ${allowanceWords(allowanceOf(rules.tolerance, step, state))}. ` : '';
  const unit = rules.isUnitRequired ? 'With its unit. ' : '';
  const standing = standingOf(step.id, context);
  const left = rules.tries - (standing?.used ?? 0);
  return near + unit + (rules.feedback === 'at the end' ? 'You are told once you hand in.' : triesWords(left));
}

const rulesOf = ({ document }: { readonly document: SheetDocument }, step: StepCell) => askedRules(step, document);

function triesWords(left: number): string {
  return left <= 1 ? 'One try, then the sheet’s shows.' : `${left} tries, then the sheet’s shows.`;
}

function allowanceWords(allowance: Allowance): string {
  if (allowance.kind === 'share') return `within ${plainFigures(100 * allowance.share, 2)} %`;
  if (allowance.kind === 'factor') return `within a factor of ${plainFigures(allowance.factor, 3)}`;
  if (allowance.figures !== undefined) return `to ${allowance.figures} significant ${allowance.figures === 1 ? 'figure' : 'figures'}`;
  return `within ${plainFigures(allowance.uncertainties ?? 1, 3)} u of the sheet’s`;
}
