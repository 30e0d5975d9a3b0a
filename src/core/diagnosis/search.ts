import { remembered } from '../remembered/index.ts';
import { evaluate, referencedSymbols, substitute } from '../formula/index.ts';
import type { Expression } from '../formula/types.ts';
import type { Explanation, Slip, Working, Wrong } from './types.ts';
import { mistakableUnits, variantsOf } from './variants.ts';

/** How much of the results that a wrong one may be, by the logarithm from 0.4 to 2.5 times the right one, may be explained by chance. */
const BY_CHANCE = 0.045;
const AROUND = 2.5;
/** Two explanations that differ by less than this are one number. */
const SAME = 1e-9;
/** The sheet's own result, or nearly: nothing that is wrong. */
const RIGHT = 1e-6;

/** Explanations of which one and the same result comes. */
export interface Explained {
  /** The simplest first. */
  readonly explanations: readonly Explanation[];
}

/**
 * What may have gone wrong where a result is not the right one: the simplest slip, or pair of slips, that gives the same result within the digits
 * typed. Undefined where none does, where unlike ones do as well, and where so many results would be explained that it says nothing.
 */
export function diagnose(working: Working, wrong: Wrong, byChance = BY_CHANCE): Explained | undefined {
  const explanations = [...explanationsOf(working), ...ofTheDigits(working, wrong).filter((one) => isWrong(one, working))];
  const groups = grouped(allowedByChance(explanations, byChance, working, wrong));
  const fitting = groups.filter(({ value }) => Math.abs(value - wrong.value) <= wrong.halfLastPlace * (1 + SAME) + SAME * Math.abs(value));
  const best = fitting.toSorted((a, b) => a.tier - b.tier)[0];
  if (best === undefined || fitting.some((other) => other !== best && Math.floor(other.tier) <= Math.floor(best.tier))) return undefined;
  return { explanations: best.explanations };
}

interface Group {
  readonly value: number;
  readonly tier: number;
  readonly explanations: readonly Explanation[];
}

/** Equal results together, in order of size. */
function grouped(explanations: readonly Explanation[]): readonly Group[] {
  const groups: { value: number; explanations: Explanation[] }[] = [];
  for (const one of explanations.toSorted((a, b) => a.value - b.value)) {
    const last = groups.at(-1);
    if (last !== undefined && Math.abs(one.value - last.value) <= SAME * Math.abs(one.value)) last.explanations.push(one);
    else groups.push({ value: one.value, explanations: [one] });
  }
  return groups.map(({ value, explanations: equal }) => {
    const sorted = equal.toSorted((a, b) => a.tier - b.tier || a.slips.length - b.slips.length);
    return { value, tier: sorted[0]?.tier ?? Number.POSITIVE_INFINITY, explanations: sorted };
  });
}

/**
 * The simpler tiers, as long as a number at random, written with as many digits, would fit one of them seldom enough. Of a tier that goes too far
 * nothing is left.
 */
function allowedByChance(explanations: readonly Explanation[], byChance: number, working: Working, wrong: Wrong): readonly Explanation[] {
  const allowed: Explanation[] = [];
  const tiers = [...new Set(explanations.map(({ tier }) => tier))].toSorted((a, b) => a - b);
  for (const tier of tiers) {
    const more = explanations.filter((one) => one.tier === tier);
    if (shareExplained([...allowed, ...more].map(({ value }) => value), working.right, wrong) > byChance) break;
    allowed.push(...more);
  }
  return allowed;
}

/** The share of that range that lies within the digits typed of one of the values. */
function shareExplained(values: readonly number[], right: number, wrong: Wrong): number {
  const relative = wrong.halfLastPlace / Math.abs(wrong.value);
  const centre = Math.log(Math.abs(right));
  const [low, high] = [centre - Math.log(AROUND), centre + Math.log(AROUND)];
  let [covered, until] = [0, low];
  for (const at of values.filter((value) => value * right > 0).map((value) => Math.log(Math.abs(value))).toSorted((a, b) => a - b)) {
    const [from, to] = [Math.max(at - relative, until), Math.min(at + relative, high)];
    if (to > from) [covered, until] = [covered + to - from, to];
  }
  return covered / (high - low);
}

/** Every explanation that hangs on no digits and gives something else than what is right. */
const explanationsOf = remembered((working: Working): readonly Explanation[] => {
  const { right, listed } = working;
  const single = [...ofTheResult(working), ...ofTheFormula(working)].filter((one) => isWrong(one, working));
  const all = [...listed.map(({ id, value, isHere }): Explanation => ({ slips: [{ kind: 'listed', id }], value, tier: isHere ? 0 : 0.5 })), ...single, ...pairs(single, right)];
  return all.filter((one) => isWrong(one, working));
});

