import { composed, fail } from '../core/problem/index.ts';
import {
  classCsv, createGatherer, DEFAULT_SCHEME, NOTHING_GATHERED, readScheme, sheetsShown, titlesIn, writtenScheme, type Gathered, type Look, type MarkingScheme, type ReadFile, type ReturnedSheet,
} from '../returns/index.ts';
import { faultWords, fileName, saveFile } from '../view/index.ts';
import { heldText } from './bring-in.ts';
import type { CollectActions, CollectState } from './collect-types.ts';
import { alteredWords } from './fingerprint.ts';

interface CollectDesk extends CollectActions {
  readonly shown: () => CollectState;
}

interface CollectOptions {
  /** What is shown has changed. */
  readonly show: () => void;
  /** Shows the panel, once there is something to see in it. */
  readonly unfold: () => void;
  readonly openAsSheet: (text: string) => void;
  /** What wrong results come of could not be looked for. */
  readonly failed: (error: unknown) => void;
  /** Where the marking scheme of a sheet is kept; reading it may throw where the browser keeps nothing. */
  readonly memory: () => Pick<Storage, 'getItem' | 'setItem'>;
}

/** Longest stretch of work between two looks at what the reader does, ms. */
const SLICE = 30;
/** Between two drawings of a table that gets its explanations, ms. */
const EXPLAINED = 500;
/** Between two words about how far it is, ms. */
const PROGRESS = 200;
const SCHEMES = 'spanlife-marking';
/** Schemes of so many sheets are remembered. */
const MOST_SCHEMES = 20;

const FIRST_LOOK: Look = { find: '', only: 'all', by: 'team', isDown: false };
const EMPTY: CollectState = { gathered: NOTHING_GATHERED, title: '', view: 'answers', look: FIRST_LOOK, scheme: DEFAULT_SCHEME };

/** Returned files read as data, one after the other, and what is looked at of them. Nothing of it is kept in the browser but the marking scheme. */
export function createCollectDesk({ show, unfold, openAsSheet, failed, memory }: CollectOptions): CollectDesk {
  let state = EMPTY;
  let gatherer = createGatherer();
  const waiting: File[] = [];
  let wish = 0;
  const change = (more: Partial<CollectState>): void => {
    state = { ...state, ...more };
    show();
  };
  const mark = (scheme: MarkingScheme): void => {
    keepScheme(memory, state.title, scheme);
    change({ scheme });
  };

  async function read(ours: number): Promise<void> {
    let [begun, told, done] = [performance.now(), 0, 0];
    let { gathered } = state;
    for (let file = waiting[0]; file !== undefined; file = waiting[0]) {
      const one = await readFile(file);
      if (ours !== wish) return;
      waiting.shift();
      gathered = gatheredWith(one);
      done += 1;
      if (performance.now() - told > PROGRESS) {
        told = performance.now();
        change({ reading: { done, all: done + waiting.length } });
      }
      if (performance.now() - begun > SLICE) {
        await new Promise((next) => setTimeout(next));
        begun = performance.now();
      }
    }
    const { reading: _over, ...rest } = state;
    const title = rest.gathered.sheets.length > 0 ? rest.title : (titlesIn(gathered.sheets)[0] ?? '');
    state = { ...rest, gathered, title, scheme: schemeOf(memory, title) };
    show();
    await explainAll(ours);
  }

  /** The table stands already, and what wrong results come of follows. */
  async function explainAll(ours: number): Promise<void> {
    let begun = performance.now();
    let told = begun;
    for (let next = explained(); next !== undefined && ours === wish; next = explained()) {
      state = { ...state, gathered: next };
      if (performance.now() - begun < SLICE) continue;
      if (performance.now() - told > EXPLAINED) {
        told = performance.now();
        show();
      }
      await new Promise((go) => setTimeout(go));
      begun = performance.now();
      // More files came in meanwhile: theirs are explained after them.
      if (waiting.length > 0) return;
    }
    if (ours === wish) show();
  }

  function explained(): Gathered | undefined {
    try {
      return gatherer.explainNext();
    } catch (error) {
      // The verdict stands without an explanation.
      failed(error);
      return state.gathered;
    }
  }

  /** A fault of ours at one file leaves the others alone, and is told at that file. */
  function gatheredWith(file: ReadFile): Gathered {
    try {
      return gatherer.take(file);
    } catch (error) {
      return gatherer.take({ name: file.name, isAltered: false, text: fail({ code: 'returned-fault', what: `The page could not read it (${faultWords(error)}).`, mend: 'Bring it in as a sheet of its own to look at it.' }) });
    }
  }

  return {
    shown: () => state,
    take: (files) => {
      if (files.length === 0) return;
      const isAtWork = waiting.length > 0;
      waiting.push(...files);
      change({ reading: { done: 0, all: waiting.length } });
      unfold();
      if (!isAtWork) void read(wish);
    },
    chooseTitle: (title) => change({ title, scheme: schemeOf(memory, title), look: FIRST_LOOK }),
    chooseView: (view) => change({ view }),
    look: (more) => change({ look: { ...state.look, ...more } }),
    sortBy: (by) => change({ look: { ...state.look, by, isDown: state.look.by === by && !state.look.isDown } }),
    setPoints: (symbol, points) => mark({ ...state.scheme, points: new Map([...state.scheme.points, [symbol, points]]) }),
    setShare: (of, share) => mark({ ...state.scheme, [of]: share }),
    lay: (id) => {
      const { beside: _before, ...rest } = state;
      state = id === undefined ? rest : { ...rest, beside: id };
      show();
    },
    openAsSheet: (id) => {
      const sheet = state.gathered.sheets.find((one) => one.id === id);
      if (sheet !== undefined) openAsSheet(sheet.text);
    },
    takeTable: () => saveFile(fileName(['class', state.title], 'csv'), classCsv(shownSheets(state), state.scheme), 'text/csv;charset=utf-8'),
    clear: () => {
      wish += 1;
      waiting.length = 0;
      gatherer = createGatherer();
      state = EMPTY;
      show();
    },
  };
}

