import {
  budgetRows, coverageInterval, inputUncertainty, roundByUncertainty, standardUncertainty, type BudgetEntry, type BudgetRow, type Component, type Estimate, type Input,
} from '../../core/estimate/index.ts';
import { typeset } from '../../core/formula/index.ts';
import { counterpart, fromSI, intervalFromSI, ONE } from '../../core/units/index.ts';
import type { Unit } from '../../core/units/types.ts';
import { derivativeForm } from '../../graph/index.ts';
import { asked } from './asked.ts';
import { definingCell } from './lookup.ts';
import { decimalTex, decimalText, figures, unitText, withUnit, withUnitTex } from './number.ts';
import { symbolOf } from './symbol.ts';
import type {
  EvaluationType, PresentContext, PresentedBudget, PresentedBudgetRow, PresentedComponent, PresentedTotal, WholeContext,
} from './types.ts';

/** Level of confidence unless another is asked for. */
const USUAL_LEVEL = 0.95;

/**
 * Where the uncertainty of a result comes from, the largest share first (JCGM 100:2008, 4.3 and 5.1); undefined for a
 * result without value or without uncertainty. Inputs that are symbols of the sheet are shown in the unit they were typed in.
 * @param level of confidence of the expanded uncertainty, between 0 and 1
 */
export function presentBudget(symbol: string, context: PresentContext, level = USUAL_LEVEL): PresentedBudget | undefined {
  const known = budgetsOf.get(context) ?? new Map<string, PresentedBudget | undefined>();
  budgetsOf.set(context, known);
  const key = `${symbol} ${level}`;
  if (!known.has(key)) known.set(key, workOut(symbol, context, level));
  return known.get(key);
}

/** A figure asks for the budget of its bars and for that of the table beside them. */
const budgetsOf = new WeakMap<PresentContext, Map<string, PresentedBudget | undefined>>();

function workOut(symbol: string, context: PresentContext, level: number): PresentedBudget | undefined {
  const state = context.states.symbol(symbol);
  if (state?.status !== 'value' || !Number.isFinite(state.estimate.value)) return undefined;
  const u = standardUncertainty(state.estimate);
  if (u === 0 || !Number.isFinite(u)) return undefined;
  const unit = counterpart(state.unit, context.system);
  const all = budgetRows(state.estimate);
  const entries = all.flatMap(({ members }) => members);
  const isCorrelated = all.some(({ covarianceShare }) => Math.abs(covarianceShare) > LEAST_COVARIANCE);
  const uncertain = all.filter(({ members }) => members.some(({ standardUncertainty: size }) => size > 0));
  return {
    symbol,
    symbolTex: symbolOf(symbol),
    rows: uncertain.map((row) => presentRow(row, { symbol, unit, isCorrelated, context })),
    isCorrelated,
    exact: entries.filter(({ standardUncertainty: size }) => size === 0).map(({ input }) => exactTex(input, context)),
    total: presentTotal(state.estimate, unit, level),
  };
}

/** Whether a budget of the symbol would say more than that it is itself. */
export function hasBudget(symbol: string, { states }: PresentContext): boolean {
  const state = states.symbol(symbol);
  if (state?.status !== 'value' || !(standardUncertainty(state.estimate) > 0)) return false;
  const inputs = [...state.estimate.sensitivities.values()].map(({ input }) => input);
  return inputs.some(({ id, components }) => id !== symbol || components.length > 1);
}

interface Around {
  readonly symbol: string;
  readonly unit: Unit;
  readonly isCorrelated: boolean;
  readonly context: PresentContext;
}

/** Covariances below what a share is told to are told nowhere. */
const LEAST_COVARIANCE = 5e-4;

