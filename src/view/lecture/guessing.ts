import { nothing, type TemplateResult } from 'lit-html';
import { awaitsGuess, isHidden, presentResult, symbolOf, wholeOf } from '../../report/index.ts';
import type { StepCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { setEquation } from '../equations.ts';
import { raised, type Part } from '../parts.ts';
import { html } from '../template.ts';
import { GUESSES, outcomeOf, outcomeWords, type Guess, type Pause, type Round } from './pause.ts';

const GUESS_WORDS: Readonly<Record<Guess, readonly [words: string, sign: string]>> = { up: ['up', '↑'], down: ['down', '↓'], stays: ['stays', '='] };

interface GuessActions {
  readonly guess: (guess: Guess) => void;
  readonly show: () => void;
  readonly showAll: () => void;
}

/**
 * While results are withheld: the question, the class's guess, and the way to see what came of it; afterwards how it went.
 * @param cell the step at the station, if it is one
 */
export function guessing(cell: StepCell | undefined, { isOn, round }: Pause, desk: Desk, actions: GuessActions): Part {
  if (!isOn) return nothing;
  if (round === undefined) return html`<p class="standing">Predict first: change an input, and every result is held back until you show it.</p>`;
  const all = html`<button type="button" @click=${actions.showAll}>show all</button>`;
  const { guess: _guess, ...own } = wholeOf(desk.context());
  // What is asked of the reader stays with the reader, before and after the guess.
  if (cell === undefined || isHidden(cell.id, own)) return html`<p class="standing">The results are held back.</p> ${all}`;
  return awaitsGuess(cell.id, desk.context()) ? question(cell, round, desk, actions, all) : answer(cell, round, desk, all);
}

function question(cell: StepCell, round: Round, desk: Desk, actions: GuessActions, all: TemplateResult): TemplateResult {
  const guess = round.guesses.get(cell.id);
  return html`<p class="question">Which way does <span ${setEquation(symbolOf(cell.symbol))}></span> go${before(cell, round, desk)}?</p>
    <div class="guesses" role="group" aria-label="The guess">${GUESSES.map((one) => html`<button type="button" aria-pressed=${String(guess === one)}
      @click=${() => actions.guess(one)}>${GUESS_WORDS[one][0]} <kbd aria-hidden="true">${GUESS_WORDS[one][1]}</kbd></button>`)}</div>
    <button type="button" class="show" @click=${actions.show}>show</button> ${all}`;
}

function answer(cell: StepCell, round: Round, desk: Desk, all: TemplateResult): TemplateResult {
  const outcome = outcomeOf(round, cell.id, cell.symbol, wholeOf(desk.context()).states);
  const { guess, isRight } = outcome;
  const verdict = guess === undefined ? '' : isRight === undefined ? `; the guess was “${guess}”` : isRight ? ', as guessed' : `, and not “${guess}” as guessed`;
  return html`<p class="outcome"><span ${setEquation(symbolOf(cell.symbol))}></span> ${raised(outcomeWords(outcome))}${verdict}${before(cell, round, desk)}.</p> ${all}`;
}

function before(cell: StepCell, round: Round, desk: Desk): Part {
  const result = round.before.cell(cell.id)?.result;
  const was = result === undefined ? undefined : presentResult(result, desk.context().system);
  return was?.kind === 'value' ? html` (before: <span class="was">${raised(`${was.number}\u2009${was.unit}`)}</span>)` : nothing;
}
