import type { Pause } from '../../core/fatigue/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import { remembered } from '../../core/remembered/index.ts';
import { parseNumber, parseQuantity } from '../../core/units/index.ts';
import type { RecordCell } from '../../sheet/types.ts';
import { believe, type CounterEntry } from './counter-question.ts';
import { readFrozen } from './frozen.ts';
import * as problems from './record-problems.ts';
import { readStamp } from './stamps.ts';
import { REVOLUTIONS_PER_MINUTE } from './units.ts';
import type { FrozenValue, RecordOutcome, RecordState } from './types.ts';

export const OUTCOMES: readonly RecordOutcome[] = ['fracture', 'runout', 'suspended', 'invalid'];

/** The record as numbers and times; the same cell gives the same object. */
export const readRecord = remembered((cell: RecordCell): RecordState => Object.freeze(read(cell)));

function read(cell: RecordCell): RecordState {
  const texts = new Texts();
  const started = texts.time(cell.texts.get('started'), 'started');
  const ended = texts.time(cell.texts.get('ended'), 'ended');
  const pauses = cell.pauses.flatMap((pause): Pause[] => {
    const from = texts.time(pause.get('from'), 'pauses');
    return from === undefined ? [] : [{ from, to: texts.time(pause.get('to'), 'pauses') }];
  });
  const { multiplier, digits, readings, entries } = readCounter(cell, texts, started, ended);
  const predicted = new Map<string, FrozenValue>();
  for (const [role, symbol] of cell.watches) {
    const frozen = readFrozen(symbol, cell.frozen.get(symbol) ?? '');
    if (!frozen.ok) texts.told.push(frozen.problem);
    else if (frozen.value !== undefined) predicted.set(role, frozen.value);
  }
  const outcome = OUTCOMES.find((word) => word === cell.texts.get('outcome'));
  if (cell.texts.has('outcome') && outcome === undefined) texts.told.push(problems.outcomeUnknown(cell.texts.get('outcome') ?? '', OUTCOMES));
  const loadingCycles = texts.number(cell.texts.get('loading_cycles'), 'loading_cycles');
  const stamps = [started, ended, ...pauses.flatMap(({ from, to }) => [from, to]), ...readings.map(({ at }) => at)].flatMap((at) => at ?? []);
  const speed = meanSpeed(readings.flatMap(({ speed: noted }) => noted ?? []), predicted.get('speed'));
  const { counter, counted, question, warnings } = believe(entries, { multiplier, digits, speed, pauses });
  const still = pauses.some(({ to }) => to === undefined);
  return {
    phase: started === undefined ? 'not started' : ended !== undefined ? 'ended' : still ? 'paused' : 'running',
    ...(started === undefined ? {} : { started }),
    ...(ended === undefined ? {} : { ended }),
    pauses,
    ...(stamps.length === 0 ? {} : { latest: Math.max(...stamps) }),
    multiplier,
    digits,
    counter,
    ...(counted === undefined || texts.told.length > 0 ? {} : { counted }),
    ...(question === undefined ? {} : { question }),
    ...(speed === undefined ? {} : { speed }),
    ...(loadingCycles === undefined ? {} : { loadingCycles }),
    ...(outcome === undefined ? {} : { outcome }),
    predicted,
    problems: [...texts.told, ...problems.orderProblems(started, ended, pauses)],
    warnings: [...problems.orderWarnings(started, ended, pauses, readings.flatMap(({ at, reading, speed: noted }) => (reading === undefined && noted === undefined ? [] : at ?? []))), ...warnings],
  };
}

/** What was noted of counter and speed, and the counter's readings in order of time with those at start and end. */
function readCounter(cell: RecordCell, texts: Texts, started: number | undefined, ended: number | undefined) {
  const multiplier = texts.number(cell.texts.get('counter_multiplier'), 'counter_multiplier') ?? 1;
  const digits = texts.number(cell.texts.get('counter_digits'), 'counter_digits') ?? 6;
  if (!(multiplier > 0)) texts.told.push(problems.multiplierImpossible());
  if (!Number.isInteger(digits) || digits < 1 || digits > 12) texts.told.push(problems.digitsImpossible());
  const readings = cell.readings.map((entry, place) => ({
    place,
    at: texts.time(entry.get('at'), 'readings'),
    reading: texts.count(entry.get('counter'), 'readings', digits),
    speed: texts.speed(entry.get('speed')),
    confirmed: entry.get('rolled_over'),
  }));
  const first = texts.count(cell.texts.get('counter_start'), 'counter_start', digits);
  const last = texts.count(cell.texts.get('counter_end'), 'counter_end', digits);
  const between = readings
    .flatMap(({ at, reading, place, confirmed }): CounterEntry[] => (at === undefined || reading === undefined ? [] : [{ at, reading, place, confirmed }]))
    .toSorted((a, b) => a.at - b.at);
  const entries: readonly CounterEntry[] = started === undefined || first === undefined
    ? []
    : [
        { at: started, reading: first, place: 'start', confirmed: undefined }, ...between,
        ...(ended === undefined || last === undefined ? [] : [{ at: ended, reading: last, place: 'end' as const, confirmed: cell.texts.get('counter_end_rolled_over') }]),
      ];
  return { multiplier, digits, readings, entries };
}

/** Reads one text after the other; one that is absent or empty is nothing, one that can't be read is told. */
class Texts {
  readonly told: Problem[] = [];

  time(text: string | undefined, key: string): number | undefined {
    if (text === undefined || text === '') return undefined;
    const at = readStamp(text);
    if (at === undefined) this.told.push(problems.timeUnread(text, key));
    return at;
  }

  number(text: string | undefined, key: string): number | undefined {
    if (text === undefined || text.trim() === '') return undefined;
    const typed = parseNumber(text);
    if (!typed.ok) this.told.push({ ...typed.problem, key });
    return typed.ok ? typed.value.value : undefined;
  }

  count(text: string | undefined, key: string, digits: number): number | undefined {
    const reading = this.number(text, key);
    if (reading === undefined || (Number.isInteger(reading) && reading >= 0 && reading < 10 ** digits)) return reading;
    this.told.push(problems.counterImpossible(text ?? '', digits, key));
    return undefined;
  }

  speed(text: string | undefined): number | undefined {
    if (text === undefined || text.trim() === '') return undefined;
    const typed = parseQuantity(text, REVOLUTIONS_PER_MINUTE);
    if (!typed.ok) this.told.push({ ...typed.problem, key: 'readings' });
    else if (typed.value.value > 0) return typed.value.value;
    else this.told.push(problems.speedImpossible(text));
    return undefined;
  }
}

/** The scatter of several readings counts whole and not divided by √n: a speed that drifts is not one quantity read often. */
function meanSpeed(noted: readonly number[], frozen: FrozenValue | undefined): RecordState['speed'] {
  const own = frozen?.standardUncertainty ?? 0;
  const last = noted.at(-1);
  if (last === undefined) return frozen === undefined ? undefined : { value: frozen.value, standardUncertainty: own, noted: 0, last: frozen.value };
  const value = noted.reduce((sum, speed) => sum + speed, 0) / noted.length;
  const scatter = noted.length < 2 ? 0 : Math.sqrt(noted.reduce((sum, speed) => sum + (speed - value) ** 2, 0) / (noted.length - 1));
  return { value, standardUncertainty: Math.hypot(scatter, own), noted: noted.length, last };
}
