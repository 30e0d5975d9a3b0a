import {
  evaluateGiven, fromInput, instrumentClass, limitKnowledge, overrideInstrument, parseMeasurement, parseReadings,
  type InstrumentClass, type Input, type Measurement,
} from '../core/estimate/index.ts';
import { composed, fail, ok, type Problem, type Result } from '../core/problem/index.ts';
import { remembered } from '../core/remembered/index.ts';
import { fromSI, parseNumber, parseUnit, type Dimension, type Unit } from '../core/units/index.ts';
import { trialText } from '../sheet/index.ts';
import type { GivenCell } from '../sheet/types.ts';
import { parseBounds, satisfies } from './bounds.ts';
import type { Filling } from './compiled-types.ts';
import { openState } from './step.ts';
import type { ReadingState, SymbolState } from './types.ts';
import { readVariation } from './variants/read-variation.ts';

/** A given read from its text. */
export interface GivenState {
  readonly result: SymbolState;
  readonly reading?: ReadingState;
  readonly input?: Input;
  readonly dimension?: Dimension;
  readonly problems: readonly Problem[];
  readonly warnings: readonly Problem[];
  /** Number of the reading: the same text read again keeps it. */
  readonly serial: number;
}

let serial = 0;
const states = new WeakMap<GivenCell, { readonly filled: string; readonly state: GivenState }>();

/** Reads a given's value and uncertainty; the same cell and filling give the same object, so that nothing moves. */
export function readGiven(cell: GivenCell, filling: Filling | undefined): GivenState {
  const filled = filling === undefined ? '' : `${filling.choice.id} ${filling.option.key} ${filling.text}`;
  const known = states.get(cell);
  if (known?.filled === filled) return known.state;
  const state = Object.freeze({ ...read(cell, filling), serial: ++serial });
  states.set(cell, { filled, state });
  return state;
}

type ReadState = Omit<GivenState, 'serial'>;

function read(cell: GivenCell, filling: Filling | undefined): ReadState {
  const typed = withVariation(readTyped(cell, filling), cell, filling);
  const trial = trialText(cell);
  return trial === undefined ? typed : onTrial(typed, readTyped(asOneValue(cell, trial), undefined));
}

/** What the numbers of teams are made of is no part of the value. */
function withVariation(state: ReadState, cell: GivenCell, filling: Filling | undefined): ReadState {
  if (cell.varies === undefined) return state;
  const unit = unitOf(cell, filling);
  const variation = unit.ok ? readVariation(cell.varies, unit.value) : unit;
  return variation.ok || !unit.ok ? state : { ...state, warnings: [...state.warnings, { ...variation.problem, key: 'varies' }] };
}

/** The unit in which a bare number of the given is read. */
export function unitOf(cell: GivenCell, filling: Filling | undefined): Result<Unit> {
  const own = cell.readings ?? cell.value ?? '';
  return defaultUnit(cell, own.trim() === '' ? (filling?.text ?? '') : own);
}

/** Whether a given has readings, in boxes or as a list in one: they are the record, and only who types there changes them. */
export const holdsReadings = remembered((cell: GivenCell): boolean => {
  if ((cell.readings ?? '').trim() !== '') return true;
  return (readTyped(cell, undefined).reading?.readings.length ?? 0) > 1;
});

/** A given with this text as its one value: it keeps the instrument, and drops its readings, those read in pairs with it and its trial value. */
export function asOneValue(cell: GivenCell, text: string): GivenCell {
  const { readings: _readings, together: _together, trial: _trial, ...kept } = cell;
  return { ...kept, value: text };
}

/** The trial value counts; what was typed is told beside it, its own trouble too. */
function onTrial(typed: ReadState, tried: ReadState): ReadState {
  const unit = tried.result.unit ?? typed.result.unit;
  const reading = typed.reading ?? (unit === undefined ? undefined : { echoes: [], readings: [], typedUnit: unit });
  return {
    ...tried,
    ...(reading === undefined ? {} : { reading: { ...reading, aside: typed.result } }),
    problems: [...typed.problems, ...tried.problems.map(ofTrial)],
    warnings: [...typed.warnings, ...tried.warnings.map(ofTrial)],
  };
}

function ofTrial(problem: Problem): Problem {
  return problem.key === 'value' ? { ...problem, key: 'trial', what: `Trial value: ${problem.what}` } : problem;
}

