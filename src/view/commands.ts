import { cellsOf, groupSource, templateCell, type Block, type EditCommand, type GivenCell, type GroupName, type Origin, type SheetDocument, type TemplateName } from '../sheet/index.ts';
import type { GivenText } from './readings.ts';

/** What the reader's gestures mean as edits of the document. */

export function setKey(cellId: string, key: string, value: string | undefined): EditCommand {
  return { do: 'set key', cellId, key, value };
}

export function setCorrelation(cellId: string, symbol: string, coefficient: string | undefined): EditCommand {
  return { do: 'set in group', cellId, group: 'correlated', key: symbol, value: coefficient };
}

/** What stands in a given's blanks: one key is set and the other goes, in one step. @param origin where it comes from, if it is put back */
export function setGiven({ id }: GivenCell, { value, readings }: GivenText, origin?: Origin): EditCommand {
  const stated: readonly (readonly [string, string])[] = origin === undefined ? [] : [['origin', origin]];
  return { do: 'set keys', cellId: id, values: new Map([['value', value], ['readings', readings], ...stated]) };
}

/** A block's text as its editor shows it: lines ending as fields have them, without blank lines around it. */
export function ownText(block: Block): string {
  const text = (block.kind === 'cell' ? block.body : block.source).replace(/\r\n?/g, '\n');
  return block.kind === 'cell' ? text.replace(/\n$/, '') : text.replace(/^\s*\n|\s+$/g, '');
}

/** A block's own text replaced by what was typed in its editor. */
export function replaceText(block: Block, text: string): EditCommand {
  if (block.kind === 'cell') return { do: 'set body', cellId: block.id, body: text === '' ? '' : `${text}\n` };
  const isBlank = block.source.trim() === '';
  const before = isBlank ? block.source : (/^\s*\n/.exec(block.source)?.[0] ?? '');
  const after = isBlank ? '' : (/\s+$/.exec(block.source)?.[0] ?? '\n');
  return { do: 'set source', blockId: block.id, source: before + text + after };
}

/** Blank lines between two cells are no line of the page. */
export function isShown(block: Block): boolean {
  return block.kind === 'cell' || block.source.trim() !== '';
}

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
