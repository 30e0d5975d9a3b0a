import type { Problem, Span } from '../problem/index.ts';
import { alternatives, describeDimensionWithArticle, quoted, type Unit } from '../units/index.ts';

/** Sentences about instruments, built last, from data; tests pin them. */

export function instrumentUnknown(typed: string, near: readonly string[], known: readonly string[], span: Span): Problem {
  return {
    code: 'instrument-unknown',
    what: typed === '' ? 'No instrument is named here.' : `The sheet knows no instrument ${quoted(typed)}.`,
    mend: near.length > 0
      ? `Did you mean ${alternatives(near)}?`
      : `Write ${alternatives(known)}; the last one takes any instrument's resolution, such as resolution only, 0.01 mm.`,
    span,
  };
}

export function instrumentOtherDimension(instrument: string, shows: Unit, measured: Unit): Problem {
  const shown = describeDimensionWithArticle(shows.dimension);
  const asked = describeDimensionWithArticle(measured.dimension);
  return {
    code: 'instrument-dimension',
    what: `A reading of the ${instrument} is ${shown} (${shows.name}), but this is ${asked}.`,
    mend: `Name an instrument that shows ${asked}, or write its resolution in ${measured.name}.`,
  };
}

export function resolutionNegative(typed: string, span: Span): Problem {
  return {
    code: 'resolution-negative',
    what: `The resolution ${quoted(typed)} is less than nothing.`,
    mend: 'Write the smallest step that the instrument shows, such as 0.01 mm.',
    span,
  };
}

export function limitNegative(typed: string, span: Span): Problem {
  return {
    code: 'limit-negative',
    what: `The limit of error ${quoted(typed)} is less than nothing.`,
    mend: 'Write it without a minus sign: it holds in both directions.',
    span,
  };
}

export function distributionUnknown(typed: string, names: readonly string[]): Problem {
  return {
    code: 'distribution-unknown',
    what: `The sheet knows no distribution ${quoted(typed)}.`,
    mend: `Write ${alternatives(names)}.`,
    text: typed,
    span: { start: 0, end: typed.length },
  };
}

export function limitInexactness(typed: string): Problem {
  return {
    code: 'limit-inexactness',
    what: `A limit can’t be off by ${quoted(typed)} of itself.`,
    mend: 'Write a share between 0 and 100 %, such as 25 %.',
    text: typed,
    span: { start: 0, end: typed.length },
  };
}

export function limitDegrees(typed: string): Problem {
  return {
    code: 'limit-degrees',
    what: `${quoted(typed)} can’t be degrees of freedom of a limit.`,
    mend: 'Write a number of 1 or more, such as 8.',
    text: typed,
    span: { start: 0, end: typed.length },
  };
}
