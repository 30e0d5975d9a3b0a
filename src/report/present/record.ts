import { compareCounts, runningTime } from '../../core/fatigue/index.ts';
import { composed, problemSentence } from '../../core/problem/index.ts';
import { changedSince, readRecord, rollOverText, type ChangedInput, type RecordState } from '../../graph/index.ts';
import { cellsOf, RECORD_TEXTS } from '../../sheet/index.ts';
import type { RecordCell } from '../../sheet/types.ts';
import { wholeOf } from './asked.ts';
import { isHidden, isSymbolHidden } from './hidden.ts';
import { calledIn, definingCell } from './lookup.ts';
import { notesOf } from './notes.ts';
import { openItems } from './open-items.ts';
import { presentSymbol } from './result.ts';
import type { PresentedRecord, RecordFact } from './record-types.ts';
import {
  cyclesText, durationText, pauseText, readingText, RECORD_LABELS, standingText, stampText, SUSPICIONS,
} from './record-words.ts';
import type { PresentContext } from './types.ts';

/** A test record as page and report show it; what changes with the clock is `presentRunning`. */
export function presentRecord(cell: RecordCell, context: PresentContext): PresentedRecord {
  const record = readRecord(cell);
  const counts = record.phase === 'ended' ? countsOf(record) : { facts: [] };
  const hidden = isHidden(cell.id, context);
  // What has changed since the start is asked of the whole sheet.
  const whole = wholeOf(context);
  return {
    ...notesOf(cell, context),
    phase: record.phase,
    standing: standingText(cell, record.phase),
    advice: record.phase === 'not started' ? adviceBefore(cell, context) : '',
    facts: RECORD_TEXTS.flatMap((key): RecordFact[] => {
      const [name, text] = [RECORD_LABELS[key], cell.texts.get(key)];
      return name === undefined || text === undefined ? [] : [{ name, text: key === 'started' || key === 'ended' ? stampText(text) : text }];
    }),
    readings: cell.readings.map(readingText),
    pauses: cell.pauses.map(pauseText),
    predicted: hidden || cell.frozen.size === 0 ? [] : predictedFacts(cell, context),
    counts: counts.facts,
    ...(counts.verdict === undefined ? {} : { verdict: counts.verdict }),
    ...questionOf(record),
    changed: changedSince(cell, whole.document, whole.states)
      .filter(({ name }) => !isSymbolHidden(name, context))
      .map((change) => changedText(change, context)),
  };
}

function questionOf({ question, warnings }: RecordState): Pick<PresentedRecord, 'question'> {
  if (question === undefined) return {};
  const { place, before, reading, times } = question;
  const sentence = warnings.find(({ code }) => code === 'record-counter-lower' || code === 'record-counter-behind');
  return { question: { place, sentence: sentence === undefined ? '' : problemSentence(sentence), times: times ?? 1, confirmation: rollOverText(before, reading, times) } };
}

/** What is still open before the start: lists below the record are for later. It is said, and nothing is asked. */
function adviceBefore({ id, texts }: RecordCell, { document }: PresentContext): string {
  const { open, all } = openItems(document, id);
  const said = [
    open > 0 ? `${open} of ${all} checklist items are open.` : '',
    texts.has('counter_start') ? '' : 'The counter at the start is not written down yet.',
    texts.has('criterion') ? '' : 'What counts as failure is not said yet.',
  ].filter((sentence) => sentence !== '');
  return said.length === 0 ? '' : `${said.join(' ')} The sheet only advises: it can’t see the machine.`;
}

function predictedFacts(cell: RecordCell, context: PresentContext): readonly RecordFact[] {
  return [...cell.watches].flatMap(([role, symbol]): RecordFact[] => {
    const published = cell.symbols.get(role);
    const result = published === undefined ? undefined : presentSymbol(published, context);
    if (published === undefined || result?.kind !== 'value') return [];
    return [{ name: `${calledIn(context, symbol)}, ${published}`, text: result.text }];
  });
}

/** Cycles by both ways, and whether they agree. */
function countsOf(record: RecordState): { readonly facts: readonly RecordFact[]; readonly verdict?: PresentedRecord['verdict'] } {
  const { started, ended, pauses, counted, speed, counter, loadingCycles, multiplier, digits } = record;
  if (started === undefined || ended === undefined) return { facts: [] };
  const running = runningTime(started, ended, pauses);
  const facts: RecordFact[] = [{ name: 'Running time without pauses', text: durationText(running) }];
  if (counted !== undefined) {
    const rolled = counted.rollOvers === 0 ? '' : `, ${counted.rollOvers === 1 ? 'one roll-over' : `${counted.rollOvers} roll-overs`} counted in`;
    facts.push({ name: 'Cycles by the counter', text: `${cyclesText(counted.cycles)} ± ${figuresOf(counted.standardUncertainty)}${rolled}` });
  }
  const expected = speed === undefined ? undefined : (speed.value * running) / 1000;
  const spread = speed === undefined ? 0 : Math.hypot((speed.standardUncertainty * running) / 1000, speed.value / Math.sqrt(6));
  if (expected !== undefined) {
    const from = speed?.noted === 0 ? 'the speed typed before the start' : speed?.noted === 1 ? 'one noted speed' : `${speed?.noted} noted speeds`;
    facts.push({ name: 'Cycles by speed times running time', text: `${cyclesText(expected)} ± ${figuresOf(spread)}, from ${from}` });
  }
  if (loadingCycles !== undefined && counted !== undefined) {
    facts.push({ name: 'Of these, at the full load', text: cyclesText(Math.max(0, counted.cycles - loadingCycles)) });
  }
  const [first, last] = [counter[0], counter.at(-1)];
  if (counted === undefined || expected === undefined || first === undefined || last === undefined) return { facts };
  const { agree, ratio, suspicions } = compareCounts({
    counted, multiplier, digits, firstReading: first.reading, lastReading: last.reading,
    expected, expectedUncertainty: spread, hours: running / 3_600_000,
  });
  const sentence = agree
    ? 'Counter and clock agree within their uncertainty.'
    : `Counter and clock differ: the counter has ${ratio.toPrecision(3)} times what speed and time give. ${suspicions.map((word) => SUSPICIONS[word]).join(' ')}`.trim();
  return { facts, verdict: { agree, sentence } };
}

function figuresOf(uncertainty: number): string {
  return uncertainty >= 100 ? String(Math.round(uncertainty)) : uncertainty.toPrecision(2);
}

function changedText({ name, atStart, now }: ChangedInput, context: PresentContext): string {
  const [, choice] = /^choice (.+)$/.exec(name) ?? [];
  if (choice !== undefined) {
    const cell = cellsOf(context.document, 'choice').find(({ id }) => id === choice);
    const label = (key: string): string => cell?.options.find((option) => option.key === key)?.label ?? key;
    return composed`${cell?.label ?? choice}: ${label(atStart)} at the start, ${now === '' ? 'no longer there' : composed`${label(now)} now`}.`;
  }
  const label = definingCell(name, context)?.cell.label;
  return composed`${label === undefined ? name : composed`${label} (${name})`}: ${shortened(atStart)} at the start, ${now === '' ? 'no longer there' : composed`${shortened(now)} now`}.`;
}

/** Six figures tell a reader all; the text keeps every one. */
function shortened(text: string): string {
  return text.replace(/-?\d+\.\d{4,}(?:e-?\d+)?|-?\d{7,}(?:\.\d+)?/g, (number) => String(Number(Number(number).toPrecision(6))));
}
