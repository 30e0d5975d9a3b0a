import type { Problem } from '../../core/problem/index.ts';
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
  const unknown: Problem[] = cell.unknownKeys.map((key) => ({
    code: 'key-unknown',
    what: `“${key}” is not understood here.`,
    mend: 'It is kept in the file as it is.',
    cell: cell.id,
    key,
  }));
  return {
    label: cell.label ?? '',
    ...(cell.note === undefined ? {} : { note: cell.note }),
    problems: onceEach([...cell.problems, ...(state?.problems ?? [])]),
    warnings: onceEach([...(state?.warnings ?? []), ...(state?.warnings.some(isUnknownKey) ? [] : unknown)]),
  };
}

function isUnknownKey(problem: Problem): boolean {
  return problem.code === 'key-unknown';
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
