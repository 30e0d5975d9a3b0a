import { nothing, type TemplateResult } from 'lit-html';
import { awaitsGuess, isHidden, presentPrediction, presentResult, symbolOf, wholeOf, type PresentContext } from '../../report/index.ts';
import { lecturePredictions, type StepCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { setEquation } from '../equations.ts';
import { raised, type Part } from '../parts.ts';
import { html } from '../template.ts';
import { PREDICTING, type Reveal } from './order.ts';
import { GUESSES, outcomeOf, outcomeWords, type Guess, type Pause, type Round } from './pause.ts';

const GUESS_WORDS: Readonly<Record<Guess, readonly [words: string, sign: string]>> = { up: ['up', '↑'], down: ['down', '↓'], stays: ['stays', '='] };

/** Whose hands are up, and how the prediction at the station stands. */
interface Hands {
  readonly hand: Guess | undefined;
  readonly reveal: Reveal;
  readonly said: Guess | undefined;
}

interface GuessActions {
  readonly guess: (guess: Guess) => void;
  readonly show: () => void;
  readonly showAll: () => void;
}

/**
 * While results are withheld: the question, the class's guess, and the way to see what came of it; afterwards how it went.
 * @param cell the step at the station, if it is one
 */
export function guessing(cell: StepCell | undefined, { isOn, round, ...hands }: Pause & Hands, desk: Desk, actions: GuessActions): Part {
  if (cell !== undefined && isPredicting(hands)) return prediction(cell, hands, desk, actions);
  if (!isOn) return nothing;
  if (round === undefined) return html`<p class="standing">Predict first: change an input, and every result is held back until you show it.</p>`;
  const all = html`<button type="button" @click=${actions.showAll}>show all</button>`;
  const { guess: _guess, ...own } = wholeOf(desk.context());
  // What is asked of the reader stays with the reader, before and after the guess.
  if (cell === undefined || isHidden(cell.id, own)) return html`<p class="standing">The results are held back.</p> ${all}`;
  return awaitsGuess(cell.id, desk.context()) ? html`${question(cell, round, desk, hands.hand, actions)} <button type="button" class="show" @click=${actions.show}>show</button> ${all}` : answer(cell, round, desk, all);
}

function question(cell: StepCell, round: Round, desk: Desk, hand: Guess | undefined, actions: GuessActions): TemplateResult {
  return html`<p class="question">Which way does <span ${setEquation(symbolOf(cell.symbol))}></span> go${before(cell, round, desk)}?</p>
    ${guesses(round.guesses.get(cell.id), hand, actions)}`;
}

/** What may be said, with what was; those whose hands are up stand out. */
function guesses(said: Guess | undefined, hand: Guess | undefined, actions: Pick<GuessActions, 'guess'>): TemplateResult {
  return html`<div class="guesses" role="group" aria-label="The guess">${hand === undefined ? nothing : html`<span>Hands up:</span>`}${GUESSES.map((one) => html`<button type="button" aria-pressed=${String(said === one)}
      aria-current=${hand === one ? 'step' : nothing} @click=${() => actions.guess(one)}>${GUESS_WORDS[one][0]} <kbd aria-hidden="true">${GUESS_WORDS[one][1]}</kbd></button>`)}</div>`;
}

export function isPredicting({ reveal }: Pick<Hands, 'reveal'>): boolean {
  return PREDICTING.includes(reveal);
}

const predictionAt = ({ document }: PresentContext, cellId: string) => lecturePredictions(document).get(cellId);

/** What the head of the sheet has the class predict, and what came of it. The sheet itself stays as it is. */
function prediction(cell: StepCell, { hand, reveal, said }: Hands, desk: Desk, actions: GuessActions): Part {
  const context = wholeOf(desk.context());
  const asksFor = predictionAt(context, cell.id);
  if (asksFor === undefined) return nothing;
  const { ofTex, change, outcome } = presentPrediction(asksFor, cell.symbol, context);
  const of = html`<span ${setEquation(ofTex)}></span>`;
  const result = html`<span ${setEquation(symbolOf(cell.symbol))}></span>`;
  if (reveal !== 'outcome') return html`<p class="question">${change} of ${of}: which way does ${result} go?</p> ${guesses(said, hand, actions)}`;
  const came = outcome === undefined ? 'has no value there' : outcome.direction === 'stays' ? 'stays as it is' : `goes ${outcome.direction} by ${outcome.text}`;
  return html`<p class="outcome">${change} of ${of}: ${result} ${raised(came)}${said === undefined || outcome === undefined ? '' : verdict(said, said === outcome.direction)}.</p>`;
}

function verdict(guess: Guess, isRight: boolean | undefined): string {
  return isRight === undefined ? `; the guess was “${guess}”` : isRight ? ', as guessed' : `, and not “${guess}” as guessed`;
}

function answer(cell: StepCell, round: Round, desk: Desk, all: TemplateResult): TemplateResult {
  const outcome = outcomeOf(round, cell.id, cell.symbol, wholeOf(desk.context()).states);
  const { guess, isRight } = outcome;
  return html`<p class="outcome"><span ${setEquation(symbolOf(cell.symbol))}></span> ${raised(outcomeWords(outcome))}${guess === undefined ? '' : verdict(guess, isRight)}${before(cell, round, desk)}.</p> ${all}`;
}

function before(cell: StepCell, round: Round, desk: Desk): Part {
  const result = round.before.cell(cell.id)?.result;
  const was = result === undefined ? undefined : presentResult(result, desk.context().system);
  return was?.kind === 'value' ? html` (before: <span class="was">${raised(`${was.number}\u2009${was.unit}`)}</span>)` : nothing;
}
