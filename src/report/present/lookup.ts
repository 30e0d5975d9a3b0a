import { isolated, nearNames, type Problem } from '../../core/problem/index.ts';
import { keysInside } from '../../sheet/index.ts';
import type { Cell, CellBlock, SheetDocument } from '../../sheet/types.ts';
import type { PresentContext, PresentedNotes } from './types.ts';

const indexes = new WeakMap<SheetDocument, ReadonlyMap<string, CellBlock>>();

/** The cell of that id, if the document has one. */
export function findCell(document: SheetDocument, cellId: string): CellBlock | undefined {
  let index = indexes.get(document);
  if (index === undefined) {
    index = new Map(document.blocks.flatMap((block) => (block.kind === 'cell' ? [[block.id, block] as const] : [])));
    indexes.set(document, index);
  }
  return index.get(cellId);
}

/** The cell that defines a symbol. */
export function definingCell(symbol: string, { document, states }: PresentContext): CellBlock | undefined {
  return findCell(document, states.definedBy(symbol) ?? '');
}

/** What a symbol is called, as it stands in a sentence: the label of the cell that defines it, or else the symbol. */
export function calledIn(context: PresentContext, symbol: string): string {
  return isolated(definingCell(symbol, context)?.cell.label ?? symbol);
}

/** The given that a symbol is, or that a chain of plain renamings (`l_1 = s_1`) leads to: what a drag changes. */
export function givenBehind(symbol: string, { document, states }: PresentContext): string | undefined {
  const seen = new Set<string>();
  for (let name = symbol; !seen.has(name);) {
    seen.add(name);
    const cellId = states.definedBy(name) ?? '';
    if (findCell(document, cellId)?.cell.kind === 'given') return name;
    const expression = states.cell(cellId)?.expression;
    if (expression?.kind !== 'symbol') return undefined;
    name = expression.name;
  }
  return undefined;
}

/** Label, note, problems and warnings of a cell, each problem once. */
export function notesOf(cell: Cell, context: PresentContext): PresentedNotes {
  const state = context.states.cell(cell.id);
  return {
    label: cell.label ?? '',
    ...(cell.note === undefined ? {} : { note: cell.note }),
    problems: onceEach([...cell.problems, ...(state?.problems ?? [])]),
    warnings: onceEach(warningsOf(cell, context)),
  };
}

/** Everything that is odd at a cell and used all the same, and the keys that are not understood. */
export function warningsOf(cell: Cell, { states }: PresentContext): readonly Problem[] {
  return [...(states.cell(cell.id)?.warnings ?? []), ...cell.unknownKeys.map((key) => unknownKey(cell, key))];
}

/** Keys inside an option, an item, a column or an entry are told with their place: `option 2: colour`. */
function unknownKey(cell: Cell, told: string): Problem {
  const [, place, key = told] = /^(\p{L}+) \S+: (.*)$/su.exec(told) ?? [];
  const near = nearNames(key, keysInside(cell.kind, place));
  const meant = near.length > 0 ? `Did you mean ${near.map((name) => `\`${name}\``).join(' or ')}? ` : '';
  return {
    code: 'key-unknown',
    what: `“${told}” is not understood here and has no effect.`,
    mend: `${meant}It is kept in the file as it is.`,
    cell: cell.id,
    key: told,
  };
}

/** More than this many lines below a cell would hide the sheet; mending the first ones mostly mends the rest. */
const MOST_PROBLEMS = 6;

function onceEach(problems: readonly Problem[]): readonly Problem[] {
  const seen = [...new Map(problems.map((problem) => [`${problem.code}\n${problem.what}`, problem])).values()];
  if (seen.length <= MOST_PROBLEMS) return seen;
  const rest = seen.length - MOST_PROBLEMS + 1;
  const more = { code: 'problems-more', what: `${rest} more places in this cell want a look.`, mend: 'Mend the first ones and look again.' };
  return [...seen.slice(0, MOST_PROBLEMS - 1), more];
}
