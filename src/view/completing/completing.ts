import { nothing, type TemplateResult } from 'lit-html';
import type { Block } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { partId } from '../parts.ts';
import { html } from '../template.ts';
import { offersAt, type Completing, type Offers } from './offers.ts';
import { sheetNames } from './sheet-names.ts';

/** What fits the word before the caret, to be shown at it. @param atOnce with nothing typed, too */
export function completingAt(field: HTMLTextAreaElement, block: Block, desk: Desk, atOnce = false): Completing | undefined {
  if (block.kind !== 'cell' || field.selectionStart !== field.selectionEnd) return undefined;
  const offers = offersAt(field.value, field.selectionStart, block.cellKind, sheetNames(desk.session, block), atOnce);
  return offers === undefined ? undefined : { ...offers, chosen: -1, ...caretPlace(field, offers.start) };
}

/** What a list of names takes, with what may stand at the foot of the window, px. */
const ROOM = 360;

/** Where a place of the text stands, by a copy of the field that breaks its lines alike. */
function caretPlace(field: HTMLTextAreaElement, at: number): Pick<Completing, 'top' | 'left' | 'isAbove'> {
  const copy = document.createElement('div');
  const style = getComputedStyle(field);
  copy.className = 'caret-copy';
  Object.assign(copy.style, { width: `${field.clientWidth}px`, padding: style.padding, font: style.font, letterSpacing: style.letterSpacing });
  const caret = document.createElement('span');
  caret.textContent = '\u200b';
  copy.append(field.value.slice(0, at), caret);
  field.parentElement?.append(copy);
  const below = field.offsetTop + caret.offsetTop + caret.offsetHeight - field.scrollTop;
  const inWindow = (field.parentElement?.getBoundingClientRect().top ?? 0) + below;
  const isAbove = inWindow + ROOM > innerHeight && inWindow > ROOM;
  const place = { isAbove, top: isAbove ? below - caret.offsetHeight : below, left: field.offsetLeft + Math.min(caret.offsetLeft, Math.max(0, field.clientWidth - 288)) };
  copy.remove();
  return place;
}

/** Puts a name in place of what was typed of it, as typing would: the browser's own undo of the field knows it. */
export function putIn(field: HTMLTextAreaElement, { start, end, list }: Offers, chosen: number): void {
  const text = list[chosen]?.text;
  if (text === undefined) return;
  field.focus();
  field.setRangeText(text, start, end, 'end');
  field.dispatchEvent(new Event('input', { bubbles: true }));
}

/** What a key does with the names that are offered; whether that was all that it is for. */
export function completingKey(event: KeyboardEvent, now: Completing, show: (next: Completing | undefined) => void): boolean {
  const { chosen, list } = now;
  const to = { ArrowDown: chosen + 1, ArrowUp: chosen < 0 ? list.length - 1 : chosen - 1 }[event.key];
  if (to !== undefined) show({ ...now, chosen: to >= list.length ? -1 : to });
  else if (event.key === 'Escape') show(undefined);
  else if ((event.key === 'Enter' || event.key === 'Tab') && chosen >= 0 && event.target instanceof HTMLTextAreaElement) putIn(event.target, now, chosen);
  else return false;
  return true;
}

export const listId = (block: Block): string => partId(block.id, 'names');
export const offerId = (block: Block, place: number): string => `${listId(block)}-${place}`;

/** The names as a list to choose from; a press chooses, too, and leaves the field its focus. */
export function completingList(block: Block, now: Completing | undefined): TemplateResult {
  const press = (place: number) => (event: Event): void => {
    event.preventDefault();
    const field = event.currentTarget instanceof HTMLElement ? event.currentTarget.closest('.source-editor')?.querySelector('textarea') : undefined;
    if (now !== undefined && field instanceof HTMLTextAreaElement) putIn(field, now, place);
  };
  return html`<p class="visually-hidden" role="status">${now === undefined ? '' : `${now.list.length === 1 ? 'One name fits' : `${now.list.length} names fit`}; arrow down to choose.`}</p>
    <ul class=${`names${now?.isAbove === true ? ' above' : ''}`} role="listbox" aria-label="Names that fit" id=${listId(block)} ?hidden=${now === undefined} style=${now === undefined ? nothing : `top:${now.top}px;left:${now.left}px`}>${(now?.list ?? []).map(({ text, detail }, i) =>
      html`<li role="option" id=${offerId(block, i)} aria-selected=${i === now?.chosen ? 'true' : 'false'} @pointerdown=${press(i)}><code>${text.replace(/[:(] ?$/u, '')}</code>${detail === '' ? nothing : html` <span class="help">${detail}</span>`}</li>`)}</ul>`;
}
