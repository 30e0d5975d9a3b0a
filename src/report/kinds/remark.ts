import type { RemarkCell } from '../../sheet/types.ts';
import type { Form } from '../form.ts';
import { html, trusted, type Hand } from '../markup.ts';
import { originNote } from '../origin-parts.ts';
import { cellMarkup, note, notesBeside, type CellTemplate } from '../parts.ts';
import { presentRemark } from '../present/cells.ts';
import { isInsideSection } from '../present/numbering.ts';
import type { PresentContext, PresentedRemark } from '../present/types.ts';
import { renderProse } from '../prose.ts';
import { OPEN_WORDS } from '../report-part.ts';

export const remarkForm: Form<RemarkCell> = {
  template: (cell, context) => remarkTemplate(cell, presentRemark(cell, context), context),
  report: (cell, context, { block }) => {
    const remark = presentRemark(cell, context);
    if (remark.text.trim() === '' && remark.problems.length === 0) return { open: { under: OPEN_WORDS, name: remark.heading }, notes: { name: remark.heading, texts: [remark.note] } };
    return { here: cellMarkup(block.id, 'remark', remarkTemplate(cell, remark, context)) };
  },
};

/** The writer's own words under their heading. @param writing the text itself, to write in */
export function remarkTemplate({ id, origin }: RemarkCell, remark: PresentedRemark, context: PresentContext, writing?: Hand): CellTemplate {
  const { heading } = remark;
  const isInSection = isInsideSection(id, context);
  return {
    notes: remark,
    line: html`${heading !== '' && (isInSection ? html`<h3>${heading}</h3>` : html`<h2>${heading}</h2>`)}
${trusted(renderProse(remark.text, context), 'text')}${writing}`,
    margin: [originNote(origin), notesBeside(note(remark.note))],
  };
}
