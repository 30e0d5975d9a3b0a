import * as v from 'valibot';
import { runningTests } from '../report/index.ts';
import { isOwnWorking, parseSheet, type SheetDocument } from '../sheet/index.ts';
import type { TestElsewhere } from '../view/index.ts';
import type { KeptSheet } from './kept-sheet.ts';
import type { ShelfStore } from './shelf-store.ts';

const KEY = 'spanlife-running';
/** Sheets in which a test runs, of which it is remembered; those begun longest ago give way. */
const MOST_SHEETS = 12;

/** Which kept sheets have a test that runs: only these are read when another sheet lies open. */
interface RunningMemory {
  readonly ids: () => readonly string[];
  readonly note: (id: string, runs: boolean) => void;
}

const IDS = v.array(v.string());

/** Where the browser keeps nothing, or something else wrote there, nothing is remembered. */
export function createRunningMemory(storage: () => Pick<Storage, 'getItem' | 'setItem'>): RunningMemory {
  const ids = (): readonly string[] => {
    try {
      const read = v.safeParse(IDS, JSON.parse(storage().getItem(KEY) ?? '[]'));
      return read.success ? read.output : [];
    } catch {
      return [];
    }
  };
  return {
    ids,
    note: (id, runs) => {
      const before = ids();
      if (before.includes(id) === runs) return;
      const after = runs ? [...before, id].slice(-MOST_SHEETS) : before.filter((other) => other !== id);
      try {
        storage().setItem(KEY, JSON.stringify(after));
      } catch {
        // The strip on other sheets is then missing; on its own sheet the test is told all the same.
      }
    },
  };
}

/** What is known of a kept sheet: its team, and the tests that run in it. */
interface Read {
  readonly revision: number;
  readonly team: string;
  readonly tests: readonly TestElsewhere[];
}

export interface ElsewhereDesk {
  readonly tests: () => readonly TestElsewhere[];
  /** The open sheet was laid open or kept: what runs in it is remembered. */
  readonly keptHere: () => void;
  /** Another window has kept a sheet. */
  readonly keptThere: (id: string) => void;
  /** Reads the sheets in which a test runs. */
  readonly look: () => Promise<void>;
}

interface ElsewhereOptions {
  readonly store: Pick<ShelfStore, 'read'>;
  readonly memory: RunningMemory;
  /** The open sheet and the id under which it is kept; undefined as long as it is kept nowhere. */
  readonly here: () => { readonly id: string | undefined; readonly document: SheetDocument } | undefined;
  /** What runs elsewhere is other than before. */
  readonly changed: () => void;
}

/** Tests that run on other sheets of the team whose sheet lies open; what counts is what those sheets say as they are kept. */
export function createElsewhere({ store, memory, here, changed }: ElsewhereOptions): ElsewhereDesk {
  const known = new Map<string, Read>();
  let shown: readonly TestElsewhere[] = [];
  const look = async (): Promise<void> => {
    const ids = memory.ids().filter((id) => id !== here()?.id);
    for (const id of ids) await readOne(id, known, store, memory);
    const open = here();
    const found = open === undefined ? [] : ids.filter((id) => id !== open.id).flatMap((id) => testsFor(teamOf(open.document), known.get(id)));
    const isSame = found.length === shown.length && found.every((test, i) => test === shown[i]);
    shown = found;
    if (!isSame) changed();
  };
  // A store that refuses leaves what was known.
  const lookQuietly = (): Promise<void> => look().catch(() => undefined);
  return {
    tests: () => shown,
    keptHere: () => {
      const open = here();
      if (open?.id !== undefined) memory.note(open.id, runningTests(open.document).length > 0);
      void lookQuietly();
    },
    keptThere: (id) => {
      if (known.has(id) || memory.ids().includes(id)) void lookQuietly();
    },
    look: lookQuietly,
  };
}

async function readOne(id: string, known: Map<string, Read>, store: Pick<ShelfStore, 'read'>, memory: RunningMemory): Promise<void> {
  const sheet = await store.read(id);
  const read = sheet === undefined ? undefined : known.get(id)?.revision === sheet.revision ? known.get(id) : readSheet(sheet);
  if (read === undefined || read.tests.length === 0) {
    // Ended, or deleted.
    memory.note(id, false);
    known.delete(id);
  } else known.set(id, read);
}

function readSheet({ id, title, text, revision }: KeptSheet): Read {
  const document = parseSheet(text);
  const isWithheld = isOwnWorking(document) || document.blocks.some((block) => block.kind === 'cell' && 'asked' in block.cell && block.cell.asked === true);
  return {
    revision,
    team: teamOf(document),
    tests: runningTests(document).map((cell) => ({ sheetId: id, title: document.frontMatter.entries.get('specimen')?.trim() || title, cell, isWithheld })),
  };
}

/** A sheet on which no team is named is anybody's. */
function testsFor(team: string, read: Read | undefined): readonly TestElsewhere[] {
  return read === undefined || (team !== '' && read.team !== '' && team !== read.team) ? [] : read.tests;
}

function teamOf({ frontMatter }: SheetDocument): string {
  return frontMatter.entries.get('team')?.trim() ?? '';
}
