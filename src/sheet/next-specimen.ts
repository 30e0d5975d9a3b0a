import { applyEdit, type EditCommand } from './edit.ts';
import { RECORD_TEXTS } from './keys.ts';
import { trialText } from './trial.ts';
import { rowsText } from './table/rows-text.ts';
import type { Cell, CellBlock, SheetDocument } from './types.ts';

/** A sheet for the next specimen, and what it leaves out of this one. */
export interface NextSpecimen {
  readonly document: SheetDocument;
  /** What is emptied, in the words of the sheet and in its order. */
  readonly empties: readonly string[];
}

/** Entries of the title block that belong to one specimen. */
const HEAD: readonly (readonly [key: string, words: string])[] = [['specimen', 'the specimen’s name'], ['date', 'the date']];

/** What a record says of machine and agreement, and not of one test. */
const KEPT_IN_RECORD: readonly string[] = ['load_verified', 'temperature_limit', 'run_in', 'criterion', 'crack_length', 'counter_multiplier', 'counter_digits', 'suggests'];

/**
 * The sheet with its set-up, load, machine, team and material, and without what belongs to the specimen: cells that say so (`per_specimen`),
 * records, pictures, ticks, answers, trial values and held states, and the specimen's own entries of the title block.
 */
export function nextSpecimen(document: SheetDocument): NextSpecimen {
  const commands: EditCommand[] = [];
  const empties: string[] = [];
  const { entries, held } = document.frontMatter;
  for (const [key, words] of HEAD) {
    if ((entries.get(key) ?? '').trim() === '') continue;
    commands.push({ do: 'set front matter', key, value: '' });
    empties.push(words);
  }
  for (const block of document.blocks) {
    if (block.kind !== 'cell') continue;
    const emptied = emptying(block);
    if (emptied === undefined) continue;
    commands.push(...emptied.commands);
    if (!empties.includes(emptied.words)) empties.push(emptied.words);
  }
  if (held.length > 0) {
    commands.push(...held.map(({ name }): EditCommand => ({ do: 'drop held', name })));
    empties.push('held states');
  }
  const next = applyEdit(document, { do: 'together', commands });
  return next.ok ? { document: next.value, empties } : { document, empties: [] };
}

interface Emptying {
  readonly commands: readonly EditCommand[];
  readonly words: string;
}

function emptying(block: CellBlock): Emptying | undefined {
  const { id, cell } = block;
  const without = (words: string, ...keys: readonly string[]): Emptying | undefined =>
    keys.length === 0 ? undefined : { words, commands: [{ do: 'set keys', cellId: id, values: new Map(keys.map((key) => [key, undefined])) }] };
  switch (cell.kind) {
    case 'given': {
      if (cell.perSpecimen !== true) return trialText(cell) === undefined ? undefined : without('trial values', 'trial');
      const stands = (cell.readings ?? cell.value ?? '').trim() !== '' || trialText(cell) !== undefined;
      return stands ? without(nameOf(cell), 'value', 'readings', 'trial', 'taken', 'origin') : undefined;
    }
    case 'choice': return cell.perSpecimen === true && cell.chosen !== '' ? without(nameOf(cell), 'chosen', 'origin') : undefined;
    case 'remark': return cell.perSpecimen === true && cell.text.trim() !== '' ? without(cell.heading, 'text', 'origin') : undefined;
    case 'step': return cell.answer === undefined ? undefined : without('own results', 'answer');
    case 'photo': return cell.picture === '' ? undefined : without(nameOf(cell), 'picture', 'scale', 'outline', 'final', 'origins');
    case 'record': return without(nameOf(cell), ...recordKeys(cell));
    case 'checklist': return ticks(block, cell);
    case 'table': {
      if (cell.perSpecimen !== true || rowsText(cell).rows.length === 0) return undefined;
      return { words: nameOf(cell), commands: [{ do: 'replace rows', cellId: id, text: rowsText(cell).head }] };
    }
    default: return undefined;
  }
}

function recordKeys({ texts, readings, pauses, frozen }: Extract<Cell, { kind: 'record' }>): readonly string[] {
  const said = RECORD_TEXTS.filter((key) => texts.has(key) && !KEPT_IN_RECORD.includes(key));
  const lists = [['readings', readings.length], ['pauses', pauses.length], ['frozen', frozen.size]] as const;
  return [...said, ...lists.flatMap(([key, length]) => (length > 0 ? [key] : []))];
}

function ticks({ id }: CellBlock, { items }: Extract<Cell, { kind: 'checklist' }>): Emptying | undefined {
  const commands = items.flatMap(({ done }, item): readonly EditCommand[] => (done === undefined ? [] : [{ do: 'tick', cellId: id, item, time: undefined }]));
  return commands.length === 0 ? undefined : { words: 'ticks of the checklists', commands };
}

function nameOf(cell: Cell): string {
  return cell.label ?? cell.id;
}
