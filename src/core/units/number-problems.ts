import type { Problem, Span } from '../problem/index.ts';
import { quoted } from './unit-problems.ts';

/** Sentences about numbers as typed, built last, from data; tests pin them. */

const WRITE_A_NUMBER = 'Write a number, such as 6.35 or 1/4.';

export function numberEmpty(): Problem {
  return { code: 'number-empty', what: 'Nothing is written here yet.', mend: WRITE_A_NUMBER, span: { start: 0, end: 0 } };
}

export function numberMissing(text: string, span: Span): Problem {
  const behind = /^\s*[\u00d8\u00f8\u2300]\s*(\d.*)$/u.exec(text)?.[1];
  const mend = behind === undefined ? WRITE_A_NUMBER : `Leave the sign of a diameter out: ${behind.trim()}.`;
  return { code: 'number-missing', what: `${quoted(text)} does not begin with a number.`, mend, span };
}

/** `7·52`: a point in the middle of the line, which is a sign of multiplication here. */
export function pointRaised(whole: string, part: string, span: Span): Problem {
  return {
    code: 'number-point-raised',
    what: `The \u00b7 in ${quoted(`${whole}\u00b7${part}`)} is no decimal point here.`,
    mend: `Write ${whole}.${part} with a point at the foot of the line.`,
    span,
  };
}

export function numberNotFinite(word: string, span: Span): Problem {
  const what = `${quoted(word)} is not a number that can be measured.`;
  return { code: 'number-not-finite', what, mend: WRITE_A_NUMBER, span };
}

export function numberHexadecimal(text: string, span: Span): Problem {
  return {
    code: 'number-hexadecimal',
    what: `${quoted(text)} is not written in decimal digits.`,
    mend: 'Write the number in the ordinary way, such as 16.',
    span,
  };
}

export function numberComma(text: string, grouped: string, decimal: string, span: Span): Problem {
  return {
    code: 'number-comma',
    what: `The comma in ${quoted(text)} can be read in two ways: ${grouped} or ${decimal}?`,
    mend: `Write ${grouped}, or ${decimal} with a point.`,
    span,
  };
}

export function numberOrReadings(text: string, whole: string, readings: readonly string[], span: Span): Problem {
  const listed = readings.join('; ');
  return {
    code: 'number-or-readings',
    what: `The commas in ${quoted(text)} can be read in two ways: the one number ${whole}, or the ${readings.length} readings ${listed}?`,
    mend: `Write ${whole}, or ${listed} with semicolons.`,
    span,
  };
}

export function numberSeparators(text: string, span: Span): Problem {
  return {
    code: 'number-separators',
    what: `The commas and points in ${quoted(text)} do not make one number.`,
    mend: 'Write one decimal point and no commas, such as 1234.5.',
    span,
  };
}

export function numberTwo(first: string, second: string, span: Span): Problem {
  return {
    code: 'number-two',
    what: `Two numbers stand here: ${first} and ${second}.`,
    mend: 'Write one number; put repeated readings in square brackets, separated by commas.',
    span,
  };
}

export function numberExtra(rest: string, span: Span): Problem {
  return {
    code: 'number-extra',
    what: `${quoted(rest)} stands after the number.`,
    mend: 'Write the number alone here.',
    span,
  };
}

export function numberTooLarge(text: string, span: Span): Problem {
  return {
    code: 'number-too-large',
    what: `${quoted(text)} is larger than any number the sheet can hold.`,
    mend: 'Check the exponent; the largest number is about 1.8e308.',
    span,
  };
}

export function numberTooSmall(text: string, span: Span): Problem {
  return {
    code: 'number-too-small',
    what: `${quoted(text)} is closer to zero than any number the sheet can hold.`,
    mend: 'Check the exponent, or write 0.',
    span,
  };
}

export function numberFraction(text: string, span: Span): Problem {
  return {
    code: 'number-fraction',
    what: `${quoted(text)} can\u2019t be read as a fraction.`,
    mend: 'Write whole numbers above and below the line, such as 1/4 or 1 1/4, or a decimal number.',
    span,
  };
}

export function numberDivisionByZero(text: string, span: Span): Problem {
  return {
    code: 'number-division-by-zero',
    what: `${quoted(text)} divides by zero.`,
    mend: 'Write a number other than 0 below the line.',
    span,
  };
}

/** A clock reading is asked about: 1:30 may be hours and minutes, or minutes and seconds. */
export function numberClock(parts: readonly number[], text: string, span: Span): Problem {
  const [first = 0, second = 0, third] = parts;
  if (third !== undefined) {
    const seconds = first * 3600 + second * 60 + third;
    return {
      code: 'number-clock',
      what: `${quoted(text)} is a clock reading: ${first} h ${second} min ${third} s?`,
      mend: `For a time write ${seconds} s.`,
      span,
    };
  }
  return {
    code: 'number-clock-two-ways',
    what: `${quoted(text)} can be read in two ways: ${first} h ${second} min, or ${first} min ${second} s?`,
    mend: `For a time write ${firstReading(first, second)} or ${first * 60 + second} s.`,
    span,
  };
}

/** Hours where two decimals say them exactly, else minutes. */
function firstReading(hours: number, minutes: number): string {
  const decimal = hours + minutes / 60;
  return Math.abs(decimal * 100 - Math.round(decimal * 100)) < 1e-9 ? `${decimal} h` : `${hours * 60 + minutes} min`;
}
