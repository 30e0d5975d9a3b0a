import { runningTime } from '../../core/fatigue/index.ts';
import { standardUncertainty } from '../../core/estimate/index.ts';
import { fromSI, intervalFromSI, numberText, type Unit } from '../../core/units/index.ts';
import { keptForRow, readFrozen, readRecord, restingOnExample, type RecordState } from '../../graph/index.ts';
import { cellIn, writeOutgoing } from '../../sheet/index.ts';
import type { RecordCell } from '../../sheet/types.ts';
import { asked } from './asked.ts';
import { isTouchedBySlips, slipSentence } from './slips.ts';
import type { PresentContext, WholeContext } from './types.ts';

/** What stands in a column of the row; a quantity is a plain number and has its unit in the head. */
export interface RowField {
  readonly text: string;
  readonly unit?: string;
}

/** Before the id of a choice whose option goes into the row. */
const CHOICE = 'choice ';

/** What lives are compared by, where it was noted. */
const SURROUNDINGS = ['finish', 'roughness', 'hardness', 'room_temperature', 'humidity', 'specimen_temperature'];

/** The finished specimen as one row, by column key. Undefined before the end, without cycles or stress, and while the counter is asked about. */
export function recordRow(cell: RecordCell, context: PresentContext): ReadonlyMap<string, RowField> | undefined {
  const { document, states } = context;
  const record = readRecord(cell);
  const { counted, outcome, question } = record;
  if (record.phase !== 'ended' || outcome === undefined || question !== undefined || (states.cell(cell.id)?.problems.length ?? 0) > 0) return undefined;
  const cycles = cyclesOf(record);
  const stress = valueOf(cell.row.get('S') ?? cell.watches.get('stress') ?? '', cell, context);
  if (cycles === undefined || stress === undefined) return undefined;
  const front = (key: string): RowField => ({ text: document.frontMatter.entries.get(key)?.trim() ?? '' });
  const said = (key: string): string => cell.texts.get(key)?.trim() ?? '';
  const note = [said('why'), said('broke_in') === '' ? '' : `broke in ${said('broke_in')}`, counted === undefined ? 'cycles from speed and time' : '',
    isTouchedBySlips(cell.id, context) ? (slipSentence({ document }) ?? '') : '', asked(context, restsOnExample, cell) ? 'rests on values of an invented example' : ''];
  const more = [...cell.row].filter(([key]) => key !== 'S').map(([key, name]): [string, RowField] => [key, inRow(name, cell, context)]);
  return new Map([
    ['specimen', front('specimen')],
    ['team', front('team')],
    ['machine', front('machine')],
    ['S', quantityIn(stress.value, stress.unit)],
    ['u_S', { text: figures(intervalFromSI(stress.standardUncertainty, stress.unit)), unit: stress.unit.name }],
    ['N', { text: numberText(cycles) }],
    ['outcome', { text: outcome }],
    ...more,
    ['date', { text: (cell.texts.get('ended') ?? '').slice(0, 10) }],
    ['place', { text: said('place') }],
    ...SURROUNDINGS.flatMap((key): [string, RowField][] => (said(key) === '' ? [] : [[key, { text: said(key) }]])),
    ['note', { text: note.filter((part) => part !== '').join('; ') }],
  ]);
}

/** Whether anything in the row does: the record, or what the sheet works out or has chosen for it. */
const restsOnExample = ({ document, states }: WholeContext, { id, row, watches }: RecordCell): boolean => {
  const isInvented = restingOnExample(document, states);
  const cellOf = (name: string): string | undefined => (name.startsWith(CHOICE) ? name.slice(CHOICE.length) : states.definedBy(name));
  return [id, ...[...row.values(), ...watches.values()].map(cellOf)].some((cellId) => cellId !== undefined && isInvented(cellId));
};

/** By the counter, else from speed and time. */
function cyclesOf({ counted, started, ended, speed, pauses }: RecordState): number | undefined {
  if (started === undefined || ended === undefined) return undefined;
  const cycles = counted?.cycles ?? Math.round(((speed?.value ?? 0) * runningTime(started, ended, pauses)) / 1000);
  return cycles > 0 ? cycles : undefined;
}

interface RowValue {
  readonly value: number;
  readonly standardUncertainty: number;
  readonly unit: Unit;
}

/** As it was kept at the start; what had no value then, and what is known only after the test, as it stands now. */
function valueOf(symbol: string, cell: RecordCell, { states }: PresentContext): RowValue | undefined {
  const kept = [...cell.watches.values(), ...keptForRow(cell)].includes(symbol) ? readFrozen(symbol, cell.frozen.get(symbol) ?? '') : undefined;
  if (kept?.ok === true && kept.value !== undefined) return kept.value;
  const state = states.symbol(symbol);
  return state?.status === 'value' ? { value: state.estimate.value, standardUncertainty: standardUncertainty(state.estimate), unit: state.unit } : undefined;
}

function inRow(name: string, cell: RecordCell, context: PresentContext): RowField {
  const choice = name.startsWith(CHOICE) ? name.slice(CHOICE.length) : undefined;
  if (choice === undefined) {
    const found = valueOf(name, cell, context);
    return found === undefined ? { text: '' } : quantityIn(found.value, found.unit);
  }
  const chosen = cellIn(context.document.blocks.find(({ id }) => id === choice), 'choice');
  return { text: chosen?.options.find(({ key }) => key === chosen.chosen)?.label ?? '' };
}

function quantityIn(value: number, unit: Unit): RowField {
  return { text: figures(fromSI(value, unit)), ...(unit.name === '1' ? {} : { unit: unit.name }) };
}

/** Six figures: no instrument of a class has more. */
function figures(number: number): string {
  return numberText(Number(number.toPrecision(6)));
}

/** The row as delimited text with its header, as any table takes it. */
export function recordCsv(row: ReadonlyMap<string, RowField>): string {
  const heads = [...row].map(([key, { unit }]) => (unit === undefined ? key : `${key} [${unit}]`));
  return `${writeOutgoing(heads, ',')}\n${writeOutgoing([...row.values()].map(({ text }) => text), ',')}\n`;
}
