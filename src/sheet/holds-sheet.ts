import type { Problem } from '../core/problem/index.ts';
import type { SheetDocument } from './types.ts';

/** Any text can be read as a sheet; what is wrong with one that has no head and no cell, or could not be read: it is somebody's other file. */
export function whyNoSheet({ frontMatter, blocks, problems }: SheetDocument): Problem | undefined {
  const unread = problems.find(({ code }) => code === 'document-too-long');
  if (unread !== undefined || frontMatter.source !== '' || blocks.some(({ kind }) => kind === 'cell')) return unread;
  return {
    code: 'not-a-sheet',
    what: 'It holds no sheet: neither a head nor a cell.',
    mend: 'Choose a document, a report or a working file that came from a sheet.',
  };
}
