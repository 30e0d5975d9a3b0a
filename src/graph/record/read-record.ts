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
  const told: Problem[] = [];
  const time = (text: string | undefined, key: string): number | undefined => {
    if (text === undefined || text === '') return undefined;
    const at = readStamp(text);
    if (at === undefined) told.push(problems.timeUnread(text, key));
    return at;
  };
  const number = (text: string | undefined, key: string): number | undefined => {
    if (text === undefined || text.trim() === '') return undefined;
    const typed = parseNumber(text);
    if (!typed.ok) told.push({ ...typed.problem, key });
    return typed.ok ? typed.value.value : undefined;
  };
  const started = time(cell.texts.get('started'), 'started');
  const ended = time(cell.texts.get('ended'), 'ended');
  const pauses = cell.pauses.flatMap((pause): Pause[] => {
    const from = time(pause.get('from'), 'pauses');
    return from === undefined ? [] : [{ from, to: time(pause.get('to'), 'pauses') }];
  });
  const multiplier = number(cell.texts.get('counter_multiplier'), 'counter_multiplier') ?? 1;
  const digits = number(cell.texts.get('counter_digits'), 'counter_digits') ?? 6;
  if (!(multiplier > 0)) told.push(problems.multiplierImpossible());
  if (!Number.isInteger(digits) || digits < 1 || digits > 12) told.push(problems.digitsImpossible());
  const count = (text: string | undefined, key: string): number | undefined => {
    const reading = number(text, key);
    if (reading === undefined) return undefined;
    if (Number.isInteger(reading) && reading >= 0 && reading < 10 ** digits) return reading;
    told.push(problems.counterImpossible(text ?? '', digits, key));
    return undefined;
  };
  const readings = cell.readings.map((entry, place) => ({
    place, at: time(entry.get('at'), 'readings'), reading: count(entry.get('counter'), 'readings'), speed: speedOf(entry.get('speed'), told), confirmed: entry.get('rolled_over'),
  }));
  const first = count(cell.texts.get('counter_start'), 'counter_start');
  const last = count(cell.texts.get('counter_end'), 'counter_end');
  const between = readings
    .flatMap(({ at, reading, place, confirmed }): CounterEntry[] => (at === undefined || reading === undefined ? [] : [{ at, reading, place, confirmed }]))
    .toSorted((a, b) => a.at - b.at);
  const entries: readonly CounterEntry[] = started === undefined || first === undefined
    ? []
    : [
        { at: started, reading: first, place: 'start', confirmed: undefined }, ...between,
        ...(ended === undefined || last === undefined ? [] : [{ at: ended, reading: last, place: 'end' as const, confirmed: cell.texts.get('counter_end_rolled_over') }]),
      ];
  const predicted = new Map<string, FrozenValue>();
  for (const [role, symbol] of cell.watches) {
    const frozen = readFrozen(symbol, cell.frozen.get(symbol) ?? '');
    if (!frozen.ok) told.push(frozen.problem);
    else if (frozen.value !== undefined) predicted.set(role, frozen.value);
  }
  const outcome = OUTCOMES.find((word) => word === cell.texts.get('outcome'));
  if (cell.texts.has('outcome') && outcome === undefined) told.push(problems.outcomeUnknown(cell.texts.get('outcome') ?? '', OUTCOMES));
  const loadingCycles = number(cell.texts.get('loading_cycles'), 'loading_cycles');
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
    ...(counted === undefined || told.length > 0 ? {} : { counted }),
    ...(question === undefined ? {} : { question }),
    ...(speed === undefined ? {} : { speed }),
    ...(loadingCycles === undefined ? {} : { loadingCycles }),
    ...(outcome === undefined ? {} : { outcome }),
    predicted,
    problems: [...told, ...problems.orderProblems(started, ended, pauses)],
    warnings: [...problems.orderWarnings(started, ended, pauses, readings.flatMap(({ at }) => at ?? [])), ...warnings],
  };
}

function speedOf(text: string | undefined, told: Problem[]): number | undefined {
  if (text === undefined || text.trim() === '') return undefined;
  const typed = parseQuantity(text, REVOLUTIONS_PER_MINUTE);
  if (!typed.ok) told.push({ ...typed.problem, key: 'readings' });
  else if (typed.value.value > 0) return typed.value.value;
  else told.push(problems.speedImpossible(text));
  return undefined;
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
