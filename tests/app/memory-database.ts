/** A database of records in memory: what is written there by whom, and what goes wrong, is for the test to say. */
import type { KeptSheet } from '../../src/app/kept-sheet.ts';
import type { RecordDatabase } from '../../src/app/shelf-database.ts';

export interface MemoryDatabase<Written> {
  readonly database: RecordDatabase<Written>;
  readonly records: Map<string, unknown>;
  readonly trouble: { refuse: Error | undefined };
}

/** @param delay ms that a change takes */
export function memoryDatabase<Written extends { readonly id: string } = KeptSheet>(delay = 0): MemoryDatabase<Written> {
  const records = new Map<string, unknown>();
  const trouble: MemoryDatabase<Written>['trouble'] = { refuse: undefined };
  const allowed = (): void => {
    if (trouble.refuse !== undefined) throw trouble.refuse;
  };
  const database: RecordDatabase<Written> = {
    all: async () => {
      allowed();
      return [...records].map(([key, value]) => ({ key, value }));
    },
    keys: async () => {
      allowed();
      return [...records.keys()];
    },
    get: async (key) => {
      allowed();
      return records.get(key);
    },
    change: async (key, decide) => {
      allowed();
      if (delay > 0) await new Promise((done) => setTimeout(done, delay));
      const { put, answer } = decide(records.get(key));
      if (put !== undefined) records.set(key, put);
      return answer;
    },
    remove: async (key) => {
      allowed();
      records.delete(key);
    },
    putBack: async (key, value) => {
      allowed();
      if (!records.has(key)) records.set(key, value);
    },
    close: () => undefined,
  };
  return { database, records, trouble };
}
