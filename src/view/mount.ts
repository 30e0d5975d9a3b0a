import { tellingGiven, type SampledSteps } from '../report/index.ts';
import { cellIn, type Block } from '../sheet/index.ts';
import { createAnnouncer, liveRegion } from './announce.ts';
import { begin, contextOf, drawAround, drawStrips, follow, OVER_A_STRIP, update, type AtWork, type Frame, type Now } from './at-work.ts';
import { createBlockList } from './block-list.ts';
import { unchanged } from './changes.ts';
import { arriveAt } from './focus.ts';
import { createDesk } from './desk-at-work.ts';
import { cancelSampling } from './sampling/sampling-ui.ts';
import type { Sampler } from './sampling/sampler.ts';
import { finishedSamples } from './sampling/finished.ts';
import type { CellUi, Desk } from './desk.ts';
import { whenEquationsFail } from './equations.ts';
import { createFolds, type FoldMemory, type Folds } from './folds.ts';
import { lectureLater } from './lecture/lecture-later.ts';
import type { LectureMemory } from './lecture/lecture-types.ts';
import type { LineShelf, ValueShelf } from './offer-shelf.ts';
import { watchSources } from './source-watch.ts';
import { createLongSheet } from './long-sheet.ts';
import { listenForKeys } from './listeners.ts';
import { createLighting } from './lighting.ts';
import type { MaterialShelf } from './material-shelf.ts';
import { menuLater } from './menu-later.ts';
import { tickElsewhere, type TestsElsewhere } from './record/elsewhere.ts';
import { createStripParts } from './record/strip-parts.ts';
import { tickStrip } from './record/running-strip.ts';
import { tickRecords } from './record/running-clock.ts';
import { partWords } from './part-words.ts';
import { completeForPrint } from './printing.ts';
import { createPlaceKeeper, type PlaceMemory } from './reading-place.ts';
import type { RowShelf } from './row-shelf.ts';
import type { SheetSession } from './session.ts';
import { createSide, type SidePlace } from './side/side.ts';
import { createSteps } from './steps.ts';
import { holdStillUnderPresses, whenStill } from './still.ts';

const CLOCK_PERIOD = 60_000;
const SECOND = 1000;

interface MountOptions {
  readonly lines?: LineShelf;
  readonly values?: ValueShelf;
  readonly materials?: MaterialShelf;
  readonly rows?: RowShelf;
  readonly sampler?: Sampler;
  /** Where the lecture view remembers its place; absent where nothing is kept. */
  readonly lecturePlace?: LectureMemory;
  /** Where it is remembered what is open and what is folded; absent where nothing is kept. */
  readonly foldMemory?: FoldMemory;
  /** Said where there is nothing to undo, though there was before the sheet was opened. */
  readonly nothingToUndo?: string;
  /** Where results and contents stay in view. */
  readonly side?: SidePlace;
  /** Where it is remembered how far the reader has come; absent where nothing is kept. */
  readonly placeMemory?: PlaceMemory;
  /** Tests that run on other sheets; absent where nothing is kept. */
  readonly elsewhere?: TestsElsewhere;
  /** A part of the page that was wanted did not come. @param again asks for it once more */
  readonly partFailed?: (error: unknown, again: () => void) => void;
}

interface MountedSheet {
  enterLecture(): void;
  /** What is out of sight, for the list of contents. */
  readonly folds: Folds;
  /** Samples that lie open and are those of the sheet as it stands. */
  sampled(): SampledSteps;
  /** The page says something else beside the sheet. */
  drawSide(): void;
  /** What runs on other sheets is other than before. */
  drawStrips(): void;
  /** Puts the focus on a cell, and shows it where it is out of sight. */
  arriveAt(cellId: string): void;
  /** Goes to the blank that moves the chief results most. */
  takeALook(): void;
  dispose(): void;
}

/**
 * Shows a sheet in `root` and keeps it up to date: each block in an element of its own, drawn again only when something
 * it shows has changed. The window hears `spanlife:begun` once the sheet stands in the page with what is in view, `spanlife:settled` once all of it does, and after
 * each edit as soon as all its results do; before that `spanlife:seen`, when those in view and near it do.
 */
