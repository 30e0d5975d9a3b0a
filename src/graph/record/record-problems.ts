import type { Pause } from '../../core/fatigue/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import type { CounterGain, CounterQuestion } from './types.ts';

/** What a test record may be told: times and numbers that can't be, and what is odd and used all the same. */

export function timeUnread(text: string, key: string): Problem {
  return {
    code: 'record-time',
    what: `The time “${text}” can't be read.`,
    mend: 'Choose it anew, or write it with its offset from UTC, such as 2026-11-20T09:12:00+01:00.',
    key,
  };
}

export function counterImpossible(text: string, digits: number, key: string): Problem {
  return {
    code: 'record-counter',
    what: `A counter of ${digits} digits can't show ${text.trim()}.`,
    mend: 'Copy the figures as they stand on the counter, and look at its number of digits.',
    key,
  };
}

/** @param since time between the two readings, ms */
export function counterLower({ place, before, reading, times = 1 }: CounterQuestion, since: number, { cycles, expected, isPlausible }: CounterGain): Problem {
  const counted = `${Math.round(cycles)} cycles`;
  const rolled = expected === undefined
    ? ` Past its last number it would have counted ${counted} since.`
    : ` Past its last number${times === 1 ? '' : ` ${times} times`} it would have counted ${counted} since, where speed and time give about ${Math.round(expected)}.`;
  return {
    code: 'record-counter-lower',
    what: `The counter shows ${reading}, less than the ${before} noted ${minutesText(since)} before.${rolled}${isPlausible ? '' : ' That can hardly be.'}`,
    mend: isPlausible
      ? 'Confirm that it went past its last number, or correct the reading. Until then cycles by the counter are not counted beyond it.'
      : 'Look at both readings again, and at the number of digits. Confirm a roll-over only if it was seen. Until then cycles by the counter are not counted beyond it.',
    key: place === 'end' ? 'counter_end' : 'readings',
  };
}

/** A reading that several days would explain, or a machine that stood still. */
export function counterBehind({ place, times = 1 }: CounterQuestion, cycles: number, expected: number): Problem {
  return {
    code: 'record-counter-behind',
    what: `${place === 'end' ? 'The counter at the end' : `Reading ${place + 1}`} is ${Math.round(cycles)} cycles after the reading before it, where speed and time give about ${Math.round(expected)}. It would fit if the counter went past its last number ${times === 1 ? 'once' : `${times} times`} since.`,
    mend: 'Confirm that if the machine ran all the time. If it stood still, leave it, and note when it stopped. Until then the reading is used as it stands.',
    key: place === 'end' ? 'counter_end' : 'readings',
  };
}

export function counterAhead(place: number, cycles: number, expected: number): Problem {
  return {
    code: 'record-counter-speed',
    what: `Reading ${place + 1} is ${Math.round(cycles)} cycles after the one before it, where speed and time give about ${Math.round(expected)}.`,
    mend: 'Look at the reading, at what one unit of the counter stands for, and at the speed. It is used as it stands.',
    key: 'readings',
  };
}

function minutesText(milliseconds: number): string {
  const seconds = Math.round(milliseconds / 1000);
  return seconds < 120 ? `${seconds} s` : seconds < 7200 ? `${Math.round(seconds / 60)} min` : `${Math.round(seconds / 3600)} h`;
}

export function multiplierImpossible(): Problem {
  return { code: 'record-multiplier', what: 'The multiplier of the counter must be above 0.', mend: 'Type 1 where each cycle counts once.', key: 'counter_multiplier' };
}

export function digitsImpossible(): Problem {
  return { code: 'record-digits', what: 'The counter has a whole number of digits from 1 to 12.', mend: 'Count the digits it can show.', key: 'counter_digits' };
}

export function speedImpossible(text: string): Problem {
  return { code: 'record-speed', what: `A speed of ${text.trim()} can't be noted while the machine runs.`, mend: 'Note a pause instead.', key: 'readings' };
}

export function outcomeUnknown(text: string, outcomes: readonly string[]): Problem {
  return { code: 'record-outcome', what: `“${text}” is no outcome of a test.`, mend: `Choose one of: ${outcomes.join(', ')}.`, key: 'outcome' };
}

/** Times that can't be true together. */
export function orderProblems(started: number | undefined, ended: number | undefined, pauses: readonly Pause[]): readonly Problem[] {
  const told: Problem[] = [];
  const mend = 'Correct one of the times. The clock of the device may have been set between them.';
  if (started !== undefined && ended !== undefined && ended < started) {
    told.push({ code: 'record-end-order', what: 'The end of the test lies before its start.', mend, key: 'ended' });
  }
  pauses.forEach(({ from, to }, i) => {
    if (to !== undefined && to < from) told.push({ code: 'record-pause-order', what: `Pause ${i + 1} ends before it begins.`, mend, key: 'pauses' });
  });
  return told;
}

/** Times that are odd, with what is made of them. */
export function orderWarnings(started: number | undefined, ended: number | undefined, pauses: readonly Pause[], readings: readonly number[]): readonly Problem[] {
  if (started === undefined) return [];
  const told: Problem[] = [];
  const outside = (at: number): boolean => at < started || (ended !== undefined && at > ended);
  if (readings.some(outside)) {
    told.push({ code: 'record-reading-outside', what: 'A reading was noted before the start or after the end.', mend: 'Look at its time. It is used in the order of the times.', key: 'readings' });
  }
  if (readings.some((at, i) => at < (readings[i - 1] ?? at))) {
    told.push({ code: 'record-reading-order', what: 'The readings are not in the order of their times.', mend: 'The clock may have been set back between them. They are used in the order of the times.', key: 'readings' });
  }
  if (pauses.some(({ from, to }) => outside(from) || (to !== undefined && outside(to)))) {
    told.push({ code: 'record-pause-outside', what: 'A pause reaches beyond the start or the end.', mend: 'Only what lies within the test is taken off.', key: 'pauses' });
  }
  const inOrder = pauses.toSorted((a, b) => a.from - b.from);
  if (inOrder.some(({ from }, i) => i > 0 && from < (inOrder[i - 1]?.to ?? Number.POSITIVE_INFINITY))) {
    told.push({ code: 'record-overlap', what: 'Two pauses overlap.', mend: 'The time they share is taken off once.', key: 'pauses' });
  }
  return told;
}
