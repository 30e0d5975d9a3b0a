import type { RemarkCell } from '../../sheet/types.ts';
import type { Form } from '../form.ts';
import { html, trusted } from '../markup.ts';
import { note, type CellTemplate } from '../parts.ts';
import { presentRemark } from '../present/cells.ts';
import { numberSheet } from '../present/numbering.ts';
import type { PresentContext } from '../present/types.ts';
import { renderProse } from '../prose.ts';

export const remarkForm: Form<RemarkCell> = { template: remarkTemplate };

/** The writer's own words under their heading. */
export function remarkTemplate(cell: RemarkCell, context: PresentContext): CellTemplate {
  const remark = presentRemark(cell, context);
  const tag = trusted(numberSheet(context.document).insideSection.has(cell.id) ? 'h3' : 'h2');
  return {
    notes: remark,
    line: html`${remark.heading !== '' && html`<${tag}>${remark.heading}</${tag}>`}
<div class="text">${trusted(renderProse(remark.text, context))}</div>`,
    margin: [note(remark.note)],
  };
}
