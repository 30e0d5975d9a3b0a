import { brokenBy, countedCycles, lifeGivenSurvival, runningTime, type PredictedLife } from '../../core/fatigue/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import { readRecord, type RecordState } from '../../graph/index.ts';
import type { RecordCell } from '../../sheet/types.ts';
import { isHidden } from './hidden.ts';
import type { PageClock, PresentedRunning, RecordFact } from './record-types.ts';
import { cyclesText, durationText, shareText } from './record-words.ts';
import type { PresentContext } from './types.ts';

/**
 * What is true of a running test by the clock of the page. All of it follows from the stamps, so that sleep, reloading or a
 * change of summer time lose nothing; a clock that was set back is told.
 */
export function presentRunning(cell: RecordCell, context: PresentContext, { now, say }: PageClock): PresentedRunning {
  const record = readRecord(cell);
  const { started, pauses, phase, latest = now } = record;
  if (started === undefined || phase === 'ended' || record.problems.length > 0) return { facts: [], outlook: [], problems: [] };
  if (now < latest) return { facts: [], outlook: [], problems: [clockBack(say(now), say(latest))] };
  const facts: RecordFact[] = [{ name: 'Running time without pauses', text: durationText(runningTime(started, now, pauses)) }];
  const soFar = cyclesSoFar(record, started, now);
  if (soFar !== undefined) facts.push({ name: 'Cycles so far, about', text: `${cyclesText(soFar.cycles)}, ${soFar.from}` });
  return { facts, outlook: outlook(cell, record, soFar?.cycles, context, { now, say }), problems: [] };
}

interface SoFar {
  readonly cycles: number;
  readonly from: string;
}

/** From the last counter reading on where there is one, else from the start on. */
function cyclesSoFar({ counter, multiplier, digits, speed, pauses }: RecordState, started: number, now: number): SoFar | undefined {
  const last = counter.at(-1);
  if (counter.length > 1 && last !== undefined) {
    const { cycles } = countedCycles(counter.map(({ reading }) => reading), { multiplier, digits });
    const since = speed === undefined ? 0 : (speed.last * runningTime(last.at, now, pauses)) / 1000;
    return { cycles: cycles + since, from: 'from the last counter reading and the speed since' };
  }
  if (speed === undefined) return undefined;
  return { cycles: (speed.value * runningTime(started, now, pauses)) / 1000, from: 'from speed and time' };
}

function outlook(cell: RecordCell, record: RecordState, cycles: number | undefined, context: PresentContext, { now, say }: PageClock): readonly string[] {
  if (isHidden(cell.id, context)) return ['What the sheet predicts is shown after your own working.'];
  const predicted = predictedLife(record);
  if (predicted === undefined) return ['No life was predicted at the start, so the sheet can’t say when to expect a fracture.'];
  const { speed } = record;
  if (cycles === undefined || speed === undefined) return ['Note a speed, and the sheet says when a fracture is to be expected.'];
  const end = (p: number): string => say(now + ((lifeGivenSurvival(p, cycles, predicted) - cycles) / speed.last) * 1000);
  const ifPaused = record.phase === 'paused' ? 'If it went on now: ' : '';
  return [
    `${ifPaused}Given that it still runs, there is a half chance that it breaks before ${end(0.5)}; with 95 % it ends between ${end(0.025)} and ${end(0.975)}.`,
    `By now ${shareText(brokenBy(cycles, predicted))} of such specimens were expected to have broken.`,
  ];
}

/** Inputs, line and scatter from specimen to specimen together, as predicted at the start. */
function predictedLife({ predicted }: RecordState): PredictedLife | undefined {
  const logLife = predicted.get('log_life')?.value ?? Math.log10(predicted.get('life')?.value ?? 0);
  if (!Number.isFinite(logLife)) return undefined;
  return { logLife, standardDeviation: Math.hypot(predicted.get('u')?.value ?? 0, predicted.get('s')?.value ?? 0) };
}

function clockBack(now: string, latest: string): Problem {
  return {
    code: 'record-clock',
    what: `The clock of this device says ${now}, but something in the record is stamped ${latest}.`,
    mend: 'The clock was set back, or a time was typed wrongly. Look at the clock and correct the time that is wrong; nothing is lost meanwhile.',
  };
}
