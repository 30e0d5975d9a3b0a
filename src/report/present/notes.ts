import type { Problem } from '../../core/problem/index.ts';
import type { Cell } from '../../sheet/types.ts';
import { liveText } from './live.ts';
import type { PresentContext, PresentedNotes } from './types.ts';

/** Label, note with its values put in, problems and warnings of a cell, each problem once. */
export function notesOf(cell: Cell, context: PresentContext): PresentedNotes {
  const state = context.states.cell(cell.id);
  return {
    label: cell.label ?? '',
    ...(cell.note === undefined ? {} : { note: liveText(cell.note, context) }),
    problems: onceEach([...cell.problems, ...(state?.problems ?? [])]),
    warnings: onceEach(warningsOf(cell, context)),
  };
}

/** Everything that is odd at a cell and used all the same, and the keys that are not understood. */
export function warningsOf(cell: Cell, { states }: PresentContext): readonly Problem[] {
  return [...(states.cell(cell.id)?.warnings ?? []), ...cell.unknownKeys];
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
