import type { Between } from '../../sheet/index.ts';
import type { DecimalMark, MarkReading } from './types.ts';

/** A field that begins with a number: its digits with their marks, and what stands around them. */
interface NumberParts {
  readonly sign: string;
  readonly digits: string;
  /** A power of ten as typed. */
  readonly power: string;
  /** Blanks and a unit behind it, as typed. */
  readonly rest: string;
}

const FORM =
  /^([+\-−–]?)\s*((?:\d|[.,]\d)[\d.,'’\u00a0\u2007\u2009\u202f ]*)((?:[eE][+\-−]?\d+|\s*[·*x×⋅]\s*10(?:\s*\^\s*\(?[+\-−]?\d+\)?|[⁺⁻]?[⁰¹²³⁴-⁹]+))?)(.*)$/u;

export function numberParts(field: string): NumberParts | undefined {
  const [, sign, typed, power, rest] = FORM.exec(field.length > 100 ? '' : field) ?? [];
  if (sign === undefined || typed === undefined) return undefined;
  const digits = typed.trimEnd();
  return { sign, digits, power: power ?? '', rest: typed.slice(digits.length) + (rest ?? '') };
}

const FORMS: Readonly<Record<DecimalMark, RegExp>> = {
  point: /^(?:\d+|[1-9]\d{0,2}(?:([,'’\u00a0\u2007\u2009\u202f ])\d{3})(?:\1\d{3})*)?(?:\.\d*)?$/u,
  comma: /^(?:\d+|[1-9]\d{0,2}(?:([.'’\u00a0\u2007\u2009\u202f ])\d{3})(?:\1\d{3})*)?(?:,\d*)?$/u,
};

/** The digits without groups and with a decimal point; undefined where they can't be meant so. */
export function plainDigits({ digits, power }: NumberParts, mark: DecimalMark): string | undefined {
  if (!FORMS[mark].test(digits)) return undefined;
  const sign = mark === 'point' ? '.' : ',';
  const [whole = '', decimals] = digits.split(sign);
  const bare = whole.replace(/\D/gu, '');
  // Nobody groups the digits before a power of ten.
  if (power !== '' && bare !== whole) return undefined;
  return decimals === undefined || decimals === '' ? bare : `${bare}.${decimals}`;
}

/** What the numbers of a column say of their decimal mark. */
export interface MarkEvidence {
  /** A number that can only be meant with a point, and with a comma. */
  readonly point?: string;
  readonly comma?: string;
  /** Numbers that mean something else with a point and with a comma: the first, and what all of them would be. */
  readonly ambiguous?: string;
  readonly either: readonly { readonly point: number; readonly comma: number }[];
}

export function markEvidence(fields: readonly string[]): MarkEvidence {
  const found: { point?: string; comma?: string; ambiguous?: string } = {};
  const either: { point: number; comma: number }[] = [];
  for (const field of fields) {
    const parts = numberParts(field);
    if (parts === undefined || !/[.,]/.test(parts.digits)) continue;
    const [point, comma] = [plainDigits(parts, 'point'), plainDigits(parts, 'comma')];
    if (point !== undefined && comma === undefined) found.point ??= field;
    else if (comma !== undefined && point === undefined) found.comma ??= field;
    else if (point !== undefined && comma !== undefined && Number(point) !== Number(comma)) {
      found.ambiguous ??= field;
      either.push({ point: Number(point), comma: Number(comma) });
    }
  }
  return { ...found, either };
}

interface MarkSetting {
  readonly between: Between;
  readonly isCount: boolean;
  /** What the other columns of the text say. */
  readonly others: readonly MarkEvidence[];
  /** Whether a number can be meant in this column. */
  readonly isUsual: (number: number) => boolean;
}

/** The decimal mark of a whole column, or that it has to be asked; never of one field alone. */
export function readMark({ point, comma, ambiguous, either }: MarkEvidence, said: DecimalMark | undefined, setting: MarkSetting): MarkReading {
  const two = ambiguous === undefined ? {} : { ambiguous };
  const conflict = point !== undefined && comma !== undefined ? { conflict: [point, comma] as const } : {};
  if (said !== undefined) return { mark: said, by: 'reader', ...two, ...conflict };
  if (point !== undefined && comma !== undefined) return { by: 'conflict', ...two, ...conflict };
  if (point !== undefined) return { mark: 'point', by: 'column', ...two };
  if (comma !== undefined) return { mark: 'comma', by: 'column', ...two };
  if (ambiguous === undefined) return { mark: 'point', by: 'plain' };
  const usual = (mark: DecimalMark): number => either.filter((both) => setting.isUsual(both[mark])).length;
  const [withPoint, withComma] = [usual('point'), usual('comma')];
  const elsewhere = markElsewhere(setting.others);
  if (elsewhere !== undefined) return (elsewhere === 'point' ? withPoint : withComma) === 0 ? { by: 'open', ...two } : { mark: elsewhere, by: 'text', ...two };
  if (withPoint === either.length && withComma === 0) return { mark: 'point', by: 'range', ...two };
  if (withComma === either.length && withPoint === 0) return { mark: 'comma', by: 'range', ...two };
  // A comma between the columns leaves the point to the decimals, unless it stands where a count could have groups.
  if (setting.between === ',' && !setting.isCount && !ambiguous.includes(',')) return { mark: 'point', by: 'between', ...two };
  return { by: 'open', ...two };
}

function markElsewhere(others: readonly MarkEvidence[]): DecimalMark | undefined {
  const isPoint = others.some(({ point }) => point !== undefined);
  const isComma = others.some(({ comma }) => comma !== undefined);
  return isPoint === isComma ? undefined : isPoint ? 'point' : 'comma';
}
