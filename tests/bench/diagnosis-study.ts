/**
 * How often a wrong result is explained rightly, and how often a number at random is explained at all. The wrong results of `planted-slips.ts` are worked
 * out by hand, in the numbers that a person has before them; the search knows nothing of that list.
 */
import { diagnose, type Slip, type Working } from '../../src/core/diagnosis/index.ts';
import { createRandom, type Random } from '../../src/core/numeric/index.ts';
import { rememberedByName } from '../../src/core/remembered/index.ts';
import { createSheetGraph, workingOf, type SheetStates } from '../../src/graph/index.ts';
import { applyEdit, cellsOf, parseSheet, type SheetDocument } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';
import type { Planted } from './planted-slips.ts';

/** A sheet with numbers of its own, and its values in the units that they are shown in. */
export interface Setup {
  readonly document: SheetDocument;
  readonly states: SheetStates;
  readonly number: (symbol: string) => number;
  readonly asked: ReadonlySet<string>;
}

/** The stress hangs on these so strongly that the life would soon be outside its line. */
const SLIGHTLY: ReadonlySet<string> = new Set(['d', 't', 'z_0', 'z_1', 'z_2', 'L_b']);

/** Givens that are changed at random, each by up to 20 %, or 4 %. */
const READ: Readonly<Record<string, readonly string[]>> = {
  'rotating-bending': ['s_1', 's_2', 's_3', 'd', 'F', 'F_0', 'n'],
  'alternating-bending': ['L_b', 'b', 't', 'z_0', 'z_1', 'z_2'],
};

/** The sheet with numbers at random at which every asked step has a value. */
export async function setUp(sheet: keyof typeof READ & string, asked: readonly string[], random: Random): Promise<Setup> {
  for (;;) {
    const made = await atRandom(sheet, asked, random);
    if (asked.every((symbol) => made.states.symbol(symbol)?.status === 'value')) return made;
  }
}

async function atRandom(sheet: keyof typeof READ & string, asked: readonly string[], random: Random): Promise<Setup> {
  let document = parseSheet(shipped(sheet));
  const graph0 = createSheetGraph(document);
  const before = await graph0.settled();
  graph0.dispose();
  const put = (symbol: string, number: number): void => {
    const given = cellsOf(document, 'given').find((one) => one.symbol === symbol);
    const state = before.symbol(symbol);
    if (given === undefined || state?.status !== 'value') throw new Error(`no value of ${symbol}`);
    for (const [key, value] of [['readings', undefined], ['value', `${Number(number.toPrecision(5))} ${state.unit.name}`]] as const) {
      const applied = applyEdit(document, { do: 'set key', cellId: given.id, key, value });
      if (!applied.ok) throw new Error(applied.problem.what);
      document = applied.value;
    }
  };
  const number = (states: SheetStates) => (symbol: string): number => {
    const state = states.symbol(symbol);
    if (state?.status !== 'value') throw new Error(`no value of ${symbol}`);
    return state.estimate.value / state.unit.factor;
  };
  const typed = new Map((READ[sheet] ?? []).map((symbol) => [symbol, number(before)(symbol) * (1 + (SLIGHTLY.has(symbol) ? 0.04 : 0.2) * (2 * random.uniform() - 1))]));
  for (const [symbol, value] of typed) put(symbol, value);
  if (sheet === 'rotating-bending') {
    // The spans close, and the section lies between the load points.
    const [s_1 = 0, s_2 = 0, s_3 = 0] = ['s_1', 's_2', 's_3'].map((symbol) => typed.get(symbol));
    put('L', s_1 + s_2 + s_3);
    put('x_s', s_1 + s_2 * (0.2 + 0.6 * random.uniform()));
  }
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  graph.dispose();
  return { document, states, number: number(states), asked: new Set(asked) };
}

export const workingAt = rememberedByName(({ document, states, asked }: Setup, symbol: string): Working => {
  const step = cellsOf(document, 'step').find((one) => one.symbol === symbol);
  const working = step && workingOf(step, document, states, (name) => asked.has(name));
  if (working === undefined) throw new Error(`no working of ${symbol}`);
  return working;
});

/** A number as it is typed with so many significant figures: its value, and half a unit of its last place, SI. */
export function typedAs(number: number, figures: number, factor: number): { readonly value: number; readonly halfLastPlace: number } {
  const place = 10 ** (Math.floor(Math.log10(Math.abs(number))) - figures + 1);
  return { value: Number(number.toPrecision(figures)) * factor, halfLastPlace: (place / 2) * factor };
}

export interface Told {
  readonly verdict: 'first' | 'told' | 'other' | 'silent' | 'right';
  readonly slips: readonly Slip[];
}

/** What is told of a planted slip; `right` where it is within 1 % of what is right and no slip to anybody. */
export function tellOf(planted: Planted, setup: Setup, figures: number): Told {
  const working = workingAt(setup, planted.step);
  const wrong = typedAs(planted.wrong(setup.number), figures, working.unit.factor);
  if (Math.abs(wrong.value / working.right - 1) < 0.01) return { verdict: 'right', slips: [] };
  const told = diagnose(working, wrong)?.explanations ?? [];
  const names = told.map(({ slips, at }) => slips.map((slip) => nameOf(slip, at)).join(' + '));
  const isIt = (name: string): boolean => planted.is.includes(name);
  const slips = told[0]?.slips ?? [];
  if (names.length === 0) return { verdict: 'silent', slips };
  if (isIt(names[0] ?? '')) return { verdict: 'first', slips };
  return { verdict: names.slice(0, 3).some(isIt) ? 'told' : 'other', slips };
}

/** `times d`, `left out l_2`, `power of ten`: what was done, with the symbols that it was done to. */
export function nameOf(slip: Slip, at?: string): string {
  const about = 'symbol' in slip ? ` ${slip.symbol}` : 'id' in slip ? ` ${slip.id}` : '';
  return `${slip.kind}${about}${'taken' in slip && typeof slip.taken === 'string' ? ` for ${slip.taken}` : ''}${at === undefined ? '' : ` at ${at}`}`;
}

/** The share of numbers at random, 0.4 to 2.5 times the right one, that are explained. */
export function explainedByChance(setup: Setup, symbol: string, figures: number, random: Random, count: number, reach = 2.5): number {
  const working = workingAt(setup, symbol);
  let explained = 0;
  for (let i = 0; i < count; i += 1) {
    const factor = reach ** (2 * random.uniform() - 1);
    const wrong = typedAs((working.right / working.unit.factor) * factor, figures, working.unit.factor);
    if (Math.abs(factor - 1) > 0.01 && diagnose(working, wrong) !== undefined) explained += 1;
  }
  return explained / count;
}

export { createRandom };