function presentRow(row: BudgetRow, around: Around): PresentedBudgetRow {
  const [first, ...others] = row.members.map((entry) => presentEntry(entry, around));
  if (first === undefined) throw new Error('a row of a budget has at least one input');
  if (others.length === 0) return first;
  const rows = [first, ...others];
  const { context, unit, isCorrelated } = around;
  const name = unitText(unit);
  return {
    ...withoutFormula(first),
    input: rows.map(({ input }) => input).join(', '),
    inputTex: rows.map(({ inputTex }) => inputTex).join(',\\ '),
    words: wordsOfFit(row.members, context),
    value: rows.map(({ value }) => value).join('; '),
    uncertainty: rows.map(({ uncertainty }) => uncertainty).join('; '),
    sensitivity: 'together',
    contribution: withUnit(figures(intervalFromSI(row.contribution, unit), 2), name),
    share: percent(row.share),
    ...(isCorrelated ? { covarianceShare: percent(row.covarianceShare) } : {}),
    parts: { own: row.share, shared: row.covarianceShare },
    components: [],
  };
}

/** Of several together no one formula is the derivative. */
function withoutFormula({ sensitivityTex: _formula, ...row }: PresentedBudgetRow): PresentedBudgetRow {
  return row;
}

/** What the sheet calls the fit that these are the parameters of. */
function wordsOfFit(members: readonly BudgetEntry[], context: PresentContext): string {
  const labels = new Set(members.map(({ input }) => wordsOfInput(input, context)));
  return [...labels].join(', ');
}

function presentEntry(entry: BudgetEntry, { symbol, unit, isCorrelated, context }: Around): PresentedBudgetRow {
  const { input } = entry;
  const inputUnit = unitOfInput(input, context);
  const [inputName, resultName] = [unitText(inputUnit), unitText(unit)];
  const u = intervalFromSI(entry.standardUncertainty, inputUnit);
  const rounded = roundByUncertainty(fromSI(input.value, inputUnit), u);
  const contributed = (size: number): string => withUnit(figures(intervalFromSI(Math.abs(size), unit), 2), resultName);
  const [only, ...more] = input.components;
  const derivative = asked(context, derivativeTex, { symbol, input: input.id });
  const components = entry.components.map(({ component, contribution, share }): PresentedComponent => ({
    source: component.source,
    type: component.kind,
    distribution: distributionWords(component),
    degreesOfFreedom: freedom(component.degreesOfFreedom),
    uncertainty: withUnit(figures(intervalFromSI(component.standardUncertainty, inputUnit), 2), inputName),
    contribution: contributed(contribution),
    share: percent(share),
    part: share,
  }));
  return {
    input: input.id,
    inputTex: symbolOf(input.id),
    words: wordsOfInput(input, context),
    value: withUnit(decimalText(rounded.number, rounded.exponent), inputName),
    uncertainty: withUnit(figures(u, 2), inputName),
    type: typeOf(input),
    ...(only === undefined || more.length > 0 ? {} : { distribution: distributionWords(only) }),
    degreesOfFreedom: freedom(entry.degreesOfFreedom),
    sensitivity: withUnit(figures((entry.derivative * inputUnit.factor) / unit.factor, 3), perUnit(resultName, inputName)),
    ...(derivative === undefined ? {} : { sensitivityTex: derivative }),
    contribution: contributed(entry.contribution),
    share: percent(entry.share),
    ...(isCorrelated ? { covarianceShare: percent(entry.covarianceShare) } : {}),
    parts: { own: entry.share, shared: entry.covarianceShare },
    components: components.length > 1 ? components.toSorted((a, b) => b.part - a.part) : [],
  };
}

/** The derivative as a formula, where that is simple and says more than the number. */
function derivativeTex({ states }: WholeContext, { symbol, input }: { readonly symbol: string; readonly input: string }): string | undefined {
  const form = derivativeForm(symbol, input, states);
  if (form === undefined || form.expression.kind === 'number') return undefined;
  return typeset(form.expression, new Map([...form.inner].map(([name, inner]) => [name, `\\frac{\\partial ${symbolOf(inner)}}{\\partial ${symbolOf(input)}}`])));
}

