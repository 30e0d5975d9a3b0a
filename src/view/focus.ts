/** Where the focus goes on the page. */

const BLANKS = '.blank:not(:disabled), .writing textarea';
/** In the lecture view, only those that are shown. */
const SHOWN_BLANKS = ':is(.blank:not(:disabled), .writing textarea):is([data-lecture] *)';

/** Enter in a blank: on to the next one on the sheet, with what stands in it selected so that typing replaces it. */
export function focusNextBlank(from: HTMLElement): void {
  const sheet = from.closest<HTMLElement>('.sheet');
  if (sheet === null) return;
  const blanks = [...sheet.querySelectorAll<HTMLElement>(sheet.dataset['view'] === undefined ? BLANKS : SHOWN_BLANKS)];
  const next = blanks[blanks.indexOf(from) + 1];
  if (next === undefined) {
    from.blur();
    return;
  }
  next.focus();
  if (next instanceof HTMLInputElement || next.classList.contains('blank') && next instanceof HTMLTextAreaElement) next.select();
}

/** Whether the browser's own undo applies: the field has the focus and was changed since it came there. */
export function isFieldWithOwnUndo(target: EventTarget | null, changed: WeakSet<Element>): boolean {
  return isTextField(target) && changed.has(target);
}

export function isTextField(target: EventTarget | null): target is HTMLInputElement | HTMLTextAreaElement {
  return target instanceof HTMLTextAreaElement
    || (target instanceof HTMLInputElement && !['checkbox', 'radio', 'button'].includes(target.type));
}

/** Brings a line into view, without motion for those who want none, and puts the focus on it. */
export function showCell(cell: HTMLElement): void {
  const still = matchMedia('(prefers-reduced-motion: reduce)').matches;
  cell.scrollIntoView({ block: 'center', behavior: still ? 'instant' : 'smooth' });
  cell.focus({ preventScroll: true });
}
