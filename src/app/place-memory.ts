import * as v from 'valibot';
import type { PlaceMemory, ReadingPlace } from '../view/index.ts';

const KEY = 'spanlife-places';
/** Sheets of which the place is remembered; those looked at longest ago give way. */
const MOST_SHEETS = 60;

const KEPT = v.record(v.string(), v.object({ blocks: v.array(v.string()), offset: v.number() }));

/**
 * Remembers where a reader was in a sheet; of one that is kept nowhere yet as long as the window is there, by what it holds.
 * @param kept id under which the sheet is kept; undefined until it is
 */
export function createPlaceMemory(kept: () => string | undefined, text: string): PlaceMemory {
  const where = (): readonly [Storage, string] => {
    const id = kept();
    return id === undefined ? [sessionStorage, `text ${lettersOf(text)}`] : [localStorage, id];
  };
  return {
    read: () => attempt(() => {
      const [storage, name] = where();
      return readAll(storage)[name];
    }),
    write: (place) => void attempt(() => {
      const [storage, name] = where();
      storage.setItem(KEY, JSON.stringify(withPlace(readAll(storage), name, place)));
    }),
  };
}

/** Where the reader is to be in a kept sheet when it is opened next. */
export function rememberPlace(id: string, place: ReadingPlace): void {
  attempt(() => localStorage.setItem(KEY, JSON.stringify(withPlace(readAll(localStorage), id, place))));
}

type Places = Readonly<Record<string, ReadingPlace>>;

function withPlace(all: Places, name: string, place: ReadingPlace | undefined): Places {
  const others = Object.entries(all).filter(([other]) => other !== name).slice(-(MOST_SHEETS - 1));
  return Object.fromEntries([...others, ...(place === undefined ? [] : [[name, place] as const])]);
}

function readAll(storage: Storage): Places {
  const read = v.safeParse(KEPT, JSON.parse(storage.getItem(KEY) ?? '{}'));
  return read.success ? read.output : {};
}

/** Where the browser keeps nothing, or something else wrote there, nothing is remembered. */
function attempt<T>(work: () => T): T | undefined {
  try {
    return work();
  } catch {
    return undefined;
  }
}

/** Tells texts apart well enough for a place: FNV-1a, 32 bits. */
function lettersOf(text: string): string {
  let sum = 2166136261;
  for (let i = 0; i < text.length; i += 1) sum = Math.imul(sum ^ text.charCodeAt(i), 16777619);
  return (sum >>> 0).toString(36);
}
