import { composed, type Problem } from '../../core/problem/index.ts';
import { fromSI, intervalFromSI, parseUnit } from '../../core/units/index.ts';
import type { Unit } from '../../core/units/types.ts';
import { asRead } from '../../graph/index.ts';
import type { CellState } from '../../graph/types.ts';
import { cellsOf, isTakenOver } from '../../sheet/index.ts';
import type { GivenCell } from '../../sheet/types.ts';
import { asked, sameWords } from './asked.ts';
import { presentCheck } from './cells.ts';
import { notesOf } from './notes.ts';
import { decimalText, withUnit, unitText } from './number.ts';
import { presentResult } from './result.ts';
import { presentSlipMark } from './slips.ts';
import { chosenOption } from './step.ts';
import { symbolOf } from './symbol.ts';
import { presentTrial } from './trials.ts';
import type { PresentContext, WholeContext, PresentedGiven, PresentedResult } from './types.ts';

export function presentGiven(given: GivenCell, context: PresentContext): PresentedGiven {
  const state = context.states.cell(given.id);
  const unit = state?.reading?.typedUnit ?? statedUnit(given);
  const result = resultOf(given, state, context);
  const mark = presentSlipMark(given, context);
  const blanks = blanksOf(given, state, result);
  const filledBy = state === undefined ? undefined : asked(context, fillerLabel, state);
  const trial = presentTrial(given, context);
  const mean = blanks.length > 1 && result.kind === 'value' ? withUnit(result.number, result.unit) : undefined;
  const notes = notesOf(given, context);
  return {
    ...notes,
    warnings: [...notes.warnings, ...failedChecks(given, context)],
    symbol: given.symbol,
    symbolTex: symbolOf(given.symbol),
    blanks,
    unit: unit === undefined ? given.unit : unitText(unit),
    ...(mean === undefined ? {} : { mean }),
    ...rangeOf(given, state),
    result,
    ...(given.instrument === undefined ? {} : { instrument: given.instrument }),
    echoes: state?.reading?.echoes ?? [],
    ...(filledBy === undefined ? {} : { filledBy }),
    ...(given.taken === undefined ? {} : { takenFrom: takenWords(given, given.taken) }),
    ...(trial === undefined ? {} : { trial }),
    ...(mark === undefined || state?.result === undefined ? {} : { slipMark: { ...mark, used: presentResult(state.result, context.system, { ownUnit: true }) } }),
  };
}

/** What checks that concern the given say where they do not hold. */
function failedChecks(given: GivenCell, context: PresentContext): readonly Problem[] {
  return asked(context, failedMessages, given.symbol, sameWords).map((message) => {
    const [what = '', ...rest] = message.split(/(?<=\.) /u);
    return { code: 'check-fails-here', what, mend: rest.length === 0 ? 'Look at it again.' : rest.join(' '), cell: given.id };
  });
}

function failedMessages(whole: WholeContext, symbol: string): readonly string[] {
  return cellsOf(whole.document, 'check').filter(({ concerns }) => concerns?.includes(symbol)).map((check) => presentCheck(check, whole))
    .flatMap(({ holds, message }) => (holds === false && message !== '' ? [message] : []));
}

/** Where a value was taken from; what is typed over it since is the reader's own. */
function takenWords(given: GivenCell, taken: ReadonlyMap<string, string>): string {
  const [from, specimen, on] = ['from', 'specimen', 'on'].map((key) => taken.get(key) ?? '');
  const where = composed`“${from ?? ''}”${specimen === '' ? '' : composed`, ${specimen ?? ''}`}, on ${on ?? ''}`;
  return isTakenOver(given) ? composed`taken from ${where}` : composed`typed over what was taken from ${where}`;
}

function rangeOf({ rangeLabel }: GivenCell, state: CellState | undefined): Pick<PresentedGiven, 'range'> {
  const reading = state?.reading;
  if (rangeLabel === undefined || reading === undefined || reading.readings.length < 2) return {};
  const range = Math.max(...reading.readings) - Math.min(...reading.readings);
  const number = decimalText(String(Number(intervalFromSI(range, reading.typedUnit).toPrecision(6))), 0);
  return { range: `${rangeLabel} ${withUnit(number, unitText(reading.typedUnit))}` };
}

function statedUnit(given: GivenCell): Unit | undefined {
  const parsed = parseUnit(given.unit);
  return parsed.ok ? parsed.value : undefined;
}

function resultOf(given: GivenCell, state: CellState | undefined, context: PresentContext): PresentedResult {
  const read = state?.reading?.aside ?? state?.results?.get(asRead(given.symbol)) ?? state?.result;
  if (read !== undefined) return presentResult(read, context.system, { ownUnit: true });
  const problem = state?.problems[0] ?? given.problems[0] ?? {
    code: 'given-open', what: 'Nothing has been entered here yet.', mend: 'Type it into its blank.', cell: given.id,
  };
  return { kind: 'problem', problem };
}

/** What stands in the blanks: the text as typed, readings one by one; a filled value as the sheet writes it. */
function blanksOf(given: GivenCell, state: CellState | undefined, result: PresentedResult): readonly string[] {
  const typed = (given.readings ?? given.value ?? '').trim();
  if (typed === '') {
    return state?.reading?.filledBy !== undefined && result.kind === 'value' ? [withUnit(result.number, result.unit)] : [];
  }
  const reading = state?.reading;
  if (reading === undefined || reading.readings.length < 2) return [typed];
  const unit = unitText(reading.typedUnit);
  const asTyped = splitReadings(typed);
  const numbers = asTyped.length === reading.readings.length
    ? asTyped
    : reading.readings.map((value) => decimalText(String(Number(fromSI(value, reading.typedUnit).toPrecision(12))), 0));
  return numbers.map((number) => withUnit(number, unit));
}

/** The numbers of `101.2, 101.4 mm` as typed; cut at `;` where there is one, since the comma is decimal then. */
function splitReadings(typed: string): readonly string[] {
  const bare = typed.replace(/^\[|\]/g, '');
  return bare
    .split(bare.includes(';') ? ';' : ',')
    .map((part) => /^\s*([+\-−]?[\d.,/\s]*\d(?:[eE][+-]?\d+)?)/.exec(part)?.[1]?.trim() ?? '')
    .filter((part) => part !== '');
}

function fillerLabel({ document }: WholeContext, state: CellState): string | undefined {
  const key = state.reading?.filledBy;
  if (key === undefined || state.symbol === undefined) return undefined;
  const { symbol } = state;
  const record = cellsOf(document, 'record').find(({ id, fills }) => id === key && [...fills.values()].includes(symbol));
  if (record !== undefined) return record.label ?? 'the test record';
  const options = cellsOf(document, 'choice').filter(({ chosen }) => chosen === key).flatMap((choice) => chosenOption(choice) ?? []);
  return options.find(({ sets }) => sets.has(symbol))?.label;
}
