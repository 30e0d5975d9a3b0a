import { templateCell, type Block, type EditCommand, type GivenCell, type SheetDocument } from '../sheet/index.ts';
import type { GivenText } from './readings.ts';

/** What the reader's gestures mean as edits of the document. */

export function setKey(cellId: string, key: string, value: string | undefined): EditCommand {
  return { do: 'set key', cellId, key, value };
}

export function setCorrelation(cellId: string, symbol: string, coefficient: string | undefined): EditCommand {
  return { do: 'set in group', cellId, group: 'correlated', key: symbol, value: coefficient };
}

/** What stands in a given's blanks: one key is set and the other goes, in one step. */
export function setGiven({ id }: GivenCell, { value, readings }: GivenText): EditCommand {
  return { do: 'set keys', cellId: id, values: new Map([['value', value], ['readings', readings]]) };
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

/** Kinds that can be added, with the words of the menu. */
export const NEW_KINDS = [
  ['given', 'a given'],
  ['step', 'a step'],
  ['check', 'a check'],
  ['choice', 'a choice'],
  ['table', 'a table'],
  ['fit', 'a fitted line'],
  ['checklist', 'a checklist'],
  ['photo', 'a picture of the fracture'],
  ['record', 'a test record'],
  ['remark', 'a remark'],
  ['figure', 'a drawing'],
  ['prose', 'text'],
] as const;

/** A new block below another, or first on the sheet; a drawing shows what the sheet's first drawing shows. */
export function addBlock(document: SheetDocument, kind: (typeof NEW_KINDS)[number][0], after: string | undefined): EditCommand {
  if (kind === 'prose') return { do: 'insert', after, source: 'Write here.\n' };
  const source = templateCell(kind, document);
  return { do: 'insert', after, source: kind === 'figure' ? source.replace(/(?=```\n$)/, valuesOfFirstFigure(document)) : source };
}

function valuesOfFirstFigure(document: SheetDocument): string {
  for (const block of document.blocks) {
    if (block.kind !== 'cell' || block.cell.kind !== 'figure') continue;
    return `values:\n${[...block.cell.values].map(([role, symbol]) => `  ${role}: ${symbol}\n`).join('')}`;
  }
  return '';
}