function presentTotal(estimate: Estimate, unit: Unit, level: number): PresentedTotal {
  const name = unitText(unit);
  const u = intervalFromSI(standardUncertainty(estimate), unit);
  const rounded = roundByUncertainty(fromSI(estimate.value, unit), u);
  const { factor, degreesOfFreedom } = coverageInterval(estimate, level);
  const told = {
    value: withUnit(decimalText(rounded.number, rounded.exponent), name),
    uncertainty: withUnit(figures(u, 2), name),
    ...(estimate.value === 0 ? {} : { relative: percent(standardUncertainty(estimate) / Math.abs(estimate.value)) }),
    ...(degreesOfFreedom === undefined ? {} : { degreesOfFreedom: freedom(degreesOfFreedom) }),
    factor: factor.toFixed(2),
    level: `${Number((100 * level).toPrecision(4))} %`,
    expanded: withUnit(figures(factor * u, 2), name),
  };
  return { ...told, sentence: totalSentence(told) };
}

function totalSentence({ uncertainty, relative, degreesOfFreedom, factor, level, expanded }: Omit<PresentedTotal, 'sentence'>): string {
  const size = `Combined standard uncertainty ${uncertainty}${relative === undefined ? '' : ` (${relative} of the value)`}.`;
  const freedomWords = degreesOfFreedom === undefined
    ? 'Effective degrees of freedom are not claimed, because a correlation is stated between inputs whose uncertainties were found apart; k is that of the normal distribution.'
    : `Effective degrees of freedom: ${degreesOfFreedom}.`;
  return `${size} ${freedomWords} Expanded uncertainty for a level of confidence of ${level}: k = ${factor} times that, ${expanded}.`.replaceAll(' %', '\u00a0%');
}

export function unitOfInput(input: Input, { states }: PresentContext): Unit {
  return states.symbol(input.id)?.unit ?? ONE;
}

export function wordsOfInput(input: Input, context: PresentContext): string {
  return definingCell(input.id, context)?.cell.label ?? input.id;
}

/** An input's standard uncertainty as the budget writes it, times a factor. */
export function uncertaintyOfInput(input: Input, context: PresentContext, factor = 1): string {
  const unit = unitOfInput(input, context);
  return withUnit(figures(intervalFromSI(factor * inputUncertainty(input), unit), 2), unitText(unit));
}

function exactTex(input: Input, context: PresentContext): string {
  const unit = unitOfInput(input, context);
  const { number, exponent } = roundByUncertainty(fromSI(input.value, unit), 0);
  return `${symbolOf(input.id)} = ${withUnitTex(decimalTex(number, exponent), unit)}`;
}

export function typeOf({ components }: Input): EvaluationType {
  const has = (kind: 'A' | 'B'): boolean => components.some((component) => component.kind === kind);
  return has('A') ? (has('B') ? 'A and B' : 'A') : 'B';
}

function distributionWords({ distribution }: Component): string {
  return distribution === 't' ? 'Student’s t' : distribution;
}

function freedom(degreesOfFreedom: number): string {
  return Number.isFinite(degreesOfFreedom) ? figures(degreesOfFreedom, degreesOfFreedom < 10 ? 2 : 3).replace(/\.0+$/, '') : '∞';
}

/** A share below this is told as less. */
const LEAST_SHARE = 1e-4;

/** To the whole percent above a hundred, where a covariance takes from the variance what is too much. */
export function percent(fraction: number): string {
  if (fraction !== 0 && Math.abs(fraction) < LEAST_SHARE) return fraction > 0 ? '< 0.01 %' : '> −0.01 %';
  return `${figures(100 * fraction, Math.abs(fraction) < 1 ? 2 : 3)} %`;
}

/** `MPa/mm`; a compound unit below the line is put in brackets. */
function perUnit(result: string, input: string): string {
  if (input === '') return result;
  return `${result === '' ? '1' : result}/${/[·/*]/.test(input) ? `(${input})` : input}`;
}
