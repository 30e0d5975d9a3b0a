import * as v from 'valibot';
import { checkSymbolName } from '../core/formula/index.ts';
import type { BodyProblem } from './body-problem.ts';
import { keyProblem, unknownKeyProblem } from './body-problem.ts';
import { keyMissing, keysOf, lineExample, type KeyOf, type KnownKind, type PlaceInside } from './keys.ts';
import type { Group, Tree } from './tree.ts';

/**
 * The keys of one group, read one by one; what is missing or of the wrong shape is told and left out.
 * `K`: the keys that the reference has for it, so that no other can be read.
 */
export interface Fields<K extends string = string> {
  /** Text under a key; undefined where the key is absent or empty. */
  readonly text: (key: K) => string | undefined;
  /** Text that has to be there; '' where it is missing. */
  readonly required: (key: K) => string;
  /** Text of a certain form; undefined where it is absent or has another form. */
  readonly formed: <T>(key: K, form: v.GenericSchema<string, T>, slip: Slip) => T | undefined;
  /** A group of key and text; undefined where it is absent. Inner entries that are no text are told and left out. */
  readonly mapping: (key: K) => ReadonlyMap<string, string> | undefined;
  /** A group of such groups; undefined where it is absent. */
  readonly mappings: (key: K) => ReadonlyMap<string, ReadonlyMap<string, string>> | undefined;
  /** A list; undefined where it is absent or empty. */
  readonly list: (key: K) => readonly Tree[] | undefined;
  /** Whether a key is absent or has nothing behind it. */
  readonly isEmpty: (key: K) => boolean;
  /** A warning for each key of the group that is not among the known ones. `place` says where the group stands: `option 2`. */
  readonly unknown: (place?: string) => readonly BodyProblem[];
  /** The same for a group below a key, or for one below a name in it: what it may hold, and where it stands. */
  readonly unknownBelow: (path: readonly [key: K, name?: string], known: readonly string[], place: string) => readonly BodyProblem[];
  /** Whether a text can be a symbol; told at the key where it can not. */
  readonly isSymbol: (key: K, typed: string) => boolean;
  /** Tells that a key is missing: what to add, and in which words where they are not the usual ones. */
  readonly missing: (key: K, mend: string, what?: string) => void;
  /** Tells that an item below a key has the wrong shape. */
  readonly wrongItem: (key: K, what: string, mend: string) => void;
  /** Tells a problem with a key of this group. */
  readonly tell: (code: string, key: K, what: string, mend: string) => void;
}

/** Problem of text that has not the form its key asks for. */
export type Slip = (typed: string) => { readonly code: string; readonly what: string; readonly mend: string };

const SHAPES = { text: 'text', list: 'a list', group: 'a group of keys' } as const;

/**
 * @param owner what the group is in a sentence, and the part of the reference that it is read by: `given`, `option`.
 * @param outer key of the cell that the group stands under, where it is an inner one.
 */
export function fieldsOf<K extends KnownKind | PlaceInside>(group: Group, owner: K, problems: BodyProblem[], outer?: string): Fields<KeyOf<K>> {
  return anyFieldsOf(group, owner, problems, outer);
}

/** What is told of the keys of one group, each thing once. */
function tellerOf(group: Group, owner: string, problems: BodyProblem[], outer: string | undefined) {
  // A key whose writing is broken is told once: what it holds would only be told wrongly.
  const broken = new Set(problems.filter(({ tellsLine }) => tellsLine).map(({ key }) => key));
  const tell = (code: string, key: string, row: number, what: string, mend: string): void => {
    if (broken.has(outer ?? key)) return;
    problems.push(keyProblem(code, row, what, mend, outer ?? key));
  };
  // A key that is absent is missed on the line that opens the cell, or on the first line of the inner group.
  const rowOf = (key: string): number => group.entries.get(key)?.row ?? (outer === undefined ? -1 : group.row);
  const shape = (key: string, row: number, what: string, mend: string): void => tell('wrong-shape', key, row, what, mend);
  const missing = (key: string, mend: string, what = keyMissing(owner, key)): void => tell('key-missing', key, rowOf(key), what, mend);
  const told = new Set<string>();
  const wrongShape = (key: string, found: Tree, wanted: keyof typeof SHAPES): void => {
    if (told.has(key)) return;
    told.add(key);
    const example = lineExample(owner, key);
    const what = `\`${key}\` takes ${SHAPES[wanted]}, not ${SHAPES[found.kind]}.`;
    shape(key, found.row, what, shapeMend(key, wanted, example));
  };
  return { tell, rowOf, shape, missing, wrongShape };
}

