import { FUNCTIONS } from '../../core/formula/index.ts';
import { ASKS, DRAWINGS, HOLDS, INNER_PARTS, KINDS, type Holds, type KeyEntry, type KnownKind } from '../../sheet/index.ts';

/* What can stand at a place of a cell's own text, from the same description of the language that reads it. */

/** A name that can be put in, and what it is. */
export interface Offer {
  readonly text: string;
  readonly detail: string;
}

/** What of the text before the caret is being typed, and what it may become. */
export interface Offers {
  readonly start: number;
  readonly end: number;
  readonly list: readonly Offer[];
}

/** Names that are offered while somebody types in a text; nothing is chosen until an arrow or a press says so, so that Enter stays Enter. */
export interface Completing extends Offers {
  /** Place in the list; -1 for none yet. */
  readonly chosen: number;
  /** Below the line of the caret, px from the top and the left of the field. */
  readonly top: number;
  readonly left: number;
  /** Above that line, where the window ends below it. */
  readonly isAbove: boolean;
}

/** What the sheet has, by name. */
export interface SheetNames {
  readonly symbols: readonly Offer[];
  readonly instruments: readonly Offer[];
  readonly units: readonly Offer[];
  /** Cells of a kind by their id. */
  readonly ids: (kind: string) => readonly Offer[];
}

/** More would have to be read through. */
const MOST = 8;

interface Line {
  /** Keys around the place, outermost first. */
  readonly path: readonly string[];
  /** The key of the line itself, where its colon is typed. */
  readonly key: string | undefined;
  /** Behind the colon, up to the caret. */
  readonly value: string;
}

/** @param atOnce with nothing typed yet, too */
export function offersAt(text: string, caret: number, kind: string, names: SheetNames, atOnce = false): Offers | undefined {
  if (!Object.hasOwn(KINDS, kind)) return undefined;
  const line = lineAt(text.slice(0, caret));
  const { typed, list } = line.key === undefined ? keysHere(line, kind as KnownKind, text, names) : valuesHere({ ...line, key: line.key }, kind as KnownKind, text, names);
  if (typed === '' && !atOnce) return undefined;
  const lower = typed.toLowerCase();
  const alike = list.filter(({ text: name }) => name.toLowerCase().startsWith(lower));
  // A capital that was typed is meant.
  const fits = typed === lower ? alike : alike.toSorted((a, b) => Number(b.text.startsWith(typed)) - Number(a.text.startsWith(typed)));
  const within = list.filter(({ text: name, detail }) => !name.toLowerCase().startsWith(lower) && typed.length >= 3 && `${name} ${detail}`.toLowerCase().includes(lower));
  // What something is called counts where nothing begins so.
  const found = fits.length > 0 ? fits : within;
  return found.length === 0 || (found.length === 1 && found[0]?.text === typed) ? undefined : { start: caret - typed.length, end: caret, list: found.slice(0, MOST) };
}

const indentOf = (line: string): number => /^ *(?:- +)?/u.exec(line)?.[0].length ?? 0;
const keyOf = (line: string): string | undefined => /^ *(?:- +)?"?([^":#]+?)"?:(?:\s|$)/u.exec(line)?.[1];

function lineAt(before: string): Line {
  const lines = before.split('\n');
  const last = lines.at(-1) ?? '';
  let indent = indentOf(last);
  const path: string[] = [];
  for (const line of lines.slice(0, -1).toReversed()) {
    if (line.trim() === '' || /^ *- /u.test(line) && indentOf(line) >= indent) continue;
    const own = /^ */u.exec(line)?.[0].length ?? 0;
    const key = keyOf(line);
    // An item of a list stands where its dash is.
    if (own >= indent || key === undefined) continue;
    path.unshift(key);
    indent = own;
  }
  const key = keyOf(last);
  return { path, key, value: key === undefined ? last.replace(/^ *(?:- +)?/u, '') : last.slice(last.indexOf(':') + 1) };
}

interface Here {
  readonly typed: string;
  readonly list: readonly Offer[];
}

/** Text that stands under a key of the cell itself. */
function stated(text: string, key: string): string {
  return new RegExp(`^${key}: *(.*)$`, 'mu').exec(text)?.[1]?.trim() ?? '';
}

type Entries = Readonly<Record<string, KeyEntry>>;

