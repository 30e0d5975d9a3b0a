import type { EditCommand, SheetDocument } from '../sheet/index.ts';
import { applyEdit, setTrial } from '../sheet/index.ts';

/** Front matter that belongs to one team and one day. */
const PERSONAL = ['team', 'operators', 'date', 'machine', 'specimen', 'batch', 'drawing', 'preparation'];

/** The sheet with its measured blanks, ticks and the team's own words taken out: what an instructor hands to a team. */
export function emptied(document: SheetDocument): SheetDocument {
  const commands: EditCommand[] = [];
  for (const key of PERSONAL) {
    if (document.frontMatter.entries.has(key)) commands.push({ do: 'set front matter', key, value: '' });
  }
  for (const block of document.blocks) {
    if (block.kind !== 'cell') continue;
    const { cell } = block;
    if (cell.kind === 'given' && (cell.instrument !== undefined || cell.optional === true)) {
      commands.push({ do: 'set keys', cellId: block.id, values: new Map([['value', undefined], ['readings', undefined], ['trial', undefined]]) });
    } else if (cell.kind === 'given' && cell.trial !== undefined) {
      commands.push(setTrial(block.id, undefined));
    } else if (cell.kind === 'step' && cell.answer !== undefined) {
      commands.push({ do: 'set key', cellId: block.id, key: 'answer', value: undefined });
    } else if (cell.kind === 'checklist') {
      cell.items.forEach((item, i) => {
        if (item.done !== undefined) commands.push({ do: 'tick', cellId: block.id, item: i, time: undefined });
      });
    }
  }
  const result = applyEdit(document, { do: 'together', commands });
  return result.ok ? result.value : document;
}
