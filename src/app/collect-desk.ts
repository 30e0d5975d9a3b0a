import { composed } from '../core/problem/index.ts';
import {
  classCsv, DEFAULT_SCHEME, feedbackFor, nameOf, NONE_BY_HAND, NOTHING_GATHERED, poolCsv, pooled, sheetsShown, titlesIn, type Gathered, type Look, type MarkingScheme, type ReturnedSheet,
} from '../returns/index.ts';
import { fileName, partWords, saveFile } from '../view/index.ts';
import { archived } from './archive.ts';
import { pooledWords, type PoolPlaces } from './collect-line.ts';
import { createCollectReader } from './collect-reader.ts';
import type { CollectActions, CollectState } from './collect-types.ts';
import { keepScheme, schemeOf, type MarkingMemory } from './marking-memory.ts';

interface CollectDesk extends CollectActions {
  readonly shown: () => CollectState;
}

export interface CollectOptions {
  /** What is shown has changed. */
  readonly show: () => void;
  /** Shows the panel, once there is something to see in it. */
  readonly unfold: () => void;
  /** Brings the sheet beside the table into view: on a telephone it stands above it. */
  readonly bringBeside: () => void;
  /** It is closed: the focus goes back to where it was opened. */
  readonly backToTeam: (id: string) => void;
  readonly openAsSheet: (text: string) => void;
  readonly now: () => Date;
  readonly places: PoolPlaces;
  /** What wrong results come of could not be looked for. */
  readonly failed: (error: unknown) => void;
  readonly memory: MarkingMemory;
}

const FIRST_LOOK: Look = { find: '', only: 'all', by: 'team', isDown: false };
const EMPTY: CollectState = { gathered: NOTHING_GATHERED, title: '', view: 'answers', look: FIRST_LOOK, scheme: DEFAULT_SCHEME, byHand: NONE_BY_HAND, tellsResults: false, said: '' };

/** Returned files read as data, and what is looked at of them. Nothing of it is kept in the browser but the marking scheme. */
export function createCollectDesk({ show, unfold, bringBeside, backToTeam, openAsSheet, now, places, failed, memory }: CollectOptions): CollectDesk {
  let state = EMPTY;
  const change = (more: Partial<CollectState>): void => {
    state = { ...state, ...more };
    show();
  };
  const mark = (scheme: MarkingScheme): void => {
    keepScheme(memory, state.title, scheme);
    change({ scheme });
  };
  const reader = createCollectReader({
    progress: (done, all) => change({ reading: { done, all } }),
    read: (gathered) => {
      state = readIn(state, gathered, memory);
      show();
    },
    explained: (gathered) => change({ gathered }),
    failed,
  });
  return {
    shown: () => (state = withTarget(state, places)),
    take: (files) => {
      if (files.length === 0) return;
      reader.take(files);
      unfold();
    },
    chooseTitle: (title) => change({ title, scheme: schemeOf(memory, title), look: FIRST_LOOK }),
    chooseView: (view) => change({ view, said: '' }),
    look: (more) => change({ look: { ...state.look, ...more } }),
    sortBy: (by) => change({ look: { ...state.look, by, isDown: state.look.by === by && !state.look.isDown } }),
    setPoints: (symbol, points) => mark({ ...state.scheme, points: new Map([...state.scheme.points, [symbol, points]]) }),
    giveByHand: (id, symbol, points) => {
      const given = new Map(state.byHand.get(id));
      if (points === undefined) given.delete(symbol);
      else given.set(symbol, points);
      change({ byHand: new Map([...state.byHand, [id, given]]) });
    },
    setShare: (of, share) => mark({ ...state.scheme, [of]: share }),
    lay: (id) => {
      const { beside: before, ...rest } = state;
      state = id === undefined ? rest : { ...rest, beside: id };
      show();
      if (id !== undefined) bringBeside();
      else if (before !== undefined) backToTeam(before);
    },
    openAsSheet: (id) => {
      const sheet = state.gathered.sheets.find((one) => one.id === id);
      if (sheet !== undefined) openAsSheet(sheet.text);
    },
    takeTable: () => saveFile(fileName(['class', state.title], 'csv'), classCsv(shownSheets(state), state), 'text/csv;charset=utf-8'),
    tellResults: (tellsResults) => change({ tellsResults }),
    takeFeedback: async () => {
      change({ said: 'Feedback is being written …' });
      const count = await handOutFeedback(state, now());
      change({ said: count === 1 ? 'One page of feedback is taken away.' : `${count} pages of feedback are taken away in one archive.` });
    },
    takeSpecimens: () => saveFile(fileName(['specimens', state.title], 'csv'), poolCsv(pooled(titled(state))), 'text/csv;charset=utf-8'),
    poolInto: (where) => void pooledWords(pooled(titled(state)), where, places).catch(partWords).then((said) => change({ said })),
    clear: () => {
      reader.clear();
      state = EMPTY;
      show();
    },
  };
}

/** Everything is read: the table is of the sheets of which there are most, until another title is chosen. */
function readIn({ reading: _over, ...before }: CollectState, gathered: Gathered, memory: MarkingMemory): CollectState {
  const title = before.gathered.sheets.length > 0 ? before.title : (titlesIn(gathered.sheets)[0] ?? '');
  return { ...before, gathered, title, scheme: schemeOf(memory, title) };
}

/** With the table of the sheet that lies open now; the same object as long as that is the same, so that what is drawn of it is kept. */
function withTarget(state: CollectState, places: PoolPlaces): CollectState {
  // Nothing is looked for in the sheet that lies open as long as there is nothing to put there.
  const target = state.gathered.sheets.length === 0 ? undefined : places.open();
  if (target?.table === state.target?.table && target?.title === state.target?.title) return state;
  const { target: _before, ...rest } = state;
  return target === undefined ? rest : { ...rest, target };
}

/** A page for each sheet that is shown, in one archive; gives how many. */
async function handOutFeedback(state: CollectState, at: Date): Promise<number> {
  const pages = [...feedbackFor(shownSheets(state), titled(state), state)];
  const files = pages.map(({ sheet, html }) => ({ name: fileName(['feedback', nameOf(sheet)], 'html'), content: html }));
  saveFile(fileName(['feedback', state.title], 'zip'), await archived(files, at), 'application/zip');
  return files.length;
}

/** The sheets of the title that is looked at. */
export function titled({ gathered, title }: Pick<CollectState, 'gathered' | 'title'>): readonly ReturnedSheet[] {
  return gathered.sheets.filter(({ head }) => head.title === title);
}

/** The sheets of the table, in its order. */
export function shownSheets(state: CollectState): readonly ReturnedSheet[] {
  return sheetsShown(titled(state), state.look, state);
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
