/**
 * What readers and edits have to know of keys: which there are, in which order a new one is written, a line to show. All of it is the reference's.
 */
import { RECORD_FORM } from './reference/bench.ts';
import { ASKS, INSIDE, KINDS, type KnownKind } from './reference/parts.ts';
import { DRAWINGS } from './reference/pictures.ts';
import type { Keys } from './reference/types.ts';

export type { KeyOf, KnownKind, PlaceInside } from './reference/parts.ts';

/** What a record says in one text each, in the order of the form. */
export const RECORD_TEXTS = Object.keys(RECORD_FORM) as readonly (keyof typeof RECORD_FORM)[];
/** Symbols of the prediction that a record asks for, and that it hands on as they were at the start. */
const PREDICTED: readonly string[] = ['life', 'low', 'high', 'log_life', 'breaks', 'u', 's', 'stress'];
export const RECORD_WATCHES: readonly string[] = ['speed', ...PREDICTED];
export const RECORD_SYMBOLS: readonly string[] = ['cycles', 'hours', ...PREDICTED];
export const RECORD_FILLS: readonly string[] = ['cycles', 'place'];

/** Whether a fence with this info string is a cell of a kind that the sheet reads, and no program text in the prose. */
export function isKnownKind(kind: string): kind is KnownKind {
  return Object.hasOwn(KINDS, kind);
}

export const KNOWN_KINDS = Object.keys(KINDS) as readonly KnownKind[];

/** Known keys of a kind, or of what stands inside one: `option`, `column`; none for what is not known. */
export function keysOf(owner: string): readonly string[] {
  return Object.keys(partOf(owner));
}

/** What can be asked of what a fit finds; a line is asked nothing. */
export function asksOf(finds: string): readonly string[] {
  return Object.hasOwn(ASKS, finds) ? Object.keys(ASKS[finds as keyof typeof ASKS].keys) : [];
}

/** The parts that a drawing may show under `values`; undefined for one that shows none by name. */
export function partsOfDrawing(drawing: string): readonly string[] | undefined {
  const found = Object.entries(DRAWINGS).find(([names]) => names.split(', ').includes(drawing));
  return found && Object.keys(found[1]);
}

/** A line shown where a key is missing or of the wrong shape; `owner` is a kind or what stands inside one. */
export function lineExample(owner: string, key: string): string | undefined {
  const keys = partOf(owner);
  return Object.hasOwn(keys, key) ? keys[key]?.example : undefined;
}

/** What is said where a key has to be there and is not. */
export function keyMissing(owner: string, key: string): string {
  return `This ${owner} has no \`${key}\` yet.`;
}

function partOf(owner: string): Keys {
  if (isKnownKind(owner)) return KINDS[owner].keys;
  return Object.hasOwn(INSIDE, owner) ? INSIDE[owner as keyof typeof INSIDE].keys : {};
}
