import { fail, ok, type Problem, type Result } from '../problem/index.ts';
import { TIME_DIMENSION, sameDimension } from './dimension.ts';
import { scanNumber, type CommaRule } from './number-text.ts';
import { durationPart } from './quantity-problems.ts';
import type { TypedQuantity } from './types.ts';
import { UNIT_TABLE, type UnitDefinition } from './unit-table.ts';
import { unitOfFactors } from './compound.ts';

/** Seconds and what is counted of them, by every name of theirs; a millisecond is no part of a duration that anybody types. */
const PARTS: ReadonlyMap<string, UnitDefinition> = new Map(UNIT_TABLE
  .filter(({ dimension, factor }) => sameDimension(dimension, TIME_DIMENSION) && factor >= 1)
  .flatMap((definition) => [definition.symbol, ...(definition.aliases ?? [])].map((name) => [name, definition] as const)));

const PART = /\s*(\d[\d.,]*)\s*(\p{L}+)/uy;
/** Days, hours, minutes, seconds. */
const MOST_PARTS = 4;

interface Part {
  readonly typed: string;
  readonly definition: UnitDefinition;
  readonly start: number;
  readonly end: number;
}

/**
 * A duration in several units, `2 h 13 min 5 s`, in the smallest of them: the larger first, whole numbers but for the last, each below one of the unit
 * before it. Undefined where the text is none, such as one number with one unit. Problem: `duration-part`, and those of a number.
 */
export function readDuration(text: string, comma: CommaRule): Result<TypedQuantity> | undefined {
  const parts = partsOf(text);
  if (parts === undefined) return undefined;
  const last = parts.at(-1);
  if (last === undefined) return undefined;
  const smallest = last.definition.factor;
  let [number, lastPlace] = [0, 1];
  for (const [i, part] of parts.entries()) {
    const scanned = scanNumber(part.typed, comma);
    if (!scanned.ok) return scanned;
    const { value } = scanned.value;
    const before = parts[i - 1];
    const tooMany = before !== undefined && value * part.definition.factor >= before.definition.factor;
    if (tooMany || (part !== last && !Number.isInteger(value))) return fail(placed(text, part, before));
    number += value * (part.definition.factor / smallest);
    ({ lastPlace } = scanned.value);
  }
  return ok({
    number,
    typedNumber: text.slice(0, last.end).trim().replace(/\s*\p{L}+$/u, ''),
    unit: unitOfFactors([{ definition: last.definition, exponent: 1, below: false }]),
    reinterpreted: true,
    lastPlace,
    text,
    unitSpan: { start: last.end - last.definition.symbol.length, end: last.end },
  });
}

function partsOf(text: string): readonly Part[] | undefined {
  const parts: Part[] = [];
  PART.lastIndex = 0;
  let end = 0;
  while (parts.length < MOST_PARTS) {
    const match = PART.exec(text);
    const definition = PARTS.get(match?.[2] ?? '');
    const before = parts.at(-1);
    if (match === null || definition === undefined || (before !== undefined && definition.factor >= before.definition.factor)) return undefined;
    const start = match.index + (match[0].length - match[0].trimStart().length);
    end = PART.lastIndex;
    parts.push({ typed: match[1] ?? '', definition, start, end });
    if (text.slice(end).trim() === '') return parts.length < 2 ? undefined : parts;
  }
  return undefined;
}

function placed(text: string, part: Part, before: Part | undefined): Problem {
  const shown = text.slice(part.start, part.end);
  return { ...durationPart(shown, before?.definition.symbol, { start: part.start, end: part.end }), text };
}
