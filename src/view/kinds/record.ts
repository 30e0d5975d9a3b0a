import { nothing, type TemplateResult } from 'lit-html';
import { OUTCOMES, readRecord, stoodStillSince } from '../../graph/index.ts';
import { aloneText, recordTemplate, type PresentedRecord } from '../../report/index.ts';
import type { RecordCell } from '../../sheet/index.ts';
import { budgetLines } from '../cells/budget.ts';
import type { Desk } from '../desk.ts';
import { symbolsOfState } from '../lighting.ts';
import { hand, partId, templateParts, type LineParts, type Part } from '../parts.ts';
import { blank, choiceField, setText, textField, timeBlank, type BlankForm } from '../record/fields.ts';
import { stampButton } from '../record/pressed.ts';
import { runningClock } from '../record/running-clock.ts';
import { sendRow } from '../record/send-row.ts';
import { confirmRollOver, endTest, goOn, noteReading, pauseTest, removeEntry, setEndByCounter, setEntry, setStart, startTest } from '../record/stamping.ts';
import { sayTimeShort } from '../stamps.ts';
import { html } from '../template.ts';

const SURROUNDINGS = ['finish', 'roughness', 'hardness', 'room_temperature', 'humidity', 'temperature_limit', 'run_in'];
const CRITERIA = ['separation', 'load drop', 'crack'];
const A_MINUTE = 60_000;
const PLACES = ['test section', 'fillet', 'grip', 'collet edge'];

/** The form of a test: one press stamps the time, and every stamp can be corrected. */
export function recordParts(cell: RecordCell, desk: Desk): LineParts {
  const { phase } = readRecord(cell);
  const template = recordTemplate(cell, desk.context(), {
    course: (record) => hand(html`${phase === 'running' || phase === 'paused' ? runningClock(cell, desk) : nothing}
      ${phase === 'not started' ? nothing : presses(cell, phase, desk)}
      ${phase === 'ended' ? ending(cell, record, desk) : nothing}`),
    send: phase === 'ended' ? hand(sendRow(cell, desk)) : undefined,
    entries: (record) => hand(html`${readings(cell, record, desk)}${pauses(cell, desk)}`),
    setUp: ({ advice }) => hand(html`${budgetLines(cell.id, symbolsOfState(desk.context().states.cell(cell.id)), desk)}
      ${setUp(cell, phase, desk)}
      ${phase === 'not started' ? start(cell, advice, desk) : nothing}`),
  });
  return templateParts(cell.id, template, desk.ui(cell.id).refused);
}

function start(cell: RecordCell, advice: string, desk: Desk): TemplateResult {
  // Below the button: leaving a blank may take the advice away, and the button may not move under the finger that presses it.
  const adviceId = partId(cell.id, 'advice');
  return html`<p class="presses">${stampButton({
    label: 'Start the test', ...(advice === '' ? {} : { describedBy: adviceId }), now: desk.session.now, act: (at) => startTest(cell, at, desk),
  })}</p>
    ${advice === '' ? nothing : html`<p class="missing" id=${adviceId}>${advice}</p>`}`;
}

function presses(cell: RecordCell, phase: 'running' | 'paused' | 'ended', desk: Desk): Part {
  if (phase === 'ended') return nothing;
  const { now } = desk.session;
  return html`<p class="presses">
    ${stampButton({ label: 'Note a reading', now, act: (at) => noteReading(cell, at, 'counter', desk) })}
    ${phase === 'running'
      ? stampButton({ label: 'Pause', now, act: (at) => pauseTest(cell, at, desk) })
      : stampButton({ label: 'Go on', now, act: (at) => goOn(cell, at, desk) })}
    ${stampButton({ label: 'Ended', now, act: (at) => endTest(cell, at, desk) })}</p>`;
}

function ending(cell: RecordCell, { question }: PresentedRecord, desk: Desk): TemplateResult {
  const outcome = cell.texts.get('outcome') ?? '';
  return html`<div class="ending">
    ${timeBlank('Ended', cell.texts.get('ended') ?? '', (stamp) => setText(cell, 'ended', stamp ?? '', desk))}
    ${outcome === '' ? outcomePresses(cell, desk) : nothing}
    ${choiceField(cell, 'outcome', OUTCOMES, desk)}
    ${outcome === 'suspended' || outcome === 'invalid' || cell.texts.has('why') ? textField(cell, 'why', desk, { isWords: true }) : nothing}
    ${textField(cell, 'counter_end', desk, { isNumber: true })}
    ${question?.place === 'end' ? counterQuestion(question, cell, desk) : nothing}
    ${foundStanding(cell, desk)}
    ${textField(cell, 'loading_cycles', desk, { isNumber: true })}
    ${textField(cell, 'specimen_temperature', desk, { placeholder: '°C' })}
    ${outcome === 'fracture' || outcome === 'invalid'
      ? html`${textField(cell, 'place', desk, { placeholder: 'mm' })}${choiceField(cell, 'broke_in', PLACES, desk)}` : nothing}</div>`;
}

/** How the test ended, by one press, which leads on to the counter. */
function outcomePresses(cell: RecordCell, desk: Desk): TemplateResult {
  const say = (outcome: string): void => {
    desk.afterUpdate(() => desk.element(cell.id)?.querySelector<HTMLInputElement>('input.field-counter_end')?.focus());
    setText(cell, 'outcome', outcome, desk);
  };
  return html`<p class="presses" role="group" aria-label="How the test ended">${OUTCOMES.map((outcome) => html`<button type="button" class="press" @click=${() => say(outcome)}>${outcome}</button>`)}</p>`;
}