/** The sheets of the table, in its order. */
export function shownSheets({ gathered, title, look, scheme }: CollectState): readonly ReturnedSheet[] {
  return sheetsShown(gathered.sheets.filter(({ head }) => head.title === title), look, scheme);
}

async function readFile(file: File): Promise<ReadFile> {
  const { text, stated } = await heldText(file);
  return { name: file.name, text, isAltered: text.ok && (await alteredWords(text.value, stated)) !== undefined };
}

function schemesIn(memory: CollectOptions['memory']): readonly (readonly [string, unknown])[] {
  try {
    const stored: unknown = JSON.parse(memory().getItem(SCHEMES) ?? '[]');
    return Array.isArray(stored) ? stored.filter((one): one is [string, unknown] => Array.isArray(one) && typeof one[0] === 'string') : [];
  } catch {
    // What can't be read is none: points are one for each step then.
    return [];
  }
}

function schemeOf(memory: CollectOptions['memory'], title: string): MarkingScheme {
  return readScheme(schemesIn(memory).find(([one]) => one === title)?.[1]);
}

function keepScheme(memory: CollectOptions['memory'], title: string, scheme: MarkingScheme): void {
  const others = schemesIn(memory).filter(([one]) => one !== title);
  try {
    memory().setItem(SCHEMES, JSON.stringify([[title, writtenScheme(scheme)], ...others].slice(0, MOST_SCHEMES)));
  } catch {
    // A browser that keeps nothing has the scheme as long as the page is open.
  }
}

/** What came, in a sentence: `30 files: 28 sheets; one came twice; one can’t be read.` */
export function gatheredWords({ gathered: { sheets, refused, again }, reading }: CollectState): string {
  if (reading !== undefined) return `${reading.done} of ${reading.all} files read.`;
  const parts = [
    sheets.length === 1 ? 'One sheet' : `${sheets.length} sheets`,
    ...(again === 0 ? [] : [again === 1 ? 'one file held a sheet that another one had brought already, and is counted once' : `${again} files held sheets that others had brought already, and are counted once`]),
    ...(refused.length === 0 ? [] : [refused.length === 1 ? 'one file could not be read' : `${refused.length} files could not be read`]),
  ];
  return composed`${parts.join('; ')}.`;
}
