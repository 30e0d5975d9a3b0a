import { cellsOf } from '../../sheet/index.ts';
import { nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import type { PresentContext } from '../../report/index.ts';
import type { Desk } from '../desk.ts';
import type { Part } from '../parts.ts';
import { html } from '../template.ts';
import type { LectureAction } from './keys.ts';
import { chapterWords } from './wall.ts';
import { drawingsOf, TITLE, type LectureOrder, type Station } from './order.ts';

/** What of the sheet is looked at, and how. */
export type LectureView = 'steps' | 'chain' | 'overview';

interface BarState {
  readonly order: LectureOrder;
  readonly station: Station;
  readonly index: number;
  readonly view: LectureView;
  readonly isPausing: boolean;
  /** Id of the drawing beside; '' for none. */
  readonly drawing: string;
  /** Id of the given at hand; '' for none. */
  readonly input: string;
  readonly isUnfolded: boolean;
}

interface BarActions {
  readonly act: (action: LectureAction) => void;
  readonly chooseDrawing: (cellId: string) => void;
  readonly chooseInput: (cellId: string) => void;
  readonly unfold: () => void;
}

/** Above the stage: the section; the sheet's title stands there for those who do not see the wall. */
export function strip({ order, station, view }: BarState): TemplateResult {
  const chapter = order.chapters[station.chapter];
  return html`${station.id === TITLE && view === 'steps' ? nothing : html`<h1 class="visually-hidden">${order.chapters[0]?.name}</h1>`}<p>${chapter === undefined ? nothing : chapterWords(chapter)}</p>`;
}

/** Below the stage: where the lecture stands, and quietly what can be done, with its keys. */
export function bar(state: BarState, { act, chooseDrawing, chooseInput, unfold }: BarActions, desk: Desk): TemplateResult {
  const press = (action: LectureAction, words: string, key: string, pressed?: boolean): TemplateResult =>
    html`<button type="button" aria-pressed=${pressed === undefined ? nothing : String(pressed)} @click=${() => act(action)}>${words} <kbd aria-hidden="true">${key}</kbd></button>`;
  const context = desk.context();
  return html`<div class="lecture-way">
      <button type="button" @click=${() => act('back')}><span aria-hidden="true">◂</span> back</button>
      <span class="count"><span class="visually-hidden">Place </span>${state.index + 1}<span aria-hidden="true"> / </span><span class="visually-hidden"> of </span>${state.order.stations.length}</span>
      <button type="button" @click=${() => act('next')}>on <span aria-hidden="true">▸</span></button>
      <button type="button" class="unfold" aria-expanded=${String(state.isUnfolded)} @click=${unfold}>more</button>
    </div>
    <div class="lecture-tools" ?data-unfolded=${state.isUnfolded}>
      ${press('chain', 'chain', 'C', state.view === 'chain')}
      ${press('overview', 'list', 'L', state.view === 'overview')}
      ${press('guess first', 'predict first', 'P', state.isPausing)}
      ${picker('beside', drawingsOf(context), state.drawing, 'no drawing', chooseDrawing)}
      ${picker('at hand', givensOf(context), state.input, 'no input', chooseInput)}
      ${press('blank', 'blank', 'B')}
      ${document.fullscreenEnabled ? press('full screen', 'full screen', 'W') : nothing}
      ${press('leave', 'leave', 'Esc')}
    </div>`;
}

function picker(words: string, options: ReadonlyMap<string, string>, chosen: string, none: string, choose: (cellId: string) => void): Part {
  if (options.size === 0) return nothing;
  return html`<label>${words} <select .value=${live(chosen)} @change=${(event: Event) => event.target instanceof HTMLSelectElement && choose(event.target.value)}>
    <option value="" ?selected=${chosen === ''}>${none}</option>
    ${[...options].map(([id, label]) => html`<option value=${id} ?selected=${id === chosen}>${label}</option>`)}</select></label>`;
}

function givensOf({ document }: PresentContext): ReadonlyMap<string, string> {
  return new Map(cellsOf(document, 'given').map(({ id, label, symbol }) => [id, label ?? symbol]));
}