function readTyped(cell: GivenCell, filling: Filling | undefined): ReadState {
  const own = cell.readings ?? cell.value ?? '';
  const text = own.trim() === '' ? (filling?.text ?? '') : own;
  const unit = defaultUnit(cell, text);
  if (!unit.ok) return troubled({ ...unit.problem, key: 'unit' }, undefined);
  if (text.trim() === '') {
    // A blank that nobody has come to is in nobody's error: what reads it waits.
    return { result: openState(unit.value, cell.symbol), dimension: unit.value.dimension, problems: [], warnings: [] };
  }
  const key = own.trim() === '' ? 'value' : cell.readings === undefined ? 'value' : 'readings';
  const measured = key === 'readings' ? parseReadings(text, unit.value) : parseMeasurement(text, unit.value);
  if (!measured.ok) return troubled({ ...measured.problem, key }, unit.value);
  const { value: measurement } = measured;
  const impossible = possibleProblem(cell, measurement, unit.value, key);
  if (impossible !== undefined) return troubled(impossible, unit.value);
  const input = inputOf(cell, measurement, unit.value);
  if (!input.ok) return troubled(input.problem, unit.value);
  const warning = plausibleWarning(cell, input.value.value, measurement.unit, unit.value);
  const reading: ReadingState = {
    echoes: [...measurement.echoes, ...typedOver(own, filling)],
    readings: measurement.readings,
    typedUnit: measurement.unit,
    ...(own.trim() === '' && filling !== undefined ? { filledBy: filling.option.key } : {}),
  };
  return {
    result: Object.freeze({ status: 'value', estimate: fromInput(input.value), unit: measurement.unit }),
    reading,
    input: input.value,
    dimension: unit.value.dimension,
    problems: warning.ok ? [] : [warning.problem],
    warnings: warning.ok && warning.value !== undefined ? [warning.value] : [],
  };
}

function troubled(problem: Problem, unit: Unit | undefined): ReadState {
  const shown = unit === undefined ? {} : { unit };
  return {
    result: Object.freeze({ status: 'problem', problem, ...shown }),
    ...(unit === undefined ? {} : { dimension: unit.dimension }),
    problems: [problem],
    warnings: [],
  };
}

/** The cell's unit; where it states none, the first word of the typed text that is a unit. */
function defaultUnit(cell: GivenCell, text: string): Result<Unit> {
  if (cell.unit !== '') return parseUnit(cell.unit);
  const words = text.replace(/\d[\d.,]*(?:[eE][+-]?\d+)?/g, ' ').match(/[\p{L}°%"'][^\s±,;[\]()]*/gu) ?? [];
  for (const word of words) {
    const unit = parseUnit(word);
    if (unit.ok) return unit;
  }
  return parseUnit('1');
}

function possibleProblem(cell: GivenCell, measurement: Measurement, unit: Unit, key: string): Problem | undefined {
  const bounds = parseBounds(cell.possible ?? '> 0', unit);
  if (!bounds.ok) return { ...bounds.problem, key: 'possible' };
  const offender = measurement.readings.find((reading) => !satisfies(reading, bounds.value));
  if (offender === undefined) return undefined;
  const shown = `${Number(fromSI(offender, measurement.unit).toPrecision(6))} ${measurement.unit.name}`.replace(/ 1$/, '').replace(/^-/, '\u2212');
  return {
    code: 'not-possible',
    what: composed`${cell.label ?? cell.symbol} can't be ${shown}: it must be ${bounds.value.words}.`,
    mend: 'Look at the reading, its sign and its unit.',
    key,
  };
}

function plausibleWarning(cell: GivenCell, value: number, typed: Unit, unit: Unit): Result<Problem | undefined> {
  if (cell.plausible === undefined) return ok(undefined);
  const bounds = parseBounds(cell.plausible, unit);
  if (!bounds.ok) return fail({ ...bounds.problem, key: 'plausible' });
  if (satisfies(value, bounds.value)) return ok(undefined);
  const shown = `${Number(fromSI(value, typed).toPrecision(6))} ${typed.name}`.replace(/ 1$/, '');
  return ok({
    code: 'not-plausible',
    what: `${cell.symbol} = ${shown} is unusual: one would expect ${bounds.value.words}.`,
    mend: 'Look at the reading and its unit. It is used as it stands.',
    key: 'value',
  });
}

function typedOver(own: string, filling: Filling | undefined): readonly string[] {
  if (filling === undefined || own.trim() === '') return [];
  const choice = filling.choice.label?.toLowerCase() ?? filling.choice.id;
  return [composed`typed over the ${choice}'s ${filling.text}; yours stands`];
}

function inputOf(cell: GivenCell, measurement: Measurement, unit: Unit): Result<Input> {
  const instrument = instrumentOf(cell, unit);
  if (!instrument.ok) return instrument;
  const known = limitKnowledge(cell);
  if (!known.ok) return known;
  const correlations = new Map<string, number>();
  for (const [symbol, text] of cell.correlated ?? []) {
    const coefficient = parseNumber(text);
    if (!coefficient.ok) return fail({ ...coefficient.problem, key: 'correlated' });
    correlations.set(symbol, coefficient.value.value);
  }
  return evaluateGiven({
    id: cell.symbol,
    readings: measurement.readings,
    ...(measurement.stated === undefined ? {} : { stated: measurement.stated }),
    ...(instrument.value === undefined ? {} : { instrument: known.value === undefined ? instrument.value : { ...instrument.value, known: known.value } }),
    ...(known.value === undefined ? {} : { known: known.value }),
    ...(cell.together === undefined ? {} : { together: cell.together }),
    ...(correlations.size === 0 ? {} : { correlations }),
  });
}

function instrumentOf(cell: GivenCell, unit: Unit): Result<InstrumentClass | undefined> {
  const overridden = cell.resolution ?? cell.limit ?? cell.distribution;
  if (cell.instrument === undefined && overridden === undefined) return ok(undefined);
  const base = instrumentClass(cell.instrument ?? 'resolution only', unit);
  if (!base.ok) return fail({ ...base.problem, key: 'instrument' });
  return overrideInstrument(base.value, cell, unit);
}
