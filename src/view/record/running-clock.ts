import { nothing, render, type TemplateResult } from 'lit-html';
import { ref } from 'lit-html/directives/ref.js';
import { presentRunning } from '../../report/index.ts';
import { cellIn, type Block, type RecordCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { problemLine } from '../parts.ts';
import { sayTime } from '../stamps.ts';
import { html } from '../template.ts';

/** The running clock in an element of its own, so that each second redraws it and none of the fields beside it. */
export function runningClock(cell: RecordCell, desk: Desk): TemplateResult {
  return html`<div class="running" ${ref((element) => void (element instanceof HTMLElement && draw(cell, desk, element)))}></div>`;
}

/** Once a second, in the page only: the document knows nothing of the time that passes. */
export function tickRecords(blocks: Iterable<Block>, desk: Desk): void {
  for (const block of blocks) {
    const record = cellIn(block, 'record');
    const place = record && desk.element(block.id)?.querySelector<HTMLElement>('.running');
    if (record && place) draw(record, desk, place);
  }
}

function draw(cell: RecordCell, desk: Desk, place: HTMLElement): void {
  const now = desk.session.now();
  const { facts, outlook, problems } = presentRunning(cell, desk.context(), { now: now.getTime(), say: (time) => sayTime(time, now) });
  render(html`${facts.length === 0 ? nothing : html`<dl class="facts">${facts.map(({ name, text }) => html`<div><dt>${name}</dt><dd>${text}</dd></div>`)}</dl>`}
    ${outlook.map((sentence) => html`<p class="outlook">${sentence}</p>`)}
    ${problems.map((problem) => problemLine(problem))}`, place);
}
