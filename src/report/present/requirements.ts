import { inputUncertainty, readingsNeeded, standardUncertainty, whatItTakes, type Estimate, type Requirement } from '../../core/estimate/index.ts';
import { fail, ok, type Problem, type Result } from '../../core/problem/index.ts';
import { counterpart, intervalFromSI, intervalToSI, parseNumber, parseQuantity } from '../../core/units/index.ts';
import type { Unit } from '../../core/units/types.ts';
import { percent, uncertaintyOfInput, wordsOfInput } from './budget.ts';
import { figures, unitText, withUnit } from './number.ts';
import { isShownAsFactor } from './result.ts';
import { symbolOf } from './symbol.ts';
import type { PresentContext, PresentedRequirement, PresentedRequirements } from './types.ts';

/** Tighter than this part of its present size, nobody can tell an input from an exact one. */
const TINY = 1e-3;

/**
 * What each input would have to become for the result to have the standard uncertainty that was typed: as a quantity,
 * or as a percentage of the value; for a life told by a factor also as that factor. Undefined for a symbol without value.
 */
export function presentRequirements(symbol: string, typed: string, context: PresentContext): Result<PresentedRequirements> | undefined {
  const state = context.states.symbol(symbol);
  if (state?.status !== 'value') return undefined;
  const unit = counterpart(state.unit, context.system);
  const { estimate } = state;
  const wanted = readWanted(typed.trim(), estimate, unit, isShownAsFactor(symbol, context));
  if (!wanted.ok) return wanted;
  const size = withUnit(figures(intervalFromSI(wanted.value, unit), 2), unitText(unit));
  const share = estimate.value === 0 ? '' : `, ${percent(wanted.value / Math.abs(estimate.value))} of the value`;
  return ok({
    wanted: `Wanted: a standard uncertainty of ${size}${share}.`,
    isMet: standardUncertainty(estimate) <= wanted.value * (1 + 1e-9),
    together: figures(wanted.value / standardUncertainty(estimate), 2),
    rows: whatItTakes(estimate, wanted.value).map((requirement) => presentRequirement(requirement, { context, unit, estimate })),
  });
}

function readWanted(typed: string, { value }: Estimate, unit: Unit, isSpread: boolean): Result<number> {
  const share = /^(.*?)\s*%$/.exec(typed)?.[1];
  if (share !== undefined) {
    const parsed = parseNumber(share);
    if (!parsed.ok) return parsed;
    return value === 0 ? fail(shareOfNothing()) : positive((Math.abs(value) * parsed.value.value) / 100);
  }
  const factor = isSpread ? /^(?:×\/÷|[×x*])?\s*([\d.,]+)$/.exec(typed)?.[1] : undefined;
  if (factor !== undefined) {
    const parsed = parseNumber(factor);
    if (!parsed.ok) return parsed;
    return parsed.value.value > 1 ? ok(Math.abs(value) * Math.log(parsed.value.value)) : fail(factorTooSmall());
  }
  const parsed = parseQuantity(typed, unit);
  return parsed.ok ? positive(intervalToSI(parsed.value.number, parsed.value.unit)) : parsed;
}

function positive(wanted: number): Result<number> {
  return wanted > 0 ? ok(wanted) : fail(notPositive());
}

function notPositive(): Problem {
  return { code: 'wanted-not-positive', what: 'No measurement is without uncertainty.', mend: 'Type one above zero.' };
}

function factorTooSmall(): Problem {
  return {
    code: 'wanted-factor', what: 'A life is told by a factor here, times or divided by, and a factor is more than 1.',
    mend: 'Type one such as 1.2, or a percentage.',
  };
}

function shareOfNothing(): Problem {
  return { code: 'wanted-share', what: 'The result is zero, and a percentage of zero is zero.', mend: 'Type an uncertainty with its unit.' };
}

interface Around {
  readonly context: PresentContext;
  readonly unit: Unit;
  readonly estimate: Estimate;
}

function presentRequirement(requirement: Requirement, around: Around): PresentedRequirement {
  const { context } = around;
  const { inputs, factor } = requirement;
  return {
    inputs: inputs.map((input) => ({ input: input.id, inputTex: symbolOf(input.id), words: wordsOfInput(input, context) })),
    can: factor !== undefined && factor > TINY,
    sentence: sentenceOf(requirement, around),
  };
}

function sentenceOf({ inputs, factor, least }: Requirement, { context, unit, estimate }: Around): string {
  const together = inputs.length > 1;
  if (factor === undefined || factor <= TINY) {
    const reach = withUnit(figures(intervalFromSI(least, unit), 2), unitText(unit));
    const share = estimate.value === 0 ? '' : ` (${percent(least / Math.abs(estimate.value))})`;
    return `can’t do it alone: even ${together ? 'if they were' : 'if it were'} known exactly, u would still be ${reach}${share}.`;
  }
  if (factor === Infinity) return 'has no part in it: what they give cancels.';
  const now = inputs.map((input) => uncertaintyOfInput(input, context));
  const then = inputs.map((input) => uncertaintyOfInput(input, context, factor));
  const [only] = inputs;
  if (together || only === undefined) {
    return `are correlated and are taken together, all in the same proportion: u at most ${then.join(', ')} (now ${now.join(', ')}), ${times(factor)}.`;
  }
  const most = `u at most ${then[0]} (now ${now[0]}), ${times(factor)}`;
  if (factor >= 1) return `${most}.`;
  const needed = readingsNeeded(only, factor * inputUncertainty(only));
  const scatter = only.components.find(({ kind }) => kind === 'A');
  if (scatter === undefined) return `${most}.`;
  return needed === undefined
    ? `${most}. More readings alone can’t give that: its instrument has to be better.`
    : `${most}. ${needed} readings would give that, if they scatter as these do.`;
}

function times(factor: number): string {
  return `${figures(factor, 2)} times as much`;
}
