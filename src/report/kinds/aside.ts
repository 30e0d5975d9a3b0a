import type { AsideCell, EndCell } from '../../sheet/types.ts';
import type { Form } from '../form.ts';
import { html, type Hand, type Insertion } from '../markup.ts';
import { cellAnchor, note, notesBeside, problemList, type CellTemplate } from '../parts.ts';
import { presentAside, type AsideTrouble, type PresentedAside } from '../present/aside.ts';
import { notesOf } from '../present/notes.ts';

export const asideForm: Form<AsideCell> = {
  template: (cell, context) => asideTemplate(presentAside(cell, context)),
  report: (cell, context) => {
    const { label, holds, note: words, problems, warnings } = presentAside(cell, context);
    return {
      here: html`<div class="aside-head" id="${cellAnchor(cell.id)}"><h3>${label}</h3>${holds !== '' && html`<p>${holds}</p>`}${problemList({ problems, warnings })}</div>
`,
      notes: { name: label, texts: [words] },
    };
  },
};

/** An end shows nothing on paper; what is wrong with it is told. */
export const endForm: Form<EndCell> = {
  template: (cell, context) => ({ notes: notesOf(cell, context), line: html``, margin: [] }),
  report: (cell, context) => ({ here: problemList(notesOf(cell, context)) }),
};

/** What only the page has at a part on demand. */
interface AsideHands {
  readonly isOpen: boolean;
  /** The heading as what opens and closes the part. */
  readonly opener: Hand;
  readonly place: (trouble: AsideTrouble) => Hand;
}

/** The line of a part on demand: its heading, what it contains, and what in it wants a look while it is closed. A report always has it open. */
export function asideTemplate(aside: PresentedAside, hands?: AsideHands): CellTemplate {
  const { label, holds, trouble } = aside;
  const isOpen = hands?.isOpen !== false;
  return {
    state: isOpen ? 'stands-open' : 'closed',
    notes: aside,
    line: html`<h3 class="aside-heading">${hands?.opener ?? label}</h3>
${holds !== '' && html`<p class="holds">${holds}</p>`}${!isOpen && troubleLine(trouble, hands)}`,
    margin: [notesBeside(note(aside.note))],
  };
}

function troubleLine(trouble: readonly AsideTrouble[], hands: AsideHands | undefined): Insertion {
  const told = (kind: AsideTrouble['kind'], words: string): Insertion => {
    const list = trouble.filter((one) => one.kind === kind);
    return list.length > 0 && html`<p class="trouble">${words} ${list.map((one, i) => html`${i === 0 ? '' : '; '}${hands?.place(one) ?? one.label}`)}.</p>`;
  };
  return [told('check', 'Does not hold in there:'), told('problem', 'To be mended in there:')];
}
