import * as v from 'valibot';
import { differencesOf, entriesOf, isCalled, readMaterial, type OwnMaterial } from '../graph/index.ts';
import type { MaterialShelf } from '../view/index.ts';

const KEY = 'spanlife-materials';
/** So many that a list to choose from can still be gone through. */
const MOST = 200;

const RECORD = v.object({ source: v.string(), entries: v.record(v.string(), v.string()) });

/** In the small synchronous storage, which all sheets of this browser share. What is no material there is passed over and left as it is. */
export function createMaterialShelf(storage: () => Pick<Storage, 'getItem' | 'setItem'>): MaterialShelf {
  const records = (): readonly unknown[] => {
    try {
      const read: unknown = JSON.parse(storage().getItem(KEY) ?? '[]');
      return Array.isArray(read) ? read : [];
    } catch {
      return [];
    }
  };
  const write = (list: readonly unknown[]): boolean => {
    try {
      storage().setItem(KEY, JSON.stringify(list));
      return true;
    } catch {
      return false;
    }
  };
  const without = (name: string): readonly unknown[] => records().filter((record) => {
    const material = asMaterial(record);
    return material === undefined || !isCalled(name, material);
  });
  const all = (): readonly OwnMaterial[] => records().flatMap((record) => asMaterial(record) ?? [])
    .filter((one, place, list) => list.findIndex((other) => isCalled(one.name, other)) === place)
    .sort((a, b) => a.name.localeCompare(b.name));
  return {
    all,
    keep: (material, instead = false) => {
      const there = all().find((one) => isCalled(material.name, one));
      if (there !== undefined && differencesOf(material, there).length === 0) return true;
      if ((there !== undefined && !instead) || (there === undefined && all().length >= MOST)) return false;
      return write([...without(material.name), { source: material.source, entries: Object.fromEntries(entriesOf(material)) }]);
    },
    drop: (name) => write(without(name)),
  };
}

function asMaterial(record: unknown): OwnMaterial | undefined {
  const read = v.safeParse(RECORD, record);
  return read.success ? readMaterial(new Map(Object.entries(read.output.entries)), read.output.source) : undefined;
}
