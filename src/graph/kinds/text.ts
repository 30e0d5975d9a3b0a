import type { ChecklistCell, RemarkCell, UnknownCell } from '../../sheet/types.ts';
import type { Form } from '../form.ts';
import { showingNode } from '../showing-node.ts';

/** Checklists, remarks and what the sheet does not understand: their state is their text. */
export const textForm: Form<ChecklistCell | RemarkCell | UnknownCell> = {
  symbols: () => [],
  node: (block, { problems }, context) => showingNode(block, context, { problems }),
};
