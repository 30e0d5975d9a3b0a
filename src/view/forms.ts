import type { Cell } from '../sheet/index.ts';
import type { Form } from './form.ts';
import { asideParts, endParts } from './kinds/aside.ts';
import { checkParts } from './kinds/check.ts';
import { checklistParts } from './kinds/checklist.ts';
import { choiceParts } from './kinds/choice.ts';
import { figureParts } from './kinds/figure.ts';
import { fitParts } from './kinds/fit.ts';
import { givenParts } from './kinds/given.ts';
import { photoParts } from './kinds/photo.ts';
import { recordParts } from './kinds/record.ts';
import { questionParts } from './kinds/question.ts';
import { remarkParts } from './kinds/remark.ts';
import { stepParts } from './kinds/step.ts';
import { tableParts } from './kinds/table.ts';
import { unknownParts } from './kinds/unknown.ts';

/** Every kind of cell as the page has it. A new kind gets its line here. */
const FORMS: { readonly [K in Cell['kind']]: Form<Extract<Cell, { kind: K }>> } = {
  given: { parts: givenParts },
  choice: { parts: choiceParts },
  step: { parts: stepParts },
  check: { parts: checkParts },
  table: { parts: tableParts },
  fit: { parts: fitParts },
  figure: { parts: figureParts },
  checklist: { parts: checklistParts },
  photo: { parts: photoParts },
  question: { parts: questionParts },
  remark: { parts: remarkParts },
  record: { parts: recordParts },
  aside: { parts: asideParts },
  end: { parts: endParts },
  unknown: { parts: unknownParts },
};

export function formOf(cell: Cell): Form<Cell> {
  return FORMS[cell.kind];
}