export function mountSheet(root: HTMLElement, session: SheetSession, options: MountOptions = {}): MountedSheet {
  const work = putTogether(root, session, options);
  const { frame: { sheet, head, foot, strip }, uis, desk, list, long, lecture, announcer, sourceWatch, now } = work;
  const blocks = (): Iterable<Block> => now.blocks.values();
  const next = (): void => follow(work);
  const stops = [
    session.subscribe(() => whenStill(next, next)),
    listenForKeys(sheet, desk, () => list.drawUndrawn()),
    holdStillUnderPresses(),
    completeForPrint({ sheet, blocks, desk, list, long }),
    every(CLOCK_PERIOD, () => drawClocks(blocks(), desk)),
    every(SECOND, () => {
      tickRecords(blocks(), desk);
      tickStrip(strip, desk);
      if (work.parts.elsewhere !== undefined) tickElsewhere(strip, work.parts.elsewhere, session.now());
      if (work.parts.clock.look()) whenStill(work.parts, () => drawStrips(work));
    }),
  ];
  sheet.append(head, foot, strip);
  // The values come in a microtask; where they were there before, nobody tells.
  const beginning = setTimeout(() => begin(work), 0);
  return {
    enterLecture: () => lecture.enter(),
    folds: desk.folds,
    sampled: () => finishedSamples(uis, session.states()),
    drawSide: () => {
      if (now.isBegun) work.side?.draw();
    },
    drawStrips: () => {
      if (now.isBegun) drawStrips(work);
    },
    arriveAt: (cellId) => arrive(cellId, desk),
    takeALook: () => takeALook(work),
    dispose: () => {
      clearTimeout(beginning);
      for (const record of uis.values()) cancelSampling(record.sampling);
      lecture.dispose();
      work.side?.dispose();
      work.place?.dispose();
      work.parts.dispose();
      for (const stop of stops) stop();
      sourceWatch.dispose();
      cancelAnimationFrame(now.headFrame);
      announcer.dispose();
      list.dispose();
      document.documentElement.classList.remove(OVER_A_STRIP);
      root.replaceChildren();
    },
  };
}

function putTogether(root: HTMLElement, session: SheetSession, { lecturePlace, foldMemory, side, placeMemory, elsewhere, partFailed, ...given }: MountOptions): AtWork {
  const frame: Frame = {
    root, sheet: element('article', 'sheet at-work'), head: element('header', 'title-block'), foot: element('footer', 'sheet-foot'),
    strip: element('div', 'strip-place'), region: liveRegion(),
  };
  const context = contextOf(session);
  const now: Now = { context, changes: unchanged(context.states), edited: undefined, blocks: new Map(), all: [], order: new Map(), waiting: [], isActing: false, isBegun: false, headFrame: 0 };
  const uis = new Map<string, CellUi>();
  const folds = createFolds(() => now.context.document, (blockIds) => {
    update(work);
    for (const id of blockIds) desk.changeUi(id, () => undefined);
  }, foldMemory);
  const failed = partFailed ?? ((error: unknown) => desk.announce(partWords(error)));
  const desk: Desk = createDesk(session, () => work, { ...given, folds, partFailed: failed });
  whenEquationsFail(failed);
  const tell = (what: string) => (): void => void window.dispatchEvent(new CustomEvent(`spanlife:${what}`));
  const list = createBlockList(frame.head, uis, desk, { whenSeen: tell('seen'), whenDrawn: tell('settled') });
  const long = createLongSheet(() => {
    update(work);
    drawAround(work);
  });
  const work: AtWork = {
    session, frame, uis, desk, list, long, now,
    parts: createStripParts(elsewhere, () => session.now(), () => {
      tickRecords(now.blocks.values(), desk);
      tickStrip(frame.strip, desk);
    }),
    announcer: createAnnouncer(frame.region),
    lighting: createLighting(context),
    steps: createSteps(session, () => desk, () => drawStrips(work)),
    menu: menuLater(desk),
    sourceWatch: watchSources(desk),
    side: side && createSide(side, desk, frame.sheet),
    place: placeMemory && createPlaceKeeper(() => work, placeMemory),
    lecture: lectureLater({
      root, sheet: frame.sheet, desk,
      complete: () => {
        folds.unfoldSections();
        long.all();
      },
      draw: (block) => list.drawIfChanged(block),
      refresh: () => update(work),
      ...(lecturePlace === undefined ? {} : { memory: lecturePlace }),
    }, failed),
  };
  return work;
}

function arrive(cellId: string, desk: Desk): void {
  const there = desk.element(cellId);
  const { top, bottom } = there?.getBoundingClientRect() ?? { top: 0, bottom: 0 };
  if (bottom > 0 && top < innerHeight) there?.focus({ preventScroll: true });
  else desk.go(cellId, '');
}

function takeALook({ desk, now }: AtWork): void {
  const cellId = tellingGiven(now.context);
  if (cellId === undefined) return;
  desk.go(cellId, '');
  const blank = desk.element(cellId)?.querySelector<HTMLInputElement>('input[data-measured]');
  if (blank !== undefined && blank !== null) arriveAt(blank);
}

function drawClocks(blocks: Iterable<Block>, desk: Desk): void {
  for (const block of blocks) {
    if (cellIn(block, 'step')?.clock !== undefined) desk.changeUi(block.id, () => undefined);
  }
}

function every(milliseconds: number, act: () => void): () => void {
  const timer = setInterval(act, milliseconds);
  return () => clearInterval(timer);
}

function element(name: string, className: string): HTMLElement {
  const made = document.createElement(name);
  made.className = className;
  return made;
}
