import { runningTime } from '../../core/fatigue/index.ts';
import { numberText } from '../../core/units/index.ts';
import { readRecord } from '../../graph/index.ts';
import { writeOutgoing } from '../../sheet/index.ts';
import type { RecordCell } from '../../sheet/types.ts';
import { isTouchedBySlips, slipSentence } from './slips.ts';
import type { PresentContext } from './types.ts';

/** The finished specimen as one row, text by column key; S in MPa. Undefined before the end, without cycles or stress, and while the counter is asked about. */
export function recordRow(cell: RecordCell, context: PresentContext): ReadonlyMap<string, string> | undefined {
  const { document, states } = context;
  const record = readRecord(cell);
  const { counted, started, ended, outcome, speed } = record;
  const stress = record.predicted.get('stress')?.value;
  if (record.phase !== 'ended' || started === undefined || ended === undefined || outcome === undefined || stress === undefined) return undefined;
  if (record.question !== undefined || (states.cell(cell.id)?.problems.length ?? 0) > 0) return undefined;
  const cycles = counted?.cycles ?? Math.round(((speed?.value ?? 0) * runningTime(started, ended, record.pauses)) / 1000);
  if (!(cycles > 0)) return undefined;
  const front = (key: string): string => document.frontMatter.entries.get(key)?.trim() ?? '';
  const said = (key: string): string => cell.texts.get(key)?.trim() ?? '';
  const note = [said('why'), said('broke_in') === '' ? '' : `broke in ${said('broke_in')}`, counted === undefined ? 'cycles from speed and time' : '',
    isTouchedBySlips(cell.id, context) ? (slipSentence({ document }) ?? '') : ''];
  return new Map([
    ['specimen', front('specimen')],
    ['team', front('team')],
    ['S', numberText(Number((stress / 1e6).toPrecision(6)))],
    ['N', numberText(cycles)],
    ['outcome', outcome],
    ['date', (cell.texts.get('ended') ?? '').slice(0, 10)],
    ['place', said('place')],
    ['note', note.filter((part) => part !== '').join('; ')],
  ]);
}

/** The row as delimited text with its header, as any table takes it. */
export function recordCsv(row: ReadonlyMap<string, string>): string {
  const heads = [...row.keys()].map((key) => (key === 'S' ? 'S [MPa]' : key));
  return `${writeOutgoing(heads, ',')}\n${writeOutgoing([...row.values()], ',')}\n`;
}
