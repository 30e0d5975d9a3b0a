import type { AsideCell, ChecklistCell, EndCell, RemarkCell, UnknownCell } from '../../sheet/types.ts';
import type { Form } from '../form.ts';
import { liveSymbols, showingNode } from '../showing-node.ts';

/** Checklists, remarks, ends and what the sheet does not understand: their state is their text. */
export const textForm: Form<ChecklistCell | RemarkCell | EndCell | UnknownCell> = {
  symbols: () => [],
  node: (block, { problems }, context) => showingNode(block, context, { problems }),
};

/** What a part on demand says of what it holds has values in it. */
export const asideForm: Form<AsideCell> = {
  symbols: () => [],
  node: (block, { problems, holds }, context) => showingNode(block, context, { problems, reads: liveSymbols(holds) }),
};