/** The same where the owner is known only now, or is nothing that the reference knows. Its ways to read a key share the group: hence one long function. */
export function anyFieldsOf(group: Group, owner: string, problems: BodyProblem[], outer?: string): Fields {
  const { tell, rowOf, shape, missing, wrongShape } = tellerOf(group, owner, problems, outer);
  const filled = (key: string): Tree | undefined => {
    const found = group.entries.get(key);
    return found === undefined || (found.kind === 'text' && found.text === '') ? undefined : found;
  };
  const text = (key: string): string | undefined => {
    const found = filled(key);
    if (found === undefined || found.kind === 'text') return found?.text;
    wrongShape(key, found, 'text');
    return undefined;
  };
  const inner = (key: string): Group | undefined => {
    const found = filled(key);
    if (found === undefined || found.kind === 'group') return found;
    wrongShape(key, found, 'group');
    return undefined;
  };
  const texts = (key: string, { entries }: Group): ReadonlyMap<string, string> => {
    const pairs = [...entries].flatMap(([name, tree]): [string, string][] => {
      if (tree.kind === 'text') return [[name, tree.text]];
      const what = `\`${name}\` takes text, not ${SHAPES[tree.kind]}.`;
      shape(key, tree.row, what, 'Write its value on one line.');
      return [];
    });
    return new Map(pairs);
  };
  return {
    text,
    required(key) {
      if (filled(key) === undefined) {
        const example = lineExample(owner, key) ?? `${key}: ...`;
        missing(key, `Add a line such as \`${example}\`.`);
      }
      return text(key) ?? '';
    },
    formed(key, form, slip) {
      const typed = text(key);
      if (typed === undefined) return undefined;
      const result = v.safeParse(form, typed);
      if (result.success) return result.output;
      const { code, what, mend } = slip(typed);
      tell(code, key, rowOf(key), what, mend);
      return undefined;
    },
    mapping(key) {
      const found = inner(key);
      return found === undefined ? undefined : texts(key, found);
    },
    mappings(key) {
      const found = inner(key);
      if (found === undefined) return undefined;
      const groups = [...found.entries].flatMap(([name, tree]): [string, ReadonlyMap<string, string>][] => {
        if (tree.kind === 'group') return [[name, texts(key, tree)]];
        const what = `\`${name}\` takes ${SHAPES.group}, not ${SHAPES[tree.kind]}.`;
        shape(key, tree.row, what, shapeMend(name, 'group', undefined));
        return [];
      });
      return new Map(groups);
    },
    list(key) {
      const found = filled(key);
      if (found === undefined) return undefined;
      if (found.kind === 'list') return found.items;
      wrongShape(key, found, 'list');
      return undefined;
    },
    isEmpty: (key) => filled(key) === undefined,
    unknown: (place) => unknownIn(group, keysOf(owner), place),
    unknownBelow([key, name], known, place) {
      const below = group.entries.get(key);
      const found = below?.kind === 'group' && name !== undefined ? below.entries.get(name) : below;
      return found?.kind === 'group' ? unknownIn(found, known, place) : [];
    },
    isSymbol(key, typed) {
      const checked = checkSymbolName(typed);
      if (!checked.ok) tell('symbol-malformed', key, rowOf(key), checked.problem.what, checked.problem.mend);
      return checked.ok;
    },
    missing,
    wrongItem: (key, what, mend) => shape(key, rowOf(key), what, mend),
    tell: (code, key, what, mend) => tell(code, key, rowOf(key), what, mend),
  };
}

function unknownIn({ entries }: Group, known: readonly string[], place?: string): readonly BodyProblem[] {
  return [...entries].filter(([key]) => !known.includes(key)).map(([key, { row }]) => unknownKeyProblem(key, known, row, place));
}

function shapeMend(key: string, wanted: keyof typeof SHAPES, example: string | undefined): string {
  if (wanted === 'list') return `Below \`${key}:\`, begin each item on a line of its own with a hyphen and a blank.`;
  if (wanted === 'group') {
    return `Below \`${key}:\`, write lines such as \`${example ?? 'name: value'}\`, indented by two blanks.`;
  }
  return example === undefined ? `Write it on one line: \`${key}: ...\`.` : `Write it on one line, such as \`${example}\`.`;
}

export const TRUTH = v.pipe(v.picklist(['true', 'false']), v.transform((word) => word === 'true'));

export const truthSlip = (key: string): Slip => (typed) => ({
  code: 'not-true-or-false',
  what: `\`${key}\` is either true or false, not \`${typed}\`.`,
  mend: `Write \`${key}: true\` or \`${key}: false\`, or delete the line.`,
});

/** The fields without those that are undefined. */
export function present<T extends object>(fields: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };
}
