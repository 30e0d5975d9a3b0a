import { cellsOf, groupSource, templateCell, type EditCommand, type GroupName, type SheetDocument, type TemplateName } from '../sheet/index.ts';

type NewBlock = TemplateName | GroupName | 'prose';

const GROUPS: readonly string[] = ['measurement', 'statics', 'asked'] satisfies readonly GroupName[];
const isGroup = (what: NewBlock): what is GroupName => GROUPS.includes(what);

/** What can be added, with its words in the menu and its letter, which is one of them. */
export const NEW_BLOCKS: readonly { readonly letter: string; readonly what: NewBlock; readonly words: string }[] = [
  { letter: 'W', what: 'measurement', words: 'a measurement with its instrument and check' },
  { letter: 'Y', what: 'statics', words: 'statics of a beam: ready-made cells' },
  { letter: 'K', what: 'asked', words: 'an asked result with its tolerance' },
  { letter: 'G', what: 'given', words: 'a given' },
  { letter: 'S', what: 'step', words: 'a step' },
  { letter: 'C', what: 'check', words: 'a check' },
  { letter: 'O', what: 'choice', words: 'a choice' },
  { letter: 'B', what: 'table', words: 'a table' },
  { letter: 'F', what: 'fit', words: 'a fitted line' },
  { letter: 'M', what: 'limits', words: 'limits of a line' },
  { letter: 'V', what: 'lives', words: 'lives at one stress' },
  { letter: 'U', what: 'comparison', words: 'groups compared' },
  { letter: 'A', what: 'staircase', words: 'a staircase' },
  { letter: 'P', what: 'plan', words: 'planned tests' },
  { letter: 'H', what: 'weights', words: 'weights to hang on a lever' },
  { letter: 'L', what: 'checklist', words: 'a checklist' },
  { letter: 'I', what: 'photo', words: 'a picture of the fracture' },
  { letter: 'E', what: 'record', words: 'a test record' },
  { letter: 'Q', what: 'question', words: 'a question' },
  { letter: 'R', what: 'remark', words: 'a remark' },
  { letter: 'N', what: 'aside', words: 'a part on demand' },
  { letter: 'D', what: 'figure', words: 'a drawing' },
  { letter: 'T', what: 'prose', words: 'text' },
];

/** A new block below another, or first on the sheet; a drawing shows what the sheet's first drawing shows. */
export function addBlock(document: SheetDocument, what: NewBlock, after: string | undefined): EditCommand {
  if (what === 'prose') return { do: 'insert', after, source: 'Write here.\n' };
  if (isGroup(what)) return { do: 'insert', after, source: groupSource(what, document) };
  const source = templateCell(what, document);
  return { do: 'insert', after, source: what === 'figure' ? source.replace(/(?=```\n$)/, valuesOfFirstFigure(document)) : source };
}

function valuesOfFirstFigure(document: SheetDocument): string {
  const [first] = cellsOf(document, 'figure');
  return first === undefined ? '' : `values:\n${[...first.values].map(([role, symbol]) => `  ${role}: ${symbol}\n`).join('')}`;
}
