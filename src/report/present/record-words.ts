import type { CountSuspicion } from '../../core/fatigue/index.ts';
import type { RecordCell } from '../../sheet/types.ts';
import { decimalText } from './number.ts';

/** Labels of what a record says in one text each, as the form and the report have them. */
export const RECORD_LABELS: Readonly<Record<string, string>> = {
  load_verified: 'Load verified on',
  finish: 'Finish of the test section',
  roughness: 'Roughness',
  hardness: 'Hardness',
  room_temperature: 'Room temperature',
  humidity: 'Humidity, or medium',
  temperature_limit: 'Specimen temperature at which it is stopped',
  run_in: 'Run-in: what is steady, for how long',
  criterion: 'Criterion of failure',
  crack_length: 'Crack length that counts as failure',
  counter_start: 'Counter at the start',
  counter_multiplier: 'Cycles for each unit of the counter',
  counter_digits: 'Digits of the counter',
  open_at_start: 'Checklist items open at the start',
  started: 'Started',
  ended: 'Ended',
  counter_end: 'Counter at the end',
  counter_end_rolled_over: 'Confirmed: the counter went past its last number',
  loading_cycles: 'Of these, cycles while the load was brought on',
  specimen_temperature: 'Specimen temperature, highest',
  outcome: 'Outcome',
  why: 'Why',
  place: 'Place of fracture, from the thinnest section',
  broke_in: 'It broke in',
};

/** What would explain that counter and clock differ, as a question to look at. */
export const SUSPICIONS: Readonly<Record<CountSuspicion, string>> = {
  'factor 60': 'A factor of 60: was a speed per minute taken as one per second, or minutes as hours?',
  'factor 3600': 'A factor of 3600: were seconds taken as hours?',
  'power of ten': 'A power of ten: what does one unit of the counter stand for?',
  'factor 2': 'A factor of two: does the counter count half strokes, or reversals?',
  'roll-over': 'The counter may have gone past its last number once more.',
  'start not taken off': 'The last reading alone would agree: had the counter been set to zero at the start?',
  'clock as decimal': 'Minutes may have been written as hundredths of an hour, 1:30 as 1.30 h.',
  'speed not steady': 'The speed was not the same all the time: slip, run-up or stops that were not noted. The counter is to be trusted.',
};

/** `3 h 12 min 05 s`; days from two days on. */
export function durationText(milliseconds: number): string {
  const seconds = Math.max(0, Math.floor(milliseconds / 1000));
  const two = (number: number): string => String(number).padStart(2, '0');
  const [days, hours, minutes] = [Math.floor(seconds / 86_400), Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60];
  if (days >= 2) return `${days} d ${hours % 24} h ${two(minutes)} min`;
  if (hours > 0) return `${hours} h ${two(minutes)} min ${two(seconds % 60)} s`;
  return minutes > 0 ? `${minutes} min ${two(seconds % 60)} s` : `${seconds} s`;
}

/** Whole cycles with their digits in groups. */
export function cyclesText(cycles: number): string {
  return `${decimalText(String(Math.round(cycles)), 0)} cycles`;
}

/** A share between 0 and 1: never 0 % or 100 % of what may still happen. */
export function shareText(share: number): string {
  if (share < 0.001) return 'less than 0.1 %';
  if (share > 0.999) return 'more than 99.9 %';
  const percent = share * 100;
  return `${percent < 9.95 || percent > 90.05 ? percent.toFixed(1) : percent.toFixed(0)} %`;
}

/** Day and second on the clock of the place, as the stamp says it. */
export function stampText(stamp: string): string {
  const [, day, time] = /^(\d{4}-\d{2}-\d{2})T(\d{2}:\d{2}(?::\d{2})?)/.exec(stamp) ?? [];
  return day === undefined ? stamp : `${day} ${time ?? ''}`;
}

/** Whether the machine was left to itself at this entry, or somebody came back; '' at any other. */
export function aloneText(reading: ReadonlyMap<string, string>): string {
  const [left, back] = [reading.get('left') ?? '', reading.get('back') ?? ''];
  if (back !== '') return 'somebody is with it again';
  return left === '' ? '' : `left running alone, ${left} items of its list open`;
}

/** One noted reading in words, as the report has it. */
export function readingText(reading: ReadonlyMap<string, string>): readonly string[] {
  const rolled = reading.has('rolled_over') ? `past its last number, confirmed: ${reading.get('rolled_over') ?? ''}` : '';
  const note = [reading.get('note') ?? '', aloneText(reading), rolled].filter((text) => text !== '').join('; ');
  return [stampText(reading.get('at') ?? ''), reading.get('counter') ?? '', reading.get('speed') ?? '', note];
}

export function pauseText(pause: ReadonlyMap<string, string>): string {
  const [from, to, why] = ['from', 'to', 'why'].map((key) => pause.get(key) ?? '');
  return `${stampText(from ?? '')} to ${to === '' || to === undefined ? '(stands still)' : stampText(to)}${why === '' || why === undefined ? '' : `: ${why}`}`;
}

/** Where the test stands, in a line. */
export function standingText({ texts, pauses }: RecordCell, phase: string): string {
  const [started, ended, outcome] = ['started', 'ended', 'outcome'].map((key) => texts.get(key) ?? '');
  if (phase === 'not started') return 'Not started';
  if (phase === 'ended') return `Ended ${stampText(ended ?? '')}${outcome === '' || outcome === undefined ? '' : `: ${outcome}`}`;
  if (phase === 'paused') return `Paused since ${stampText(pauses.find((pause) => (pause.get('to') ?? '') === '')?.get('from') ?? '')}`;
  return `Running since ${stampText(started ?? '')}`;
}
