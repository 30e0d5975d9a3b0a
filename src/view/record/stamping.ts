import { predictionNow } from '../../graph/index.ts';
import { problemSentence, type Problem } from '../../core/problem/index.ts';
import { openItems, type PresentedRecord, presentSlipsOn, restsOnTrial, wholeOf } from '../../report/index.ts';
import type { EditCommand, RecordCell } from '../../sheet/index.ts';
import { localTime } from '../clock.ts';
import type { Desk } from '../desk.ts';
import { sayQuestion } from './fields.ts';

type EntryList = 'readings' | 'pauses';
export type Entry = ReadonlyMap<string, string>;

/** The presses of a record: each stamps the time and is one step to undo. */

export function startTest(cell: RecordCell, at: Date, desk: Desk): void {
  const { document, states } = wholeOf(desk.context());
  const hindrance = presentSlipsOn({ document }).length > 0 ? slipsOnProblem() : restsOnTrial(cell.id, desk.context()) ? trialsProblem() : undefined;
  if (hindrance !== undefined) {
    desk.changeUi(cell.id, (ui) => void (ui.refused = hindrance));
    desk.announce(problemSentence(hindrance));
    return;
  }
  const { open, all } = openItems(document, cell.id);
  const texts = new Map([['started', localTime(at)], ['open_at_start', `${open} of ${all}`]]);
  const done = apply([
    { do: 'set keys', cellId: cell.id, values: texts },
    { do: 'set entries', cellId: cell.id, key: 'frozen', entries: predictionNow(cell, document, states) },
  ], cell, desk);
  if (!done) return;
  const advice = open === 0 ? '' : ` ${open} of ${all} checklist items are open.`;
  desk.announce(`The test is started; what is predicted is kept as it is now.${advice}`);
}

/** What a slip predicts is no prediction, and would be kept for good. */
function slipsOnProblem(): Problem {
  return {
    code: 'record-slips-on',
    what: 'A slip is switched on, so what would be kept as the prediction is wrong on purpose.',
    mend: 'Switch the slips off at the top of the sheet, then start the test.',
  };
}

/** A prediction for what was not measured would be kept for good. */
function trialsProblem(): Problem {
  return {
    code: 'record-trial-values',
    what: 'A trial value stands in place of what was measured, so what would be kept as the prediction is not of this specimen.',
    mend: 'Put back what was measured at the top of the sheet, then start the test.',
  };
}

/** Corrects the time of the start; without one the test has not begun, and nothing is kept of the prediction. */
export function setStart(cell: RecordCell, started: string | undefined, desk: Desk): void {
  const commands: EditCommand[] = started === undefined
    ? [
        { do: 'set keys', cellId: cell.id, values: new Map([['started', undefined], ['open_at_start', undefined]]) },
        { do: 'set entries', cellId: cell.id, key: 'frozen', entries: new Map() },
      ]
    : [{ do: 'set key', cellId: cell.id, key: 'started', value: started }];
  apply(commands, cell, desk);
}

/** @param field blank of the new entry that the cursor comes to; none where the strip has a blank of its own */
export function noteReading(cell: RecordCell, at: Date, field: 'counter' | undefined, desk: Desk): void {
  if (field !== undefined) focusAfter(cell, `.reading:last-of-type input.${field}`, desk);
  apply([setList(cell, 'readings', [...cell.readings, new Map([['at', localTime(at)]])])], cell, desk);
}

/** @param open items of the list that are open: `2 of 6` */
export function leaveAlone(cell: RecordCell, at: Date, open: string, desk: Desk): void {
  if (!apply([setList(cell, 'readings', [...cell.readings, new Map([['at', localTime(at)], ['left', open]])])], cell, desk)) return;
  desk.announce('It is written down that the test runs alone from now on.');
}

/** Somebody is with the machine again, and reads the counter. */
export function comeBack(cell: RecordCell, at: Date, desk: Desk): void {
  apply([setList(cell, 'readings', [...cell.readings, new Map([['at', localTime(at)], ['back', 'yes']])])], cell, desk);
}

/** A note with its time that the page has words for. */
export function writeNote(cell: RecordCell, at: Date, words: string, desk: Desk): void {
  apply([setList(cell, 'readings', [...cell.readings, new Map([['at', localTime(at)], ['note', words]])])], cell, desk);
}

export function pauseTest(cell: RecordCell, at: Date, desk: Desk): void {
  apply([setList(cell, 'pauses', [...cell.pauses, new Map([['from', localTime(at)]])])], cell, desk);
}

export function goOn(cell: RecordCell, at: Date, desk: Desk): void {
  const now = localTime(at);
  apply([setList(cell, 'pauses', cell.pauses.map((pause) => ((pause.get('to') ?? '') === '' ? new Map([...pause, ['to', now]]) : pause)))], cell, desk);
}

export function endTest(cell: RecordCell, at: Date, desk: Desk): void {
  focusAfter(cell, '.ending select', desk);
  apply([{ do: 'set key', cellId: cell.id, key: 'ended', value: localTime(at) }], cell, desk);
}

/** The end as the counter tells it, of a test that was found standing; when it was found stays written down. */
export function setEndByCounter(cell: RecordCell, since: Date, desk: Desk): void {
  const found = cell.texts.get('ended') ?? '';
  apply([
    { do: 'set key', cellId: cell.id, key: 'ended', value: localTime(since) },
    setList(cell, 'readings', [...cell.readings, new Map([['at', found], ['note', 'Found standing; its end is reckoned from counter and speed.']])]),
  ], cell, desk);
}

/** One key of a noted reading or pause; an entry of which nothing is left goes. */
export function setEntry(cell: RecordCell, [list, index]: readonly [EntryList, number], key: string, text: string, desk: Desk): void {
  const entries = cell[list].map((entry, i) => (i === index ? new Map([...entry, [key, text.trim()]]) : entry));
  if (key === 'counter') sayQuestion(cell, desk);
  apply([setList(cell, list, entries)], cell, desk);
}

/** The roll-over that is asked about did happen: it is written down beside the reading. */
export function confirmRollOver(cell: RecordCell, { place, confirmation }: NonNullable<PresentedRecord['question']>, desk: Desk): void {
  const isAtEnd = place === 'end';
  // The button goes, and the cursor stays at the reading.
  focusAfter(cell, isAtEnd ? '.field-counter_end' : `.reading[data-reading="${place}"] input.counter`, desk);
  apply([isAtEnd
    ? { do: 'set key', cellId: cell.id, key: 'counter_end_rolled_over', value: confirmation }
    : setList(cell, 'readings', cell.readings.map((entry, i) => (i === place ? new Map([...entry, ['rolled_over', confirmation]]) : entry)))], cell, desk);
}

export function removeEntry(cell: RecordCell, list: EntryList, index: number, desk: Desk): void {
  if (!apply([setList(cell, list, cell[list].filter((_, i) => i !== index))], cell, desk)) return;
  desk.offerUndo(cell.id, `${list === 'readings' ? 'Reading' : 'Pause'} ${index + 1} is deleted.`);
}

function setList(cell: RecordCell, key: EntryList, entries: readonly Entry[]): EditCommand {
  return { do: 'set entries', cellId: cell.id, key, entries };
}

function apply(commands: readonly EditCommand[], cell: RecordCell, desk: Desk): boolean {
  desk.settle();
  const done = desk.apply({ do: 'together', commands }, cell.id);
  desk.settle();
  return done;
}

function focusAfter(cell: RecordCell, selector: string, desk: Desk): void {
  desk.afterUpdate(() => desk.element(cell.id)?.querySelector<HTMLElement>(selector)?.focus());
}
