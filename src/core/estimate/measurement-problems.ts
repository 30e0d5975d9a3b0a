import type { Problem, Span } from '../problem/index.ts';
import { alternatives, quoted } from '../units/index.ts';

/** Sentences about measured values as typed, built last, from data; tests pin them. */

export function uncertaintyNegative(typed: string, span: Span): Problem {
  return {
    code: 'uncertainty-negative',
    what: `The uncertainty ${typed} is negative.`,
    mend: 'Write it without a minus sign; \u00b1 stands for both directions.',
    span,
  };
}

export function uncertaintyTwice(span: Span): Problem {
  return {
    code: 'uncertainty-twice',
    what: 'Two uncertainties stand here.',
    mend: 'Write one value and one \u00b1, such as 6.31 \u00b1 0.02 mm.',
    span,
  };
}

export function valueMissing(span: Span): Problem {
  return {
    code: 'value-missing',
    what: 'No value stands before \u00b1.',
    mend: 'Write the value first, such as 6.31 \u00b1 0.02 mm.',
    span,
  };
}

export function uncertaintyMissing(span: Span): Problem {
  return {
    code: 'uncertainty-missing',
    what: 'No number stands after \u00b1.',
    mend: 'Write the uncertainty there, such as 6.31 \u00b1 0.02 mm.',
    span,
  };
}

export function uncertaintyExpanded(factor: string, span: Span): Problem {
  return {
    code: 'uncertainty-expanded',
    what: `k = ${factor} says that the figure after \u00b1 is an expanded uncertainty.`,
    mend: `Write the standard uncertainty: that figure divided by ${factor}, without k.`,
    span,
  };
}

export function uncertaintyUnitUnclear(shared: string, own: string, span: Span): Problem {
  return {
    code: 'uncertainty-unit-unclear',
    what: `The value has no unit of its own and can be read in two ways: ${shared} or ${own}?`,
    mend: `Write the unit after both numbers: ${shared} \u00b1 ..., or ${own} \u00b1 ...`,
    span,
  };
}

export function uncertaintyPercentUnclear(
  percent: string,
  value: string,
  readings: { readonly ofValue: string; readonly itself: string },
  span: Span,
): Problem {
  return {
    code: 'uncertainty-percent-unclear',
    what: `\u00b1 ${percent} can be read in two ways: ${percent} of ${value}, or ${readings.itself} itself?`,
    mend: `Write \u00b1 ${readings.ofValue}, or \u00b1 ${readings.itself}.`,
    span,
  };
}

export function uncertaintyPercentOfZero(percent: string, unit: string, span: Span): Problem {
  return {
    code: 'uncertainty-percent-of-zero',
    what: `${percent} of 0 is nothing.`,
    mend: `Write the uncertainty in ${unit}.`,
    span,
  };
}

export function uncertaintyPercentOfTemperature(percent: string, unit: string, span: Span): Problem {
  return {
    code: 'uncertainty-percent-of-temperature',
    what: `${percent} of a temperature in ${unit} has no meaning, because 0 ${unit} is not the absence of heat.`,
    mend: `Write the uncertainty in ${unit}.`,
    span,
  };
}

export function limitWithoutValue(span: Span): Problem {
  return {
    code: 'limit-without-value',
    what: 'The word limit stands here, but no \u00b1 with the limit\u2019s size.',
    mend: 'Write such as 6.31 \u00b1 0.02 mm limit.',
    span,
  };
}

export function limitWordMissing(distribution: string, span: Span): Problem {
  return {
    code: 'limit-word-missing',
    what: `${quoted(distribution)} says how a limit is spread, but the word limit is missing.`,
    mend: `Write limit ${distribution.toLowerCase()} if the figure after \u00b1 is a limit.`,
    span,
  };
}

export function limitDistributionUnknown(typed: string, names: readonly string[], span: Span): Problem {
  return {
    code: 'limit-distribution-unknown',
    what: `${quoted(typed)} after the word limit is no distribution that the sheet knows.`,
    mend: `Write ${alternatives(names)}, or nothing for rectangular.`,
    span,
  };
}

export function readingsEmpty(span: Span): Problem {
  return {
    code: 'readings-empty',
    what: 'There is no reading here.',
    mend: 'Write readings separated by commas, such as [6.31, 6.33] mm.',
    span,
  };
}

export function readingsGap(place: number, span: Span): Problem {
  return {
    code: 'readings-gap',
    what: `Reading ${place} is empty.`,
    mend: 'Write a number there, or take one of the separators out.',
    span,
  };
}

export function readingsBracket(span: Span): Problem {
  return {
    code: 'readings-bracket',
    what: 'The square brackets round the readings are not complete.',
    mend: 'Write one pair, with the unit after it, such as [6.31, 6.33] mm.',
    span,
  };
}

export function readingsComma(text: string, span: Span): Problem {
  return {
    code: 'readings-comma',
    what: `It is not clear in ${quoted(text)} which commas separate readings and which are decimal marks.`,
    mend: 'Put ; between readings, or a blank after each comma that separates two.',
    span,
  };
}

export function readingsSeparator(first: string, span: Span): Problem {
  return {
    code: 'readings-separator',
    what: `After ${first} another number follows without a separator.`,
    mend: 'Put a comma between readings, or ; where the comma is your decimal mark.',
    span,
  };
}

export function readingsUnitMissing(bare: string, withUnit: string, span: Span): Problem {
  return {
    code: 'readings-unit-missing',
    what: `The reading ${bare} has no unit, while ${withUnit} has one.`,
    mend: 'Write the unit once, after the last reading, or after each of them.',
    span,
  };
}

export function readingsUnitTwice(span: Span): Problem {
  return {
    code: 'readings-unit-twice',
    what: 'A unit stands inside the brackets and after them.',
    mend: 'Write the unit once, after the brackets.',
    span,
  };
}

export function readingsUncertainty(span: Span): Problem {
  return {
    code: 'readings-uncertainty',
    what: 'Repeated readings and a stated uncertainty stand together.',
    mend: 'Write the readings alone, and the sheet works their uncertainty out; or write one value with \u00b1.',
    span,
  };
}
