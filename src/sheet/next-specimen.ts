import { asKind } from './cells-of.ts';
import { applyEdit, type EditCommand } from './edit.ts';
import { RECORD_TEXTS } from './keys.ts';
import { trialText } from './trial.ts';
import { rowsText } from './table/rows-text.ts';
import type { Cell, CellBlock, ChecklistCell, GivenCell, RecordCell, SheetDocument } from './types.ts';

/** A sheet for the next specimen, and what it leaves out of this one. */
export interface NextSpecimen {
  readonly document: SheetDocument;
  /** What is emptied, in the words of the sheet and in its order. */
  readonly empties: readonly string[];
}

/** Entries of the title block that belong to one specimen. */
const HEAD: readonly (readonly [key: string, words: string])[] = [['specimen', 'the specimen’s name'], ['date', 'the date']];

/** What a record says of machine and agreement, and not of one test. */
const KEPT_IN_RECORD: readonly string[] = ['load_verified', 'temperature_limit', 'run_in', 'criterion', 'crack_length', 'counter_multiplier', 'counter_digits', 'unattended', 'suggests'];

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
  const { cell } = block;
  return BY_TEST[cell.kind] ? testGone(block) : cell.perSpecimen === true ? leftByEntry(block) : trialGone(block);
}

/** Kinds in which a test and its reader leave something that belongs to that test. */
const BY_TEST: Readonly<Record<Cell['kind'], boolean>> = {
  given: false, choice: false, step: true, check: false, table: false, fit: false, figure: false, checklist: true, photo: true, question: true, remark: false, record: true, aside: false, end: false, unknown: false,
};

/** What a test and its reader left in a cell: own results, pictures with their marks, what was recorded, ticks, trial values. Undefined where there is nothing. */
export function leftByTest(block: CellBlock): Emptying | undefined {
  return BY_TEST[block.cell.kind] ? testGone(block) : trialGone(block);
}

function testGone(block: CellBlock): Emptying | undefined {
  const { cell } = block;
  const [step, photo, record, checklist] = [asKind(cell, 'step'), asKind(cell, 'photo'), asKind(cell, 'record'), asKind(cell, 'checklist')];
  const own = step ?? asKind(cell, 'question');
  if (own !== undefined) return own.answer === undefined && own.tried === undefined ? undefined : without(block, 'own results', ['answer', 'tried', 'told']);
  if (photo !== undefined) return photo.picture === '' ? undefined : without(block, nameOf(cell), ['picture', 'scale', 'outline', 'final', 'origins']);
  if (record !== undefined) return without(block, nameOf(cell), recordKeys(record));
  return checklist === undefined ? undefined : ticks(block, checklist);
}

/** What somebody entered in a cell; undefined where there is nothing. */
export function leftByEntry(block: CellBlock): Emptying | undefined {
  const { id, cell } = block;
  const [given, choice, remark, table] = [asKind(cell, 'given'), asKind(cell, 'choice'), asKind(cell, 'remark'), asKind(cell, 'table')];
  if (given !== undefined) return isEmpty(given) ? undefined : without(block, nameOf(cell), ['value', 'readings', 'trial', 'taken', 'origin']);
  if (choice !== undefined) return choice.chosen === '' ? undefined : without(block, nameOf(cell), ['chosen', 'origin']);
  if (remark !== undefined) return remark.text.trim() === '' ? undefined : without(block, remark.heading, ['text', 'origin']);
  if (table === undefined || rowsText(table).rows.length === 0) return undefined;
  return { words: nameOf(cell), commands: [{ do: 'replace rows', cellId: id, text: rowsText(table).head }] };
}

function trialGone(block: CellBlock): Emptying | undefined {
  const given = asKind(block.cell, 'given');
  return given === undefined || trialText(given) === undefined ? undefined : without(block, 'trial values', ['trial']);
}

function isEmpty(given: GivenCell): boolean {
  return (given.readings ?? given.value ?? '').trim() === '' && trialText(given) === undefined;
}

function without({ id }: CellBlock, words: string, keys: readonly string[]): Emptying | undefined {
  return keys.length === 0 ? undefined : { words, commands: [{ do: 'set keys', cellId: id, values: new Map(keys.map((key) => [key, undefined])) }] };
}

function recordKeys({ texts, readings, pauses, frozen }: RecordCell): readonly string[] {
  const said = RECORD_TEXTS.filter((key) => texts.has(key) && !KEPT_IN_RECORD.includes(key));
  const lists = [['readings', readings.length], ['pauses', pauses.length], ['frozen', frozen.size]] as const;
  return [...said, ...lists.flatMap(([key, length]) => (length > 0 ? [key] : []))];
}

function ticks({ id }: CellBlock, { items }: ChecklistCell): Emptying | undefined {
  const commands = items.flatMap(({ done }, item): readonly EditCommand[] => (done === undefined ? [] : [{ do: 'tick', cellId: id, item, time: undefined }]));
  return commands.length === 0 ? undefined : { words: 'ticks of the checklists', commands };
}

function nameOf(cell: Cell): string {
  return cell.label ?? cell.id;
}
