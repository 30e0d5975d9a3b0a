import type { Cell } from '../sheet/types.ts';
import type { Form } from './form.ts';
import { asideForm, endForm } from './kinds/aside.ts';
import { checkForm } from './kinds/check.ts';
import { checklistForm } from './kinds/checklist.ts';
import { choiceForm } from './kinds/choice.ts';
import { figureForm } from './kinds/figure.ts';
import { fitForm } from './kinds/fit.ts';
import { givenForm } from './kinds/given.ts';
import { photoForm } from './kinds/photo.ts';
import { recordForm } from './kinds/record.ts';
import { questionForm } from './kinds/question.ts';
import { remarkForm } from './kinds/remark.ts';
import { stepForm } from './kinds/step.ts';
import { tableForm } from './kinds/table.ts';
import { unknownForm } from './kinds/unknown.ts';

/** Every kind of cell as the report sees it. A new kind gets its line here. */
const FORMS: { readonly [K in Cell['kind']]: Form<Extract<Cell, { kind: K }>> } = {
  given: givenForm,
  choice: choiceForm,
  step: stepForm,
  check: checkForm,
  table: tableForm,
  fit: fitForm,
  figure: figureForm,
  checklist: checklistForm,
  photo: photoForm,
  question: questionForm,
  remark: remarkForm,
  record: recordForm,
  aside: asideForm,
  end: endForm,
  unknown: unknownForm,
};

export function formOf(cell: Cell): Form<Cell> {
  return FORMS[cell.kind];
}
