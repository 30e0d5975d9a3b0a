import type { RemarkCell } from '../../sheet/types.ts';
import type { Form } from '../form.ts';
import { html, trusted, type Hand } from '../markup.ts';
import { originNote } from '../origin-parts.ts';
import { note, notesBeside, type CellTemplate } from '../parts.ts';
import { presentRemark } from '../present/cells.ts';
import { isInsideSection } from '../present/numbering.ts';
import type { PresentContext, PresentedRemark } from '../present/types.ts';
import { renderProse } from '../prose.ts';

export const remarkForm: Form<RemarkCell> = { template: (cell, context) => remarkTemplate(cell, presentRemark(cell, context), context) };

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