/** Of a machine that was left alone: when it came to stand, and a press that makes that the end. */
function foundStanding(cell: RecordCell, desk: Desk): Part {
  const since = stoodStillSince(cell);
  const ended = readRecord(cell).ended ?? Number.NaN;
  if (since === undefined || !(ended - since > A_MINUTE)) return nothing;
  const time = sayTimeShort(since, desk.session.now());
  return html`<div class="asked" role="group" aria-label="About the end"><p>It was left running alone, and by counter and speed it stands still since about ${time}.</p>
    <p class="presses"><button type="button" class="press" @click=${() => setEndByCounter(cell, new Date(since), desk)}>It ended at ${time}</button></p></div>`;
}

function readings(cell: RecordCell, { question }: PresentedRecord, desk: Desk): Part {
  if (cell.readings.length === 0) return nothing;
  return html`<p class="part">Readings</p>${cell.readings.map((reading, i) => {
    const field = (key: string, label: string, more: Partial<BlankForm>): TemplateResult => blank({
      ...more, label, mark: key, value: reading.get(key) ?? '', set: (text) => setEntry(cell, ['readings', i], key, text, desk),
    });
    return html`<fieldset class="reading" data-reading=${i}><legend>Reading ${i + 1}</legend>
      ${aloneText(reading) === '' ? nothing : html`<p class="note">${aloneText(reading)}</p>`}
      ${timeBlank('Noted at', reading.get('at') ?? '', (stamp) => setEntry(cell, ['readings', i], 'at', stamp ?? '', desk))}
      ${field('counter', 'Counter', { isNumber: true })}
      ${question?.place === i ? counterQuestion(question, cell, desk) : nothing}
      ${field('speed', 'Speed', { placeholder: 'rev/min' })}${field('note', 'Note', { isWords: true })}
      <button type="button" class="quiet" @click=${() => removeEntry(cell, 'readings', i, desk)}>delete reading ${i + 1}</button></fieldset>`;
  })}`;
}

/** Right below the reading that it asks about. */
function counterQuestion(question: NonNullable<PresentedRecord['question']>, cell: RecordCell, desk: Desk): TemplateResult {
  return html`<div class="asked" role="group" aria-label="About the counter"><p>${question.sentence}</p>
    <p class="presses"><button type="button" class="press" @click=${() => confirmRollOver(cell, question, desk)}>It went past its last number${question.times === 1 ? '' : ` ${question.times} times`}</button></p></div>`;
}

function pauses(cell: RecordCell, desk: Desk): Part {
  if (cell.pauses.length === 0) return nothing;
  return html`<p class="part">Pauses</p>${cell.pauses.map((pause, i) => html`<fieldset class="pause"><legend>Pause ${i + 1}</legend>
    ${timeBlank('From', pause.get('from') ?? '', (stamp) => setEntry(cell, ['pauses', i], 'from', stamp ?? '', desk))}
    ${timeBlank('To', pause.get('to') ?? '', (stamp) => setEntry(cell, ['pauses', i], 'to', stamp ?? '', desk))}
    ${blank({ label: 'Why', isWords: true, value: pause.get('why') ?? '', set: (text) => setEntry(cell, ['pauses', i], 'why', text, desk) })}
    <button type="button" class="quiet" @click=${() => removeEntry(cell, 'pauses', i, desk)}>delete pause ${i + 1}</button></fieldset>`)}`;
}

function setUp(cell: RecordCell, phase: string, desk: Desk): TemplateResult {
  const criterion = cell.texts.get('criterion') ?? '';
  return html`${phase === 'not started' ? nothing : html`<p class="part">Noted at the start</p>
      ${timeBlank('Started', cell.texts.get('started') ?? '', (stamp) => setStart(cell, stamp, desk))}
      ${openAtStart(cell)}`}
    ${textField(cell, 'counter_start', desk, { isNumber: true })}
    ${textField(cell, 'counter_multiplier', desk, { isNumber: true, placeholder: '1' })}
    ${textField(cell, 'counter_digits', desk, { isNumber: true, placeholder: '6' })}
    ${choiceField(cell, 'criterion', CRITERIA, desk)}
    ${criterion === 'crack' || cell.texts.has('crack_length') ? textField(cell, 'crack_length', desk, { placeholder: 'mm' }) : nothing}
    ${textField(cell, 'load_verified', desk, { type: 'date' })}
    ${surroundings(cell, desk)}`;
}

/** What lives are compared by, and nobody needs at the start. */
function surroundings(cell: RecordCell, desk: Desk): TemplateResult {
  const isFilled = SURROUNDINGS.some((key) => (cell.texts.get(key) ?? '') !== '');
  return html`<details class="keys more" ?open=${isFilled}><summary>Surface, hardness, surroundings, run-in</summary>
    ${textField(cell, 'finish', desk, { isWords: true })}
    ${textField(cell, 'roughness', desk, { isWords: true, placeholder: 'Ra in µm' })}
    ${textField(cell, 'hardness', desk, { isWords: true, placeholder: 'HV' })}
    ${textField(cell, 'room_temperature', desk, { placeholder: '°C' })}
    ${textField(cell, 'humidity', desk, { isWords: true, placeholder: '%' })}
    ${textField(cell, 'temperature_limit', desk, { placeholder: '°C' })}
    ${textField(cell, 'run_in', desk, { isWords: true })}</details>`;
}

/** Stays to be seen: the test was begun with these open. */
function openAtStart(cell: RecordCell): Part {
  const open = cell.texts.get('open_at_start') ?? '';
  return open === '' || open.startsWith('0 ') ? nothing : html`<p class="missing">${open} checklist items were open at the start.</p>`;
}
