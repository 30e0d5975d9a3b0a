import type { Expression } from '../../core/formula/types.ts';
import { composed, fail, ok, type Problem, type Result } from '../../core/problem/index.ts';
import { fromSI, parseQuantity, type Quantity, type Unit } from '../../core/units/index.ts';
import { parseRemembered } from '../formulas.ts';

/** Numbers low, low + step, … in the unit that was typed, each with so many decimals. */
interface Scale {
  readonly low: number;
  readonly step: number;
  readonly decimals: number;
  readonly unit: Unit;
}

/** What `varies` of a given says: which numbers a team may get there. */
export type Variation =
  | { readonly kind: 'range'; readonly scale: Scale; readonly count: number }
  | { readonly kind: 'list'; readonly quantities: readonly { readonly text: string; readonly value: number }[] }
  /** A multiple of the step near what a formula of other givens gives, at most `spread` steps away. */
  | { readonly kind: 'follows'; readonly scale: Scale; readonly spread: number; readonly text: string; readonly expression: Expression };

/** More numbers than that in one range say nothing that fewer do not. */
const MOST_NUMBERS = 1_000_000;
/** A step that a decimal fraction of this many digits does not write is none to be read off anything. */
const MOST_DECIMALS = 9;
const MEND = 'Write it as `100 mm .. 140 mm step 1 mm`, as `100 N or 120 N or 150 N`, or as what follows from other givens: `s_1 + s_2 ± 0.5 mm step 0.5 mm`.';

/** Reads `varies`; numbers without a unit are taken in the given one. */
export function readVariation(text: string, unit: Unit): Result<Variation> {
  const trimmed = text.trim();
  const [body = '', stepText, ...more] = trimmed.split(/\s+step\s+/u);
  if (more.length > 0) return fail(shapeProblem('What varies has two steps.'));
  const choices = body.split(/\s+or\s+/u);
  if (choices.length > 1) return stepText === undefined ? readList(choices, unit) : fail(shapeProblem('Numbers to choose from take no step.'));
  if (stepText === undefined) return fail(shapeProblem('What varies has no step.'));
  const step = parseQuantity(stepText, unit);
  if (!step.ok) return step;
  if (!(step.value.number > 0)) return fail(shapeProblem('The step of what varies has to be more than nothing.'));
  return body.includes('..') ? readRange(body, step.value, unit) : readFollowing(body, step.value, unit);
}

/** A number without a unit beside one in a unit that is not the line's could be meant in either. */
function unitLeftOut(quantities: readonly Quantity[], unit: Unit): Problem | undefined {
  const isMixed = quantities.some(({ bare }) => bare) && quantities.some((one) => !one.bare && one.unit.name !== unit.name);
  return isMixed ? { code: 'variation-unit', what: 'Of what varies some numbers have a unit and others none.', mend: 'Write the unit behind each of them.' } : undefined;
}

function readList(choices: readonly string[], unit: Unit): Result<Variation> {
  const quantities: { text: string; value: number }[] = [];
  for (const choice of choices) {
    const read = parseQuantity(choice, unit);
    if (!read.ok) return read;
    quantities.push({ text: choice.trim(), value: read.value.value });
  }
  return ok({ kind: 'list', quantities });
}

function readRange(body: string, step: Quantity, unit: Unit): Result<Variation> {
  const [first = '', second = '', ...rest] = body.split('..');
  if (rest.length > 0) return fail(shapeProblem(composed`“${body}” is no range of values.`));
  const low = parseQuantity(first, unit);
  if (!low.ok) return low;
  const high = parseQuantity(second, unit);
  if (!high.ok) return high;
  const mixed = unitLeftOut([low.value, high.value, step], unit);
  if (mixed !== undefined) return fail(mixed);
  const scale = scaleOf(fromSI(low.value.value, step.unit), step);
  if (!scale.ok) return scale;
  const count = Math.floor((fromSI(high.value.value, step.unit) - scale.value.low) / step.number + 1e-6) + 1;
  if (!(count >= 2)) return fail(shapeProblem('The step of what varies does not fit into its range, so that there is one number at most.'));
  if (count > MOST_NUMBERS) return fail(shapeProblem(`What varies has more than ${MOST_NUMBERS / 1e6} million numbers.`));
  return ok({ kind: 'range', scale: scale.value, count });
}

function readFollowing(body: string, step: Quantity, unit: Unit): Result<Variation> {
  const [text = '', spreadText, ...rest] = body.split(/\s*(?:±|\+\/-)\s*/u);
  if (rest.length > 0) return fail(shapeProblem('What varies has two spreads.'));
  const spread = spreadText === undefined ? undefined : parseQuantity(spreadText, unit);
  if (spread?.ok === false) return spread;
  const expression = parseRemembered(text);
  if (!expression.ok) return fail({ ...expression.problem, mend: MEND });
  const mixed = unitLeftOut([step, ...(spread === undefined ? [] : [spread.value])], unit);
  if (mixed !== undefined) return fail(mixed);
  const scale = scaleOf(0, step);
  if (!scale.ok) return scale;
  // The spread is a difference: a temperature's has no zero.
  const steps = spread === undefined ? 0 : Math.floor(Math.abs(spread.value.number * (spread.value.unit.factor / step.unit.factor)) / step.number + 1e-6);
  return ok({ kind: 'follows', scale: scale.value, spread: steps, text, expression: expression.value });
}

function scaleOf(low: number, { number: step, unit }: Quantity): Result<Scale> {
  const decimals = Math.max(decimalsOf(low), decimalsOf(step));
  return decimals > MOST_DECIMALS ? fail(shapeProblem('The step of what varies is no decimal fraction in its unit.')) : ok({ low, step, decimals, unit });
}

/** Decimals by which a number is written; one more than the most where they do not suffice. */
function decimalsOf(number: number): number {
  for (let decimals = 0; decimals <= MOST_DECIMALS; decimals++) if (Math.abs(Number(number.toFixed(decimals)) - number) <= 1e-12 * Math.max(1, Math.abs(number))) return decimals;
  return MOST_DECIMALS + 1;
}

/** The number that stands so many steps above the low end, in its unit. */
export function numberOnScale({ low, step, decimals }: Scale, steps: number): number {
  return Number((low + steps * step).toFixed(decimals));
}

/** The same as it is written. */
export function onScale(scale: Scale, steps: number): string {
  const { decimals, unit } = scale;
  const number = (scale.low + steps * scale.step).toFixed(decimals).replace(/^-(?=0(?:\.0*)?$)/, '');
  return unit.name === '1' ? number : `${number} ${unit.name}`;
}

/** How many steps from zero the multiple of the step is that lies nearest to a value, SI. */
export function nearestStep({ step, unit }: Scale, value: number): number {
  return Math.round(fromSI(value, unit) / step);
}

function shapeProblem(what: string): Problem {
  return { code: 'variation-shape', what, mend: MEND };
}