/** Keys below which stands what another key of the cell says. */
const BY_SETTING: Readonly<Partial<Record<KnownKind, { readonly below: readonly string[]; readonly setting: string; readonly keys: (word: string) => Entries | undefined }>>> = {
  fit: { below: ['asks'], setting: 'finds', keys: (word) => Object.entries(ASKS).find(([finds]) => finds === word)?.[1].keys },
  figure: { below: ['values', 'givens'], setting: 'drawing', keys: (word) => Object.entries(DRAWINGS).find(([drawings]) => drawings.split(', ').includes(word))?.[1] },
};

/** The keys that may stand below these; undefined where names of another sort do. */
function entriesAt(path: readonly string[], kind: KnownKind, text: string): Entries | undefined {
  const [first, ...more] = path;
  if (first === undefined) return KINDS[kind].keys;
  const bySetting = BY_SETTING[kind];
  if (bySetting?.below.includes(first) === true) return bySetting.keys(stated(text, bySetting.setting));
  const inner = INNER_PARTS[kind]?.find(({ title }) => title.startsWith(`Below \`${first}\``));
  // Each slip has a name of its own before its keys.
  if (first === 'slips') return more.length === 1 ? inner?.keys : undefined;
  return more.length === 0 ? inner?.keys : undefined;
}

/** What a key holds, by the way to it. */
function holdsAt(path: readonly string[], kind: KnownKind): Holds | undefined {
  let holds: Holds | undefined = { keys: HOLDS[kind] as Readonly<Record<string, Holds>> };
  for (const key of path) {
    if (holds === undefined || typeof holds === 'string') return undefined;
    holds = 'keys' in holds ? holds.keys[key] : holds.values;
  }
  return holds;
}

function keysHere({ path, value }: Line, kind: KnownKind, text: string, names: SheetNames): Here {
  const typed = /[A-Za-z_0-9]*$/u.exec(value)?.[0] ?? '';
  if (typed !== value) return { typed: '', list: [] };
  const holds = path.length === 0 ? undefined : holdsAt(path, kind);
  if (typeof holds === 'object' && 'names' in holds) return { typed, list: names.symbols };
  const entries = entriesAt(path, kind, text) ?? {};
  const list = Object.entries(entries).filter(([key]) => path.length > 0 || !new RegExp(`^${key}:`, 'mu').test(text)).map(([key, { means }]) => ({ text: `${key}: `, detail: means }));
  return { typed, list };
}

const INSIDE_VALUE = /\{=([A-Za-z0-9_]*)$/u;

function valuesHere({ path, key, value }: Line & { readonly key: string }, kind: KnownKind, text: string, names: SheetNames): Here {
  const holds = holdsAt([...path, key], kind);
  const told = INSIDE_VALUE.exec(value)?.[1];
  if (told !== undefined) return { typed: told, list: names.symbols };
  if (holds === 'told') return { typed: '', list: [] };
  const word = /(?:^|[^A-Za-z0-9_.])([A-Za-z][A-Za-z0-9_]*)?$/u.exec(value)?.[1] ?? '';
  if (/unit\([^()]*$/u.test(value)) return { typed: word, list: names.units };
  if (holds === 'symbols' && key !== 'symbol') return { typed: word, list: names.symbols };
  if (holds === 'formula' || holds === 'mixed') return { typed: word, list: [...names.symbols, ...FUNCTION_OFFERS] };
  const typed = value.replace(/^\s+/u, '');
  return { typed, list: wordsFor(entriesAt(path, kind, text)?.[key], key, names) };
}

const FUNCTION_OFFERS: readonly Offer[] = [...FUNCTIONS.map(({ name, help }) => ({ text: `${name}(`, detail: help })), { text: 'unit(', detail: 'A quantity: 5*unit(mm).' }];

/** Words that a key takes: instruments and units of the house, ids of the cells that it may name, else those that its description lists. */
function wordsFor(entry: KeyEntry | undefined, key: string, names: SheetNames): readonly Offer[] {
  if (key === 'instrument') return names.instruments;
  if (key === 'unit') return names.units;
  const kind = /\bid of an? (choice|table|fit|check|checklist|picture)\b/u.exec(entry?.takes ?? '')?.[1];
  if (kind !== undefined) return names.ids(kind === 'picture' ? 'photo' : kind);
  return [...(entry?.takes ?? '').matchAll(/`([a-zA-Z][a-z -]*)`/gu)].map(([, word = '']) => ({ text: word, detail: '' }));
}
