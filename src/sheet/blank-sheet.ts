import { asKind } from './cells-of.ts';
import { applyEdit, type EditCommand } from './edit.ts';
import { leftByEntry, leftByTest } from './next-specimen.ts';
import { HEAD_FROM_EXAMPLE } from './origin.ts';
import { HEAD, TITLE_FORM } from './reference/head.ts';
import type { CellBlock, SheetDocument } from './types.ts';

/**
 * The sheet without anything that somebody entered, so that it can be handed out as it was written: no reading, choice, row, answer, tick, picture, record, held
 * state or slip that is on, and an empty title block. What it assumes stays, and so do words that every
 * file has alike: a remark is emptied where a hint asks to write it.
 */
export function blankSheet(document: SheetDocument): SheetDocument {
  const { entries, held } = document.frontMatter;
  // Entries of other names stand in the form as well.
  const form = [...entries.keys()].filter((key) => Object.hasOwn(TITLE_FORM, key) || !Object.hasOwn(HEAD, key));
  const commands: EditCommand[] = [
    ...form.filter((key) => (entries.get(key) ?? '') !== '').map((key): EditCommand => ({ do: 'set front matter', key, value: '' })),
    ...['slips', 'handed_in', HEAD_FROM_EXAMPLE, 'held_reference'].filter((key) => entries.has(key)).map((key): EditCommand => ({ do: 'set front matter', key, value: undefined })),
    ...held.map(({ name }): EditCommand => ({ do: 'drop held', name })),
    ...document.blocks.flatMap((block) => (block.kind !== 'cell' ? []
      : [...(leftByTest(block)?.commands ?? []), ...(isTheAuthors(block) ? [] : leftByEntry(block)?.commands ?? [])])),
  ];
  const blank = applyEdit(document, { do: 'together', commands });
  if (!blank.ok) throw new Error(`a sheet can not be emptied: ${blank.problem.what}`);
  return blank.value;
}

/** What the sheet assumes, and a remark that nobody is asked to write. */
function isTheAuthors({ cell }: CellBlock): boolean {
  const remark = asKind(cell, 'remark');
  const isPlace = remark === undefined || remark.hint !== undefined || cell.perSpecimen === true || cell.origin === 'example';
  return cell.origin === 'assumed' || !isPlace;
}
