import type { Draft } from './kept-sheet.ts';

/** What is typed in these changes how the sheet is looked at and never what it says: nothing of it is kept. */
const LOOKS_ONLY = '.draws-settings, .sweep, .work-back, .budget, .look, .lecture-bar, [type="file"], [type="checkbox"], [type="radio"], select';

type Field = HTMLInputElement | HTMLTextAreaElement;

interface DraftWatch {
  /** What stands typed in a field and has not been entered yet. */
  current(): Draft | undefined;
  dispose(): void;
}

/**
 * Watches the fields that enter what was typed only when they are left. Fields that enter every key change the document with it
 * and leave no draft.
 * @param documentNow changes its identity with every edit
 * @param changed what stands typed is other than before
 */
export function watchDrafts(sheet: HTMLElement, documentNow: () => unknown, changed: () => void): DraftWatch {
  let draft: Draft | undefined;
  let field: Field | undefined;
  let before: unknown;
  const watch = new AbortController();
  const drop = (): void => {
    if (draft === undefined) return;
    draft = undefined;
    field = undefined;
    changed();
  };
  const typed = ({ target }: Event): void => {
    if (!isField(target) || target.matches(LOOKS_ONLY) || target.closest(LOOKS_ONLY) !== null) return;
    if (documentNow() !== before) return drop();
    const found = draftIn(target);
    // Emptied again, it is no draft any more.
    if (found === undefined) return drop();
    draft = found;
    field = target;
    changed();
  };
  // What the field enters on being left is entered by listeners nearer to it: this one comes after them.
  const left = ({ target }: Event): void => {
    if (target === field) queueMicrotask(() => queueMicrotask(drop));
  };
  const { signal } = watch;
  sheet.addEventListener('input', () => void (before = documentNow()), { capture: true, signal });
  sheet.addEventListener('input', typed, { signal });
  sheet.addEventListener('change', left, { signal });
  sheet.addEventListener('focusout', left, { signal });
  return { current: () => draft, dispose: () => watch.abort() };
}

/** The field that a draft was typed in, where it is in the page. */
export function fieldOf(sheet: HTMLElement, { cell, field, name }: Draft): Field | undefined {
  const block = [...sheet.querySelectorAll<HTMLElement>('[data-cell]')].find((one) => one.dataset['cell'] === cell);
  return block === undefined ? undefined : fieldsNamed(block, name)[field];
}

/** Types it again where it was typed, and enters it as leaving the field would. */
export function enterDraft(field: Field, { text }: Draft): void {
  field.focus();
  field.value = text;
  field.dispatchEvent(new InputEvent('input', { bubbles: true }));
  field.dispatchEvent(new Event('change', { bubbles: true }));
}

export function draftWords({ name, text }: Draft): string {
  return `“${text}” was typed in “${name}” and not entered yet when this sheet was left.`;
}

function draftIn(field: Field): Draft | undefined {
  // A blank at the foot of the window stands for one of a record.
  const { standsFor, place } = field.closest<HTMLElement>('[data-stands-for]')?.dataset ?? {};
  if (standsFor !== undefined && field.value.trim() !== '') return { cell: standsFor, name: nameOf(field), field: Number(place), text: field.value };
  const block = field.closest<HTMLElement>('[data-cell]');
  const cell = block?.dataset['cell'];
  if (block === null || cell === undefined || field.value.trim() === '') return undefined;
  const name = nameOf(field);
  return { cell, name, field: fieldsNamed(block, name).indexOf(field), text: field.value };
}

function fieldsNamed(block: HTMLElement, name: string): readonly Field[] {
  return [...block.querySelectorAll<Field>('input, textarea')].filter((one) => nameOf(one) === name);
}

function nameOf(field: Field): string {
  const label = field.labels?.[0];
  return (field.getAttribute('aria-label') ?? (label?.querySelector('span') ?? label)?.textContent ?? '').replace(/\s+/g, ' ').trim().slice(0, 200);
}

function isField(target: EventTarget | null): target is Field {
  return target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement;
}
