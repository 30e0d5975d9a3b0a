import type { Block, EditCommand, GivenCell, Origin } from '../sheet/index.ts';
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
