import type { Cell } from '../sheet/types.ts';
import type { Form } from './form.ts';
import { checkForm } from './kinds/check.ts';
import { choiceForm } from './kinds/choice.ts';
import { figureForm } from './kinds/figure.ts';
import { fitForm } from './kinds/fit.ts';
import { givenForm } from './kinds/given.ts';
import { photoForm } from './kinds/photo.ts';
import { questionForm } from './kinds/question.ts';
import { recordForm } from './kinds/record.ts';
import { stepForm } from './kinds/step.ts';
import { tableForm } from './kinds/table.ts';
import { asideForm, textForm } from './kinds/text.ts';

/** Every kind of cell as the graph sees it. A new kind gets its line here; what the graph has to know of it stands in its form. */
export const FORMS: { readonly [K in Cell['kind']]: Form<Extract<Cell, { kind: K }>> } = {
  given: givenForm,
  choice: choiceForm,
  step: stepForm,
  check: checkForm,
  table: tableForm,
  fit: fitForm,
  figure: figureForm,
  checklist: textForm,
  photo: photoForm,
  question: questionForm,
  remark: textForm,
  record: recordForm,
  aside: asideForm,
  end: textForm,
  unknown: textForm,
};

export function formOf(cell: Cell): Form<Cell> {
  return FORMS[cell.kind];
}