function isWrong({ value }: Explanation, { right }: Working): boolean {
  return Number.isFinite(value) && value !== 0 && Math.abs(value - right) > RIGHT * Math.abs(right);
}

const FACTORS: readonly (readonly [factor: number, tier: number])[] = [[2, 1.2], [4, 3], [8, 3], [16, 3], [3, 3]];

/** Slips that are made with the result as a whole. */
function* ofTheResult({ right, unit }: Working): Iterable<Explanation> {
  const made = (slip: Slip, value: number, tier: number): Explanation => ({ slips: [slip], value, tier });
  yield made({ kind: 'sign' }, -right, 1);
  for (let power = 1; power <= 9; power += 1) {
    for (const signed of [power, -power]) yield made({ kind: 'power of ten', power: signed }, right * 10 ** signed, 1);
  }
  for (const [factor, tier] of FACTORS) {
    for (const one of [factor, 1 / factor]) yield made({ kind: 'factor', factor: one }, right * one, tier);
  }
  for (const other of mistakableUnits(unit)) {
    yield made({ kind: 'unit', from: unit, to: other }, (right / other.factor) * unit.factor, 1);
    yield made({ kind: 'unit', from: other, to: unit }, (right / unit.factor) * other.factor, 3.2);
  }
}

/** The right result, written with as many places as the wrong one, with two neighbouring digits that changed places. */
function ofTheDigits({ right }: Working, { halfLastPlace }: Wrong): readonly Explanation[] {
  const digits = String(Math.round(Math.abs(right) / (2 * halfLastPlace)));
  if (!/^\d{2,9}$/.test(digits)) return [];
  return [...digits].slice(1).flatMap((digit, i): Explanation[] => {
    const turned = `${digits.slice(0, i)}${digit}${digits[i]}${digits.slice(i + 2)}`;
    return turned === digits ? [] : [{ slips: [{ kind: 'digits' }], value: Math.sign(right) * Number(turned) * 2 * halfLastPlace, tier: 3 }];
  });
}

/** Slips inside the formula, and inside the formulas that belong to the same working. */
function* ofTheFormula(working: Working): Iterable<Explanation> {
  const { formula, inner } = working;
  const known = new Map<string, number>();
  const value = (e: Expression, without?: string): number => {
    const result = evaluate(e, {
      value: (name) => (name === without ? Number.NaN : known.get(name) ?? working.quantity(name)?.value ?? Number.NaN),
      standardUncertainty: () => 0,
    });
    return result.ok ? result.value : Number.NaN;
  };
  for (const { formula: wrong, slip, tier } of variantsOf(formula, working)) yield { slips: [slip], value: value(wrong), tier };
  for (const [symbol, own] of inner) {
    const readers = [...inner].filter(([other]) => other !== symbol);
    const whole = insideOut(formula, symbol, readers);
    for (const { formula: wrong, slip, tier } of variantsOf(own, working)) {
      known.set(symbol, value(wrong));
      yield { slips: [slip], at: symbol, value: value(whole), tier: tier + 1 };
      known.delete(symbol);
    }
  }
}

/** The asked formula with the inner ones that hang on a symbol written out, so that it reads that symbol itself. */
function insideOut(formula: Expression, symbol: string, readers: readonly (readonly [string, Expression])[]): Expression {
  const hang = new Map(readers);
  const reaches = (name: string, seen: ReadonlySet<string>): boolean => {
    const own = hang.get(name);
    return own !== undefined && !seen.has(name) && referencedSymbols(own).some((read) => read === symbol || reaches(read, new Set([...seen, name])));
  };
  let whole = formula;
  for (let depth = 0; depth < readers.length; depth += 1) {
    const next = substitute(whole, (name) => (reaches(name, new Set()) ? hang.get(name) : undefined));
    if (next === whole) break;
    whole = next;
  }
  return whole;
}

/** Two slips at once: of those that multiply the result, each simple. Others would explain anything. */
function pairs(single: readonly Explanation[], right: number): readonly Explanation[] {
  const simple = single.filter(({ slips: [slip], tier, at }) => at === undefined && tier < 3 && slip !== undefined && MULTIPLY.has(slip.kind));
  const whole = single.filter(({ slips: [slip], tier }) => tier < 2 && (slip?.kind === 'power of ten' || slip?.kind === 'sign' || slip?.kind === 'factor'));
  return whole.flatMap((first) => simple.flatMap((second): Explanation[] => {
    if (first === second || second.slips[0]?.kind === first.slips[0]?.kind) return [];
    return [{ slips: [...second.slips, ...first.slips], value: (first.value / right) * second.value, tier: 4 }];
  }));
}

const MULTIPLY: ReadonlySet<Slip['kind']> = new Set(['factor', 'unit', 'times', 'left out', 'power', 'another symbol', 'sign inside']);
