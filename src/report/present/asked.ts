import type { PresentContext, WholeContext } from './types.ts';

/*
 * What is asked of a sheet while something is drawn is noted with its answer, so that it can be asked again: as long as every answer is the same,
 * the picture is. The context that a form is given is such a one on the page, and the sheet itself in a report. Single states are asked for as
 * ever; what is found by looking about in the whole sheet goes through `asked`, as a question whose answer alone is noted; who takes the
 * document or all states along has noted them.
 */

/** What is looked for, in the sheet itself: the same function each time, for what it is about. */
type Question<Whole, About, Answer> = (whole: Whole, about: About) => Answer;

/** Questions and their answers, as long as something drawn from them stands. */
export interface Observation<Whole> {
  /** @param same whether two answers say the same; the same object unless told otherwise */
  ask<About, Answer>(question: Question<Whole, About, Answer>, about: About, same?: (a: Answer, b: Answer) => boolean): Answer;
  /** What is asked of something that is found in the whole or made of it: by the same function each time. */
  through<Part>(view: (whole: Whole) => Part): Observation<Part>;
  /** Whether every question has its answer still. */
  isStillTrue(): boolean;
}

/** @param source the whole as it is now */
export function observe<Whole>(source: () => Whole): Observation<Whole> {
  const notes = new Map<unknown, Set<unknown>>();
  const parts = new Map<unknown, Observation<unknown>>();
  // One list, since it is gone through for every block at every edit.
  const checks: (() => boolean)[] = [];
  return {
    ask: (question, about, same = Object.is) => {
      let known = notes.get(question);
      if (known === undefined) notes.set(question, (known = new Set()));
      if (known.has(about)) return question(source(), about);
      known.add(about);
      // What fails has no answer that could stay the same.
      const at = checks.push(() => false) - 1;
      const answer = question(source(), about);
      checks[at] = () => {
        const now = question(source(), about);
        return Object.is(now, answer) || same(now, answer);
      };
      return answer;
    },
    through: <Part>(view: (whole: Whole) => Part) => {
      let part = parts.get(view);
      if (part === undefined) {
        const made = observe(keptFor(source, view));
        parts.set(view, (part = made as Observation<unknown>));
        checks.push(made.isStillTrue);
      }
      return part as Observation<Part>;
    },
    isStillTrue: () => {
      for (const isSame of checks) if (!isSame()) return false;
      return true;
    },
  };
}

/** The view of a whole, made once while that is the same. */
function keptFor<Whole, Part>(source: () => Whole, view: (whole: Whole) => Part): () => Part {
  let kept: { readonly whole: Whole; readonly part: Part } | undefined;
  return () => {
    const whole = source();
    if (kept === undefined || kept.whole !== whole) kept = { whole, part: view(whole) };
    return kept.part;
  };
}

const observations = new WeakMap<PresentContext, Observation<WholeContext>>();

/** The sheet as it is to be handed to what draws: whatever is asked of it is noted. */
export function observedContext(observation: Observation<WholeContext>): PresentContext {
  const { ask } = observation;
  const context: PresentContext = {
    get document() { return ask(documentOf, undefined); },
    get system() { return ask(systemOf, undefined); },
    get reveal() { return ask(revealOf, undefined); },
    get guess() { return ask(guessOf, undefined); },
    get told() { return ask(toldOf, undefined); },
    states: {
      cell: (cellId) => ask(cellState, cellId),
      symbol: (name) => ask(symbolState, name),
      definedBy: (name) => ask(definedBy, name),
    },
  };
  observations.set(context, observation);
  return context;
}

const documentOf = ({ document }: WholeContext) => document;
const systemOf = ({ system }: WholeContext) => system;
const revealOf = ({ reveal }: WholeContext) => reveal;
const guessOf = ({ guess }: WholeContext) => guess;
const toldOf = ({ told }: WholeContext) => told;
const allStatesOf = ({ states }: WholeContext) => states;
const cellState = ({ states }: WholeContext, cellId: string) => states.cell(cellId);
const symbolState = ({ states }: WholeContext, name: string) => states.symbol(name);
const definedBy = ({ states }: WholeContext, name: string) => states.definedBy(name);

/** Asks the sheet itself; where that is observed, the answer is noted and nothing else that was looked at. */
export function asked<About, Answer>(
  context: PresentContext, question: Question<WholeContext, About, Answer>, about: About, same?: (a: Answer, b: Answer) => boolean,
): Answer {
  const observation = observations.get(context);
  return observation === undefined ? question(unobserved(context), about) : observation.ask(question, about, same);
}

/** The sheet itself, all of which is then noted: what is made of it is made anew after every edit. */
export function wholeOf(context: PresentContext): WholeContext {
  if (!observations.has(context)) return unobserved(context);
  const { document, system, reveal, guess, told } = context;
  return {
    document, system, states: asked(context, allStatesOf, undefined),
    ...(reveal === undefined ? {} : { reveal }), ...(guess === undefined ? {} : { guess }), ...(told === undefined ? {} : { told }),
  };
}

/** Another state of the sheet that is made of this one. @param view the same function each time */
export function seenAs(context: PresentContext, view: (whole: WholeContext) => WholeContext): PresentContext {
  const observation = observations.get(context);
  return observation === undefined ? view(unobserved(context)) : observedContext(observation.through(view));
}

/** @throws where somebody put a context together of parts of an observed one, by which notes would get lost */
function unobserved(context: PresentContext): WholeContext {
  if (!isWhole(context)) throw new Error('a context made of an observed one: what is asked of it would not be noted');
  return context;
}

function isWhole(context: PresentContext): context is WholeContext {
  return 'symbols' in context.states;
}

/** For answers that are lists of words. */
export function sameWords(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((word, i) => word === b[i]);
}
