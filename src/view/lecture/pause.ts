import type { SheetStates } from '../../graph/types.ts';
import type { PresentContext } from '../../report/index.ts';
import { movedBetween, type Moved } from '../moved.ts';

/** Which way a class thinks that a result goes. */
export type Guess = 'up' | 'down' | 'stays';
export const GUESSES: readonly Guess[] = ['up', 'down', 'stays'];

/** From an edit until the next one after something was shown. */
export interface Round {
  /** The sheet before the edit. */
  readonly before: SheetStates;
  readonly guesses: ReadonlyMap<string, Guess>;
  /** Cells whose results have been shown. */
  readonly shown: ReadonlySet<string>;
}

/** What came of a result, and whether the class had said so. */
export interface Outcome {
  readonly moved: Moved | undefined;
  readonly guess: Guess | undefined;
  /** Undefined without a guess, and where a result has no direction: it lost its value, for instance. */
  readonly isRight: boolean | undefined;
}

/** Guess first: while it is on, an edit withholds every result until it is asked for. */
export interface Pause {
  readonly isOn: boolean;
  /** What an edit has withheld; undefined where nothing is. */
  readonly round: Round | undefined;
}

export const NO_PAUSE: Pause = { isOn: false, round: undefined };

export function switchPause({ isOn }: Pause): Pause {
  return { isOn: !isOn, round: undefined };
}

/** After an edit: a round goes on while a value is being typed, and begins anew once something of it was shown. */
export function edited(pause: Pause, before: SheetStates): Pause {
  if (!pause.isOn) return pause;
  if (pause.round !== undefined && pause.round.shown.size === 0) return pause;
  return { isOn: true, round: { before, guesses: new Map(), shown: new Set() } };
}

export function guessed(pause: Pause, cellId: string, guess: Guess): Pause {
  return pause.round === undefined ? pause : { ...pause, round: { ...pause.round, guesses: new Map([...pause.round.guesses, [cellId, guess]]) } };
}

export function show(pause: Pause, cellIds: readonly string[]): Pause {
  return pause.round === undefined ? pause : { ...pause, round: { ...pause.round, shown: new Set([...pause.round.shown, ...cellIds]) } };
}

/** What the presenting of the sheet has to know of it. */
export function guessBy({ round }: Pause): Pick<PresentContext, 'guess'> {
  return round === undefined ? {} : { guess: { shown: round.shown } };
}

export function outcomeOf({ before, guesses }: Round, cellId: string, symbol: string, after: SheetStates): Outcome {
  const moved = movedBetween(before.symbol(symbol), after.symbol(symbol));
  const guess = guesses.get(cellId);
  const direction = moved === undefined ? 'stays' : moved.direction;
  return { moved, guess, isRight: guess === undefined || direction === 'other' ? undefined : guess === direction };
}

/** How a result moved, as a sentence: `went up by 12 %`. */
export function outcomeWords({ moved }: Outcome): string {
  if (moved === undefined) return 'stays as it was';
  if (moved.direction === 'other') return moved.text;
  const way = `went ${moved.direction}`;
  return moved.text.endsWith('%') ? `${way} by ${moved.text}` : `${way}, ${moved.text}`;
}
