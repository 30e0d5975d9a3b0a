import { TRIES, triesSlip } from './asked-rules.ts';
import type { QuestionCell } from './bench-types.ts';
import type { CellBase } from './cell-base.ts';
import { present, TRUTH, truthSlip, type Fields } from './fields.ts';
import type { KeyOf } from './keys.ts';
import { opened } from './teams/sealed.ts';

/** The body of a question. */
export function readQuestion(fields: Fields<KeyOf<'question'>>): { readonly fields: Omit<QuestionCell, keyof CellBase> } {
  fields.required('label');
  const options = fields.mapping('options');
  // What is right stands sealed in a team's file.
  const right = opened(fields.text('right'));
  if (right !== undefined && options?.has(right) !== true) {
    const mend = options === undefined ? 'Write the options below `options:`, a short name for each with its words.' : `Write one of their short names: ${[...options.keys()].join(', ')}.`;
    fields.tell('right-unknown', 'right', `“${right}” is none of the options here.`, mend);
  }
  const formula = opened(fields.text('formula'));
  if (formula !== undefined && options !== undefined) {
    fields.tell('question-two-ways', 'formula', 'A question is answered by one of its options or by an expression, not by both.', 'Delete `options` or `formula`. The options count meanwhile.');
  }
  return {
    fields: {
      kind: 'question',
      ...present({
        options,
        right,
        formula: options === undefined ? formula : undefined,
        in: fields.text('in')?.split(',').map((name) => name.trim()).filter((name) => fields.isSymbol('in', name)),
        why: opened(fields.text('why')),
        answer: fields.text('answer'),
        tried: fields.text('tried'),
        isTold: fields.formed('told', TRUTH, truthSlip('told')),
        tries: fields.formed('tries', TRIES, triesSlip),
      }),
    },
  };
}
