/** Where the focus goes on the page. */
import { holdsOneQuantity } from './readings.ts';

/** What is measured or worked out, each blank for one quantity; in the head the short entries. Long texts, choices and tables are come to on purpose. */
const BLANKS = '.title-fields textarea, input[data-measured]:not(:disabled)';

/** Enter in a blank or at the end of a table: on to the next blank on the sheet that is not folded away; in the lecture view, of those that are shown. */
export function focusNextBlank(from: HTMLElement): void {
  const sheet = from.closest<HTMLElement>('.sheet');
  if (sheet === null) return;
  const isShown = (blank: Element): boolean => sheet.dataset['view'] === undefined || blank.closest('[data-lecture]') !== null;
  const next = [...sheet.querySelectorAll<HTMLInputElement | HTMLTextAreaElement>(BLANKS)].find((blank) =>
    isShown(blank) && blank.closest('details:not([open])') === null && (from.compareDocumentPosition(blank) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0);
  if (next === undefined) from.blur();
  else arriveAt(next);
}

/** Puts the focus into a field. What stands there is selected, so that typing replaces it, only where it is one quantity. */
export function arriveAt(field: HTMLInputElement | HTMLTextAreaElement): void {
  field.focus();
  if (field instanceof HTMLInputElement && holdsOneQuantity(field.value)) field.select();
  else putCaretAtEnd(field);
}

/** On coming by Tab the browser selects all that stands in a field of one line; no long text or list may be replaced by the next key. */
export function keepOnTab(field: EventTarget | null): void {
  if (field instanceof HTMLInputElement && ['text', 'search'].includes(field.type) && !holdsOneQuantity(field.value)) putCaretAtEnd(field);
}

function putCaretAtEnd(field: HTMLInputElement | HTMLTextAreaElement): void {
  field.setSelectionRange(field.value.length, field.value.length);
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
