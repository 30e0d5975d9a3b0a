import { isCalculable } from '../../core/numeric/index.ts';
import { invisibleSign, type Problem } from '../../core/problem/index.ts';
import { fromSI, inDimensionOf, numberText, quantityText, readQuantity, sameDimension, STRESS_DIMENSION, toSI } from '../../core/units/index.ts';
import type { CommaRule, Unit } from '../../core/units/index.ts';
import type { TableColumn } from '../../sheet/index.ts';
import { parseBounds, satisfies } from '../bounds.ts';
import type { Bounds } from '../bounds.ts';
import * as problems from './field-problems.ts';
import { optionMeant } from './outcome-words.ts';

/** What a field was read as; `problem` leaves its row out, `warning` does not. */
export type FieldReading<T> =
  | { readonly value: T; readonly echo?: () => string; readonly warning?: Problem }
  | { readonly problem: Problem };

type FieldReader<T> = (text: string) => FieldReading<T>;

interface NumberRules {
  /** Unit of a number without one of its own. */
  readonly unit: Unit;
  readonly comma: CommaRule;
  /** Whether a point before three digits may group them: in counts where commas may be decimal, and where the column has such groups. */
  readonly pointMayGroup: boolean;
}

// A stress amplitude above this is no metal's: a slip of units as a rule.
const USUAL_STRESS = '< 5 GPa';
const PLAIN_WITH_COMMA = /^\d{1,15},\d{1,15}$/;
const PLAIN_NUMBER = /^\d+(?:\.\d+)?(?:[eE][+-]?\d+)?$/;

/** A reader of numbers of a column in SI, NaN where an optional one is empty; the problems are those of its ranges. */
export function numberReader(column: TableColumn, rules: NumberRules): { read: FieldReader<number>; problems: readonly Problem[] } {
  const told: Problem[] = [];
  const bounds = (words: string, otherwise: Bounds | undefined): Bounds | undefined => {
    const read = parseBounds(words, rules.unit);
    if (read.ok) return read.value;
    told.push(read.problem);
    return otherwise;
  };
  const positive: Bounds = { low: 0, high: Infinity, lowIncluded: false, highIncluded: true, words: 'greater than 0' };
  const possible = bounds(column.possible ?? '> 0', positive) ?? positive;
  const isStress = column.type === 'quantity' && sameDimension(rules.unit.dimension, STRESS_DIMENSION);
  const usual = column.plausible ?? (isStress ? USUAL_STRESS : undefined);
  const plausible = usual === undefined ? undefined : bounds(usual, undefined);
  const read = (text: string): FieldReading<number> => {
    const number = text === '' && column.optional ? { value: NaN } : readNumber(text, column, rules);
    if ('problem' in number || Number.isNaN(number.value)) return number;
    if (!isCalculable(number.value)) return { problem: problems.fieldSize(column, text) };
    if (!satisfies(number.value, possible)) return { problem: problems.notPossible(column, shown(text, number.value, rules), possible.words) };
    if (plausible !== undefined && !satisfies(number.value, plausible)) {
      return { ...number, warning: problems.implausible(column, shown(text, number.value, rules), plausible.words) };
    }
    const isWhole = column.type !== 'count' || Number.isInteger(fromSI(number.value, rules.unit));
    return isWhole ? number : { ...number, warning: problems.countNotWhole(column, text) };
  };
  return { read, problems: told };
}

function readNumber(text: string, column: TableColumn, { unit, comma, pointMayGroup }: NumberRules): FieldReading<number> {
  if (text === '') return { problem: problems.fieldEmpty(column) };
  const isCount = column.type === 'count';
  if (pointMayGroup && /^\d{1,3}\.\d{3}$/.test(text)) return { problem: problems.countSeparators(column, text) };
  // Most fields are plain digits, which need no closer look: the same number as the reader below gives.
  const plain = PLAIN_NUMBER.test(text) ? toSI(Number(text), unit) : 0;
  if (plain !== 0 && Number.isFinite(plain)) return { value: plain };
  const number = !isCount && comma === 'decimal' && PLAIN_WITH_COMMA.test(text) ? Number(text.replace(',', '.')) : 0;
  if (number !== 0) return { value: toSI(number, unit), echo: () => `${text} read as ${quantityText(number, unit)}` };
  const typed = readQuantity(text, isCount ? 'ask' : comma);
  if (!typed.ok) return typed;
  const quantity = inDimensionOf(typed.value, unit);
  if (!quantity.ok) return quantity;
  const { value, echo } = quantity.value;
  return echo === undefined ? { value } : { value, echo: () => `${text} ${echo}` };
}

function shown(text: string, value: number, { unit }: NumberRules): string {
  return /[^\d\s.,eE+-]/.test(text) ? text : quantityText(Number(fromSI(value, unit).toPrecision(12)), unit);
}

export function optionReader(column: TableColumn): FieldReader<string> {
  const known = new Map<string, FieldReading<string>>();
  return (text) => {
    const reading = known.get(text) ?? readOption(text, column);
    // The words of a column are few; what is none of them is not kept.
    if (!('problem' in reading)) known.set(text, reading);
    return reading;
  };
}

function readOption(text: string, column: TableColumn): FieldReading<string> {
  if (text === '') return column.optional ? { value: '' } : { problem: problems.fieldEmpty(column) };
  const meant = optionMeant(text, column.options);
  if (meant === undefined) return { problem: invisibleSign(text) ?? problems.optionUnknown(column, text) };
  return meant === text.toLowerCase() ? { value: meant } : { value: meant, echo: () => `${text} read as ${meant}` };
}

// In English, German, French and Spanish.
const YES = new Set(['yes', 'y', 'true', '1', 'x', '\u2713', 'ja', 'j', 'oui', 'si', 's\u00ed', 'wahr', 'vrai', 'verdadero']);
const NO = new Set(['no', 'n', 'false', '0', 'nein', 'non', 'falsch', 'faux', 'falso']);

export function truthReader(column: TableColumn): FieldReader<boolean> {
  return (text) => {
    const lower = text.toLowerCase();
    if (text === '' || YES.has(lower)) return { value: true };
    return NO.has(lower) ? { value: false } : { problem: invisibleSign(text) ?? problems.notYesOrNo(column, text) };
  };
}

/** A number in SI as a table writes it in a unit: without the last digits that conversion leaves. */
export function fieldNumber(si: number, unit: Unit): string {
  return Number.isNaN(si) ? '' : numberText(Number(fromSI(si, unit).toPrecision(15)));
}
