import type { Problem, Span } from '../problem/index.ts';

/** Sentences about units, built last, from data; tests pin them. */

/** What was typed, quoted, cut where it is long. */
export function quoted(text: string): string {
  const letters = [...text.trim()];
  return `\u201c${letters.length > 40 ? `${letters.slice(0, 40).join('')}\u2026` : letters.join('')}\u201d`;
}

/** `a`, `a or b`, `a, b or c`. */
export function alternatives(names: readonly string[]): string {
  const last = names[names.length - 1] ?? '';
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} or ${last}`;
}

export function textTooLong(length: number, limit: number): Problem {
  return {
    code: 'text-too-long',
    what: `This text has ${length} characters; at most ${limit} can be read here.`,
    mend: 'Write less here: one value with its unit, such as 6.35 mm.',
    span: { start: limit, end: length },
  };
}

/** Revolutions as other languages shorten them. */
const REVOLUTIONS = new Set(['U', 'Upm', 'tr', 'giri', 'ot']);

export function unitUnknown(word: string, near: readonly string[], span: Span): Problem {
  return {
    code: 'unit-unknown',
    what: `The sheet knows no unit ${quoted(word)}.`,
    mend: REVOLUTIONS.has(word) ? 'For revolutions per minute write rev/min.' : near.length > 0 ? `Did you mean ${alternatives(near)}?` : 'Write a unit such as mm, N, MPa, in, lbf or ksi.',
    span,
  };
}

export function unitTwoReadings(word: string, reason: string, write: readonly string[], span: Span): Problem {
  return {
    code: 'unit-ambiguous',
    what: `${quoted(word)} can be read in more than one way: ${reason}.`,
    mend: `Write ${alternatives(write)}.`,
    span,
  };
}

export function exponentUnmarked(word: string, digits: string, span: Span): Problem {
  return {
    code: 'unit-exponent-unmarked',
    what: `${quoted(word + digits)} has a number right after the unit ${word}.`,
    mend: `For a power write ${word}^${digits}.`,
    span,
  };
}

export function exponentUnreadable(span: Span): Problem {
  return {
    code: 'unit-exponent',
    what: 'The exponent of this unit can\u2019t be read.',
    mend: 'Write a number from \u221212 to 12 other than 0 after ^, such as mm^4 or s^-1.',
    span,
  };
}

export function numberInUnit(digits: string, span: Span): Problem {
  return {
    code: 'unit-number',
    what: `The number ${digits} stands among the units.`,
    mend: 'Write one number first, then the unit; a power is written with ^, such as mm^4 or min^-1.',
    span,
  };
}

export function productAfterDivision(span: Span): Problem {
  return {
    code: 'unit-brackets',
    what: 'After the / it is not clear what is divided by.',
    mend: 'Put brackets round the units below the line, such as W/(m\u00b7K).',
    span,
  };
}

export function unitMissing(span: Span): Problem {
  return {
    code: 'unit-missing',
    what: 'A unit is missing here.',
    mend: 'Write a unit on both sides of \u00b7 and /, such as N\u00b7m or N/mm^2.',
    span,
  };
}

export function unitBracketOpen(span: Span): Problem {
  return { code: 'unit-bracket-open', what: 'This bracket is not closed.', mend: 'Write ) where the bracket ends.', span };
}

export function unitTextLeft(rest: string, span: Span): Problem {
  return {
    code: 'unit-syntax',
    what: `${quoted(rest)} can\u2019t be read as part of the unit.`,
    mend: 'Write units with \u00b7, /, ^ and brackets, such as N\u00b7m, N/mm^2 or W/(m\u00b7K).',
    span,
  };
}

export function unitOutOfRange(span: Span): Problem {
  return {
    code: 'unit-too-large',
    what: 'The powers in this unit are too large to reckon with.',
    mend: 'Use smaller exponents.',
    span,
  };
}

/** The same problem, told of a longer text in which the shorter one starts at `offset`. */
export function placedIn(problem: Problem, text: string, offset: number): Problem {
  const span = problem.span;
  if (span === undefined) return { ...problem, text };
  return { ...problem, text, span: { start: span.start + offset, end: span.end + offset } };
}
