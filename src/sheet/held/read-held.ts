import { didYouMean } from '../../core/problem/index.ts';
import type { BodyProblem } from '../body-problem.ts';
import { keyProblem } from '../body-problem.ts';
import type { Origin } from '../cell-base.ts';
import type { HeldState } from '../held-types.ts';
import { ORIGINS } from '../origin.ts';
import type { Group, Tree } from '../tree.ts';

/** Key of the front matter under which held states stand, a list of groups. */
export const HELD = 'held';
/** Key of the front matter that names the held state which the sheet is compared with. */
export const REFERENCE = 'held_reference';

/** More held states than any class has; each is a sheet to be worked out, and a damaged file may list any number. */
export const MOST_HELD = 1000;
export const LONGEST_NAME = 60;
/** Longest rows of a table that are held, in characters: some two hundred specimens. */
export const LONGEST_ROWS = 10_000;
const MOST_INPUTS = 1000;
const KEYS: readonly string[] = ['name', 'at', 'inputs', 'rows', 'origins'];

/** The held states of a document; what can't be used is told and left out. */
export function readHeld(tree: Tree, problems: BodyProblem[]): readonly HeldState[] {
  if (tree.kind === 'text' && tree.text === '') return [];
  if (tree.kind !== 'list') {
    problems.push(heldProblem('held-no-list', tree.row, '`held` is no list of held states.', 'Below `held:`, begin each with a hyphen and `name:`.'));
    return [];
  }
  const states = new Map<string, HeldState>();
  for (const item of tree.items) {
    if (states.size === MOST_HELD) {
      problems.push(heldProblem('held-too-many', item.row, `More than ${MOST_HELD} states are held.`, 'Those that follow are kept in the file and not shown. Drop some.'));
      break;
    }
    const state = readState(item, problems);
    if (state === undefined) continue;
    if (!states.has(state.name)) states.set(state.name, state);
    else problems.push(heldProblem('held-name-twice', item.row, `Two held states are called “${state.name}”.`, 'Give one of them another name; the first one counts.'));
  }
  return [...states.values()];
}

function readState(item: Tree, problems: BodyProblem[]): HeldState | undefined {
  const group = item.kind === 'group' ? item : undefined;
  const name = nameIn(group);
  if (group === undefined || name === '') {
    problems.push(heldProblem('held-no-name', item.row, 'A held state has no name.', 'Add a line such as `name: first try`.'));
    return undefined;
  }
  if (name.length > LONGEST_NAME) {
    problems.push(heldProblem('held-name-long', item.row, `The name “${name.slice(0, LONGEST_NAME)}…” of a held state is too long.`, `Keep it to ${LONGEST_NAME} letters.`));
    return undefined;
  }
  for (const key of [...group.entries.keys()].filter((one) => !KEYS.includes(one))) {
    problems.push(heldProblem('held-key-unknown', item.row, `“${key}” of the held state “${name}” is not understood here.`, `${didYouMean(key, KEYS)}It is kept in the file as it is.`));
  }
  const at = group.entries.get('at');
  const [rows, origins] = [group.entries.get('rows'), group.entries.get('origins')];
  return {
    name,
    ...(at?.kind === 'text' && at.text !== '' ? { at: at.text } : {}),
    inputs: inputsIn(group.entries.get('inputs'), name, problems),
    ...(rows === undefined ? {} : { rows: rowsIn(rows, name, problems) }),
    ...(origins === undefined ? {} : { origins: originsIn(origins, name, problems) }),
  };
}

/** The name that an item of the list has, as it is compared: without blanks around it. */
export function nameIn(group: Group | undefined): string {
  const name = group?.entries.get('name');
  return name?.kind === 'text' ? name.text.trim() : '';
}

function inputsIn(tree: Tree | undefined, name: string, problems: BodyProblem[]): ReadonlyMap<string, string> {
  if (tree?.kind === 'group') {
    const texts = [...tree.entries].flatMap(([symbol, value]) => (value.kind === 'text' ? [[symbol, value.text] as const] : []));
    if (texts.length < tree.entries.size || texts.length > MOST_INPUTS) {
      const mend = `Write each as text on one line, ${MOST_INPUTS} at most; the others are kept in the file as they are.`;
      problems.push(heldProblem('held-inputs', tree.row, `Not all inputs of the held state “${name}” can be read.`, mend));
    }
    return new Map(texts.slice(0, MOST_INPUTS));
  }
  if (tree !== undefined && (tree.kind !== 'text' || tree.text !== '')) {
    problems.push(heldProblem('held-inputs', tree.row, `The inputs of the held state “${name}” can’t be read.`, 'Below `inputs:`, write lines such as `d: 6.31 mm`.'));
  }
  return new Map();
}

function rowsIn(tree: Tree, name: string, problems: BodyProblem[]): ReadonlyMap<string, string> {
  if (tree.kind === 'text' && tree.text === '') return new Map();
  const all = tree.kind === 'group' ? [...tree.entries] : [];
  const rows = all.flatMap(([id, value]) => (value.kind === 'text' && value.text.length <= LONGEST_ROWS ? [[id, value.text] as const] : []));
  if (tree.kind !== 'group' || rows.length < all.length) {
    const mend = `Below \`rows:\`, write each table’s id and its rows as text, ${LONGEST_ROWS} characters at most.`;
    problems.push(heldProblem('held-rows', tree.row, `Not all rows of tables in the held state “${name}” can be read.`, mend));
  }
  return new Map(rows);
}

function originsIn(tree: Tree, name: string, problems: BodyProblem[]): ReadonlyMap<string, Origin> {
  const all = tree.kind === 'group' ? [...tree.entries] : [];
  const origins = all.flatMap(([target, value]) => {
    const origin = ORIGINS.find((one) => value.kind === 'text' && value.text === one);
    return origin === undefined ? [] : [[target, origin] as const];
  });
  if (tree.kind !== 'group' || origins.length < all.length) {
    problems.push(heldProblem('held-origins', tree.row, `Not all origins in the held state “${name}” can be read.`, 'Below `origins:`, write lines such as `g: assumed` or `d: example`.'));
  }
  return new Map(origins);
}

function heldProblem(code: string, row: number, what: string, mend: string): BodyProblem {
  return keyProblem(code, row, what, mend, HELD);
}
