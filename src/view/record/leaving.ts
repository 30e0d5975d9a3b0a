import { nothing, type TemplateResult } from 'lit-html';
import { cellIn, type ChecklistCell, type RecordCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import type { Part } from '../parts.ts';
import { html } from '../template.ts';
import { stampButton } from './pressed.ts';
import { leaveAlone } from './stamping.ts';

/** The checklist that stands before leaving a machine to itself; undefined where the record names none. */
export function listBefore(cell: RecordCell, desk: Desk): ChecklistCell | undefined {
  const id = cell.texts.get('unattended');
  return desk.session.document().blocks.flatMap((block) => (block.id === id ? cellIn(block, 'checklist') ?? [] : []))[0];
}

/** The list comes into view, and the press that leaves stands below it. */
export function beginLeaving(cell: RecordCell, desk: Desk, draw: () => void): void {
  const list = listBefore(cell, desk);
  if (list === undefined) return;
  desk.ui(cell.id).record.isLeaving = true;
  draw();
  desk.go(list.id, '');
}

/** What is still open is told, and nothing is asked. */
export function leaving(cell: RecordCell, desk: Desk, draw: () => void): Part {
  const list = listBefore(cell, desk);
  if (!desk.ui(cell.id).record.isLeaving || list === undefined) return nothing;
  const open = openOf(list);
  const stay = (): void => {
    desk.ui(cell.id).record.isLeaving = false;
    draw();
  };
  return html`<div class="leaving" role="group" aria-label="Leaving">
    <p>${list.label ?? 'Before it is left alone'}: ${open === 0 ? 'all is ticked.' : `${open} of ${list.items.length} open.`} The sheet only advises: it can’t see the machine.</p>
    <p class="presses">${press(desk, 'I leave it running', (at) => {
      stay();
      leaveAlone(cell, at, `${open} of ${list.items.length}`, desk);
    })}<button type="button" class="press" @click=${stay}>I stay</button></p></div>`;
}

function press(desk: Desk, label: string, act: (at: Date) => void): TemplateResult {
  return stampButton({ label, now: () => desk.session.now(), act });
}

function openOf({ items }: ChecklistCell): number {
  return items.filter(({ done }) => done === undefined).length;
}
