import { nothing } from 'lit-html';
import { presentShift, referenceOf, referenceProblems, shiftLine } from '../../report/index.ts';
import { REFERENCE } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { movedMark, part, problemLine, type Part } from '../parts.ts';
import { html } from '../template.ts';

/** How a value moved with the last edit, and by how much it differs from the reference. */
export function changeMarks(symbol: string, desk: Desk): Part {
  const [moved, shift] = [movedMark(desk.moved(symbol)), part(shiftLine(presentShift(symbol, desk.context())))];
  return moved === nothing && shift === nothing ? nothing : html`${moved}${shift}`;
}

/** At the top of the sheet: what it is compared with, what of that no longer fits, and the press that ends it. */
export function referenceBand(desk: Desk): Part {
  const context = desk.context();
  const reference = referenceOf(context.document);
  const problems = referenceProblems(context);
  if (reference === undefined && problems.length === 0) return nothing;
  const end = (): void => {
    desk.afterUpdate(() => requestAnimationFrame(() => document.querySelector<HTMLElement>('.title-blank')?.focus()));
    if (desk.apply({ do: 'set front matter', key: REFERENCE, value: undefined })) desk.announce('Compared with nothing any more.');
    desk.settle();
  };
  return html`<section class="reference-band" aria-label="Comparison"><p>${reference === undefined ? nothing : html`Compared with the held state “${reference.name}”: beside each value stands by how much it differs.`}
    <button type="button" class="quiet" @click=${end}>stop comparing</button></p>
    ${problems.map((problem) => problemLine(problem))}</section>`;
}
