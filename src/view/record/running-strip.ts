import { nothing, type TemplateResult } from 'lit-html';
import { ref } from 'lit-html/directives/ref.js';
import { leftAlone } from '../../graph/index.ts';
import { isHidden, presentGlance, runningTests } from '../../report/index.ts';
import { asKind, type RecordCell } from '../../sheet/index.ts';
import { localTime } from '../clock.ts';
import type { Desk } from '../desk.ts';
import type { Part } from '../parts.ts';
import { sayTimeShort } from '../stamps.ts';
import { html } from '../template.ts';
import { drawGlance } from './elsewhere.ts';
import { blank } from './fields.ts';
import { beginLeaving, leaving, listBefore } from './leaving.ts';
import { stampButton } from './pressed.ts';
import { comeBack, endTest, goOn, noteReading, pauseTest, setEntry } from './stamping.ts';

/** A test that runs, at the foot of the window wherever the page is scrolled to. @param draw draws the strip anew */
export function runningStrip(cell: RecordCell, desk: Desk, draw: () => void): TemplateResult {
  const { session } = desk;
  const press = (label: string, name: string, act: (cell: RecordCell, at: Date) => void): TemplateResult =>
    stampButton({ label, name, now: () => session.now(), act: (at) => {
      const now = recordNow(cell.id, desk);
      if (now !== undefined) act(now, at);
    } });
  const note = (what: 'reading' | 'note', stamp = noteHere) => (now: RecordCell, at: Date): void => {
    stamp(now, at, desk);
    desk.ui(cell.id).record.noting = { at: localTime(at), what };
    // At once and not after the results: a telephone shows its keys only for a focus that comes with the press.
    draw();
    document.querySelector<HTMLInputElement>(`.noting input.${what === 'note' ? 'note' : 'counter'}`)?.focus();
  };
  const isAlone = leftAlone(cell) !== undefined;
  const here = html`${press('Note', 'Write a note with its time', note('note'))}${press('Reading', 'Note a reading', note('reading'))}
    ${isPaused(cell) ? press('Go on', 'Go on', (now, at) => goOn(now, at, desk)) : press('Pause', 'Pause', (now, at) => pauseTest(now, at, desk))}
    ${isPaused(cell) || listBefore(cell, desk) === undefined ? nothing : html`<button type="button" class="press" @click=${() => beginLeaving(cell, desk, draw)}>Leave</button>`}
    ${press('End', 'End the test', (now, at) => end(now, at, desk))}`;
  return html`<div class=${isAlone ? 'running-test alone' : 'running-test'} role="group" aria-label="The test">
    ${isAlone ? nothing : leaving(cell, desk, draw)}${noting(cell, desk, draw)}
    <p class="presses">${isAlone ? press('I am back', 'I am back', note('reading', comeBack)) : here}</p>
    <p class="at-a-glance"><button type="button" class="press way" @click=${() => desk.go(cell.id, '')}>${isPaused(cell) ? 'A test is paused' : 'A test is running'}</button>
      <span class="clock" data-runs=${cell.id} ${ref((element) => void (element instanceof HTMLElement && drawClock(cell, desk, element)))}></span></p></div>`;
}

function noteHere(cell: RecordCell, at: Date, desk: Desk): void {
  noteReading(cell, at, undefined, desk);
}

/** Whether somebody looks at the machine, so that the screen is to stay on. */
export function isWatched(cell: RecordCell): boolean {
  return !isPaused(cell) && leftAlone(cell) === undefined;
}

function isPaused({ pauses }: RecordCell): boolean {
  return pauses.some((pause) => (pause.get('to') ?? '') === '');
}

/** Once a second, whether the record itself is drawn or not. */
export function tickStrip(strip: HTMLElement, desk: Desk): void {
  for (const cell of runningTests(desk.context().document)) {
    const place = [...strip.querySelectorAll<HTMLElement>('[data-runs]')].find((one) => one.dataset['runs'] === cell.id);
    if (place !== undefined) drawClock(cell, desk, place);
  }
}

function drawClock(cell: RecordCell, desk: Desk, place: HTMLElement): void {
  const now = desk.session.now();
  drawGlance(presentGlance(cell, isHidden(cell.id, desk.context()), { now: now.getTime(), say: (time) => sayTimeShort(time, now) }), place);
}

/** The blanks of what was just noted, beside the press that noted it. */
function noting(cell: RecordCell, desk: Desk, draw: () => void): Part {
  const open = desk.ui(cell.id).record.noting;
  const index = open === undefined ? -1 : placeOf(open.at, recordNow(cell.id, desk));
  const reading = recordNow(cell.id, desk)?.readings[index];
  if (open === undefined || reading === undefined) return nothing;
  const close = (): void => {
    desk.ui(cell.id).record.noting = undefined;
    draw();
  };
  const field = (key: string, label: string, isWords: boolean): TemplateResult => blank({
    label, mark: key, value: reading.get(key) ?? '', isNumber: !isWords, isWords, ...(key === 'speed' ? { placeholder: 'rev/min' } : {}), set: (text) => {
      const now = recordNow(cell.id, desk);
      const at = placeOf(open.at, now);
      if (now !== undefined && at >= 0) setEntry(now, ['readings', at], key, text, desk);
    },
  });
  const keys = (event: KeyboardEvent): void => {
    if (event.isComposing || (event.key !== 'Enter' && event.key !== 'Escape') || !(event.target instanceof HTMLInputElement)) return;
    event.preventDefault();
    event.stopPropagation();
    const blanks = [...event.target.closest('.noting')?.querySelectorAll('input') ?? []];
    const next = event.key === 'Enter' ? blanks[blanks.indexOf(event.target) + 1] : undefined;
    event.target.blur();
    if (next === undefined) close();
    else next.focus();
  };
  return html`<div class="noting" data-stands-for=${cell.id} data-place=${index} role="group" aria-label="Reading ${index + 1}" @keydown=${{ handleEvent: keys, capture: true }}>
    ${open.what === 'note' ? field('note', 'Note', true) : html`${field('counter', 'Counter', false)}${field('speed', 'Speed', false)}`}
    <button type="button" class="press" @click=${close}>done</button></div>`;
}

/** The last of that second: the one that was noted last. */
function placeOf(at: string, cell: RecordCell | undefined): number {
  return cell?.readings.findLastIndex((reading) => reading.get('at') === at) ?? -1;
}

function end(cell: RecordCell, at: Date, desk: Desk): void {
  // First to the record, then to its blank for the outcome.
  desk.afterUpdate(() => desk.go(cell.id, ''));
  endTest(cell, at, desk);
  desk.offerUndo(cell.id, 'The test is ended.');
}

/** As the document says it at this moment: results are still on their way to the page. */
function recordNow(cellId: string, desk: Desk): RecordCell | undefined {
  const block = desk.session.document().blocks.find(({ id }) => id === cellId);
  return block?.kind === 'cell' ? asKind(block.cell, 'record') : undefined;
}
