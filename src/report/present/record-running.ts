import { brokenBy, lifeGivenSurvival, runningTime, stillBreaks, type PredictedLife } from '../../core/fatigue/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import { countedSoFar, leftAlone, readRecord, type RecordState } from '../../graph/index.ts';
import type { RecordCell } from '../../sheet/types.ts';
import { isHidden } from './hidden.ts';
import type { PageClock, PresentedGlance, PresentedRunning, RecordFact } from './record-types.ts';
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

/** The same in a few words, as they stay in view at the foot of the window: `12 min 05 s`; both counts; `even chance of fracture by 15:40`. */
export function presentGlance(cell: RecordCell, isWithheld: boolean, { now, say }: PageClock): PresentedGlance {
  const record = readRecord(cell);
  const { started, pauses, phase, latest = now, counter, speed, question } = record;
  if (started === undefined || (phase !== 'running' && phase !== 'paused')) return { phase: 'over', facts: [] };
  if (record.problems.length > 0) return { phase, facts: [], trouble: 'Something in the record can’t be read.' };
  if (now < latest) return { phase, facts: [], trouble: `The clock says ${say(now)}, but a stamp says ${say(latest)}.` };
  const running = runningTime(started, now, pauses);
  const alone = leftAlone(cell);
  // Seconds are for who stands beside it.
  const facts = [alone === undefined || running < 3_600_000 ? durationText(running) : durationText(running).replace(/ \d+ s$/u, '')];
  if (alone !== undefined) facts.push(alone.since === undefined ? 'left alone' : `alone since ${say(alone.since)}`);
  const last = counter.at(-1);
  const end = isWithheld ? undefined : expectedEnd(record, cyclesSoFar(record, started, now)?.cycles, { now, say });
  const counted = countedSoFar(record);
  const [bySpeed, byCounter] = [
    speed === undefined ? [] : [`${cyclesText((speed.value * running) / 1000)} by speed`],
    counted === undefined || last === undefined ? [] : [`${cyclesText(counted.cycles)} ${alone === undefined ? 'by counter ' : ''}at ${say(last.at)}`],
  ];
  // Who is away and looks in wants it short: the end, or else one count. All of it stands in the record.
  facts.push(...(alone === undefined ? [...bySpeed, ...byCounter] : end === undefined ? [...byCounter, ...bySpeed].slice(0, 1) : []));
  if (end !== undefined) facts.push(`${end}${phase === 'paused' ? ' if it went on now' : ''}`);
  return { phase, facts, ...(question === undefined ? {} : { trouble: 'A counter reading is asked about.' }) };
}

/** Undefined where no end can be said: a test that outlives nearly all that break goes on to its runout. */
function expectedEnd(record: RecordState, cycles: number | undefined, { now, say }: PageClock): string | undefined {
  const { speed } = record;
  const predicted = predictedLife(record);
  if (predicted === undefined || cycles === undefined || speed === undefined) return undefined;
  const still = stillBreaks(cycles, predicted);
  if (still < HARDLY_ANY) return 'likely to run out';
  const by = say(now + ((lifeGivenSurvival(0.5, cycles, predicted) - cycles) / speed.last) * 1000);
  return still >= NEARLY_ALL ? `even chance of fracture by ${by}` : `if it breaks (${shareText(still)}), even chance by ${by}`;
}

interface SoFar {
  readonly cycles: number;
  readonly from: string;
}

/** From the last counter reading on where there is one, else from the start on. */
function cyclesSoFar(record: RecordState, started: number, now: number): SoFar | undefined {
  const { counter, speed, pauses } = record;
  const [counted, last] = [countedSoFar(record), counter.at(-1)];
  if (counted !== undefined && last !== undefined) {
    const since = speed === undefined ? 0 : (speed.last * runningTime(last.at, now, pauses)) / 1000;
    return { cycles: counted.cycles + since, from: 'from the last counter reading and the speed since' };
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
  const broken = `By now ${shareText(brokenBy(cycles, predicted))} of such specimens were expected to have broken.`;
  const { breaks = 1 } = predicted;
  if (breaks >= NEARLY_ALL) {
    return [`${ifPaused}Given that it still runs, there is a half chance that it breaks before ${end(0.5)}; with 95 % it ends between ${end(0.025)} and ${end(0.975)}.`, broken];
  }
  const still = stillBreaks(cycles, predicted);
  const when = still > 0 ? `; if it does, there is a half chance that it breaks before ${end(0.5)}, and one of 95 % between ${end(0.025)} and ${end(0.975)}` : '';
  return [
    `Of such specimens ${shareText(breaks)} were expected to break at all; the others run out.`,
    `${ifPaused}Given that it still runs, the chance that it breaks is ${shareText(still)}${when}.`,
    broken,
  ];
}

/** With fewer than that to break, a runout lies within what is to be expected with 95 %. */
const NEARLY_ALL = 0.975;

/** With a smaller chance of breaking, no time is said for it. */
const HARDLY_ANY = 0.01;

/** Inputs, line and scatter from specimen to specimen together, as predicted at the start. */
function predictedLife({ predicted }: RecordState): PredictedLife | undefined {
  const logLife = predicted.get('log_life')?.value ?? Math.log10(predicted.get('life')?.value ?? 0);
  if (!Number.isFinite(logLife)) return undefined;
  const breaks = predicted.get('breaks')?.value;
  return { logLife, standardDeviation: Math.hypot(predicted.get('u')?.value ?? 0, predicted.get('s')?.value ?? 0), ...(breaks === undefined ? {} : { breaks }) };
}

function clockBack(now: string, latest: string): Problem {
  return {
    code: 'record-clock',
    what: `The clock of this device says ${now}, but something in the record is stamped ${latest}.`,
    mend: 'The clock was set back, or a time was typed wrongly. Look at the clock and correct the time that is wrong; nothing is lost meanwhile.',
  };
}
