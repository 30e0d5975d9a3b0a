import { fail, ok } from '../../core/problem/index.ts';
import type { Problem, Result } from '../../core/problem/index.ts';
import type { HeldState } from '../held-types.ts';
import { appendItem, removeItem, setInItem, type Item } from '../list-items.ts';
import { setKey } from '../set-entry.ts';
import { groupOf } from '../tree.ts';
import { readBody } from '../yaml-body.ts';
import { HELD, LONGEST_NAME, MOST_HELD, nameIn, REFERENCE } from './read-held.ts';

/** A change of the held states in the front matter. */
export type HeldCommand =
  /** Holds a state; its name is to be a new one. */
  | { readonly do: 'hold'; readonly state: HeldState }
  /** A reference stays one under its new name. */
  | { readonly do: 'rename held'; readonly name: string; readonly to: string }
  | { readonly do: 'drop held'; readonly name: string };

/**
 * The text of a front matter after a change of its held states.
 * Problems: `hold-no-name`, `hold-name-long`, `hold-name-taken`, `hold-too-many`, `held-gone`, `edit-unsafe`.
 */
export function editHeld(body: string, command: HeldCommand, lineEnd: string): Result<string> {
  const { names, reference } = heldIn(body);
  if (command.do === 'hold') {
    const { name, at, inputs, rows, origins } = command.state;
    const refused = names.length >= MOST_HELD ? tooManyProblem() : nameProblem(name.trim(), names);
    if (refused !== undefined) return fail(refused);
    const item: Item = new Map<string, string | ReadonlyMap<string, string>>([
      ['name', name.trim()], ...(at === undefined ? [] : [['at', at] as const]), ['inputs', inputs], ...(rows === undefined || rows.size === 0 ? [] : [['rows', rows] as const]), ...(origins === undefined || origins.size === 0 ? [] : [['origins', origins] as const]),
    ]);
    return appendItem(body, HELD, item, lineEnd);
  }
  const index = names.indexOf(command.name);
  if (index < 0) return fail(goneProblem(command.name));
  const isReference = reference === command.name;
  if (command.do === 'drop held') {
    const dropped = removeItem(body, HELD, index, lineEnd);
    return dropped.ok && isReference ? setKey(dropped.value, [], REFERENCE, undefined, lineEnd) : dropped;
  }
  const to = command.to.trim();
  if (to === command.name) return ok(body);
  const refused = nameProblem(to, names);
  if (refused !== undefined) return fail(refused);
  const renamed = setInItem(body, HELD, { index, inner: 'name' }, to, lineEnd);
  return renamed.ok && isReference ? setKey(renamed.value, [], REFERENCE, to, lineEnd) : renamed;
}

/** Names in the order of the list as it is written, '' for an item that has none. */
function heldIn(body: string): { readonly names: readonly string[]; readonly reference: string | undefined } {
  const { entries } = groupOf(body, readBody(body).entries, []);
  const list = entries.get(HELD);
  const reference = entries.get(REFERENCE);
  return {
    names: list?.kind === 'list' ? list.items.map((item) => nameIn(item.kind === 'group' ? item : undefined)) : [],
    reference: reference?.kind === 'text' ? reference.text.trim() : undefined,
  };
}

function nameProblem(name: string, taken: readonly string[]): Problem | undefined {
  if (name === '') return { code: 'hold-no-name', what: 'The state has no name yet.', mend: 'Give it one, such as the team or what was changed.', key: HELD };
  if (name.length > LONGEST_NAME) {
    return { code: 'hold-name-long', what: 'The name is too long.', mend: `Keep it to ${LONGEST_NAME} letters.`, key: HELD };
  }
  if (!taken.includes(name)) return undefined;
  return { code: 'hold-name-taken', what: `A state is held under the name “${name}” already.`, mend: 'Give this one another name, or drop that one first.', key: HELD };
}

function tooManyProblem(): Problem {
  return { code: 'hold-too-many', what: `${MOST_HELD} states are held, and a sheet keeps no more.`, mend: 'Drop one of them first.', key: HELD };
}

function goneProblem(name: string): Problem {
  return { code: 'held-gone', what: `No state is held under the name “${name}” any more.`, mend: 'Look at the list as it stands now.', key: HELD };
}
