import { composed } from '../core/problem/index.ts';
import { cellIn, lineageOf, type Block, type SheetDocument } from '../sheet/index.ts';

/** Which way a step of the history went. */
export type StepWay = 'undo' | 'redo';

/** What a step undone or done again changed, and the first place of it that is on the sheet. */
export interface StepTold {
  readonly way: StepWay;
  readonly sentence: string;
  readonly at: string | undefined;
}

/** Places that are named; more are counted. */
const MOST_NAMED = 2;

/** What differs between two documents, told as what a step did; undefined where nothing does. */
export function tellStep(way: StepWay, before: SheetDocument, after: SheetDocument): StepTold | undefined {
  const [earlier, later] = [byLineage(before), byLineage(after)];
  const there = [...later.values()].filter(isTold);
  const come = there.filter((block) => !earlier.has(lineageOf(block)));
  const gone = [...earlier.values()].filter((block) => isTold(block) && !later.has(lineageOf(block)));
  const changed = there.filter((block) => {
    const old = earlier.get(lineageOf(block));
    return old !== undefined && old !== block && old.source !== block.source;
  });
  const phrases = [
    ...(before.frontMatter.source === after.frontMatter.source ? [] : ['the head of the sheet (title, team, units, what is held) is as it was']),
    ...changed.map(changedPhrase),
    ...come.map((block) => `${nameOf(block)} is back`),
    ...gone.map((block) => `${nameOf(block)} is gone`),
  ];
  if (phrases.length === 0) {
    if (before === after) return undefined;
    phrases.push('the order of the lines is as it was');
  }
  const rest = phrases.length - MOST_NAMED;
  const more = rest > 0 ? `; and ${rest} more ${rest === 1 ? 'place' : 'places'}` : '';
  const at = (changed[0] ?? come[0])?.id;
  return { way, at, sentence: `${way === 'undo' ? 'Undone' : 'Done again'}: ${phrases.slice(0, MOST_NAMED).join('; ')}${more}.` };
}

function byLineage({ blocks }: SheetDocument): ReadonlyMap<object, Block> {
  return new Map(blocks.map((block) => [lineageOf(block), block]));
}

/** Blank lines are told of by nobody. */
function isTold(block: Block): boolean {
  return block.kind === 'cell' || block.source.trim() !== '';
}

function changedPhrase(block: Block): string {
  const given = cellIn(block, 'given');
  if (given === undefined) return `${nameOf(block)} is as it was`;
  const typed = given.readings ?? given.value ?? '';
  return composed`${nameOf(block)} is ${typed.trim() === '' ? 'empty' : typed}`;
}

/** A block as a sentence calls it. */
export function nameOf(block: Block): string {
  if (block.kind === 'prose') return 'a text';
  return `“${block.cell.label ?? cellIn(block, 'remark')?.heading ?? block.id}”`;
}
