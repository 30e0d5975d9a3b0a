import { cellIn } from '../../sheet/index.ts';
import { render } from 'lit-html';
import { composed } from '../../core/problem/index.ts';
import { isHeldBack, type PresentContext } from '../../report/index.ts';
import type { Block, StepCell } from '../../sheet/index.ts';
import type { SheetStates } from '../../graph/types.ts';
import type { Desk } from '../desk.ts';
import { setEquationsIn } from '../equations.ts';
import { showCell } from '../focus.ts';
import { bar, strip, type LectureView } from './bar.ts';
import { guessing } from './guessing.ts';
import type { LectureAction } from './keys.ts';
import { listenForLecture } from './listen.ts';
import { lectureOrder, TITLE, type Station } from './order.ts';
import { ahead, BEGINNING, behind, ending, isAllRevealed, placeIn, placeOf, revealed, type Place } from './place.ts';
import { edited, guessed, heldBackBy, NO_PAUSE, show, switchPause, type Guess, type Pause } from './pause.ts';
import { readRemembered, rememberedText, type LectureMemory } from './memory.ts';
import { createStage, type Role } from './stage.ts';
import { notYetTold } from './veil.ts';
import { chain, overview, titlePage } from './wall.ts';

/** The sheet told step by step, in large letters. */
export interface Lecture {
  readonly isOpen: boolean;
  enter(): void;
  /** The sheet is in the page for the first time: a lecture that was open when the page was loaded again goes on. */
  begin(): void;
  /** The sheet is in the page with its latest results. */
  follow(): void;
  /** Before results of an edit are shown: the state that they are to be compared with, where they are held back. */
  edited(before: SheetStates): SheetStates | undefined;
  heldBack(): Pick<PresentContext, 'heldBack'>;
  /** Symbols of results that have not been told; none while it is closed. */
  notYet(): ReadonlySet<string>;
  dispose(): void;
}

interface LectureParts {
  readonly root: HTMLElement;
  readonly sheet: HTMLElement;
  readonly desk: Desk;
  readonly blocks: () => ReadonlyMap<string, Block>;
  /** Draws a block if what it shows has changed. */
  readonly draw: (block: Block) => void;
  /** What is held back has changed. */
  readonly refresh: () => void;
  readonly memory?: LectureMemory;
}

const PAGE_CLASS = 'in-lecture';

export function createLecture({ root, sheet, desk, blocks, draw, refresh, memory }: LectureParts): Lecture {
  const page = document.documentElement;
  const above = part('lecture-strip');
  const wall = part('lecture-wall');
  const below = part('lecture-guess');
  const foot = part('lecture-bar');
  const dark = document.createElement('button');
  dark.type = 'button';
  dark.className = 'lecture-dark';
  dark.setAttribute('aria-label', 'The screen is blank. Press any key to go on.');
  const stage = createStage({ sheet, wall, desk, draw });
  let isOpen = false;
  let place: Place = BEGINNING;
  let view: LectureView = 'steps';
  /** Undefined: the nearest above; '' for none. */
  let drawing: string | undefined;
  let input = '';
  let pause: Pause = NO_PAUSE;
  let isUnfolded = false;
  let stopListening: (() => void) | undefined;

  const order = () => lectureOrder(desk.context());
  const stationNow = (): Station => {
    const { stations } = order();
    return stations[place.index] ?? stations[0] ?? { id: TITLE, blocks: [], name: '', chapter: 0, hasRoomBeside: false };
  };

  const stepNow = (): StepCell | undefined => {
    return cellIn(desk.block(stationNow().id), 'step');
  };

  /** Which blocks are on the wall, and as what. */
  const castOf = (station: Station): ReadonlyMap<string, Role> => {
    const cast = new Map<string, Role>();
    if (view === 'overview') return cast;
    if (view === 'steps') for (const id of station.blocks) cast.set(id, 'stage');
    if (view === 'steps' && !station.hasRoomBeside) return cast;
    for (const [id, role] of [[drawing ?? station.drawing ?? '', 'drawing'], [input, 'input']] as const) {
      if (!cast.has(id) && desk.element(id) !== undefined) cast.set(id, role);
    }
    return cast;
  };

  /** Puts the station on the wall. */
  const arrange = (): void => {
    place = placeIn(order(), place);
    const station = stationNow();
    const cast = castOf(station);
    sheet.dataset['view'] = view;
    stage.put(cast, revealed(place));
    drawFrame(station, cast);
  };

  const drawFrame = (station: Station, cast: ReadonlyMap<string, string>): void => {
    const state = {
      order: order(), station, index: place.index, view, isPausing: pause.isOn, isUnfolded,
      drawing: [...cast].find(([, role]) => role === 'drawing')?.[0] ?? '', input,
    };
    render(strip(state), above);
    const isOnWall = view !== 'steps' || station.id === TITLE;
    wall.hidden = !isOnWall;
    render(!isOnWall ? '' : view === 'steps' ? titlePage(desk) : view === 'chain' ? chain(state.order, station.id, desk, goFromChain) : overview(state.order, station.id, go), wall);
    const question = view === 'overview' ? '' : guessing(stepNow(), pause, desk, { guess: note, show: showHere, showAll });
    below.hidden = !pause.isOn || view === 'overview';
    render(question, below);
    render(bar(state, { act, chooseDrawing, chooseInput, unfold }, desk), foot);
    for (const element of [above, wall, below]) setEquationsIn(element);
  };

  /** What is shown keeps its size while it is brought to light piece by piece. */
  const restage = (): void => {
    arrange();
    stage.fit([view, place.station, isUnfolded, pause.isOn].join());
    keepFocus();
    memory?.write(rememberedText({ place, isOpen }));
  };

  /** What has left the wall keeps no focus. */
  const keepFocus = (): void => {
    const active = document.activeElement;
    if (active !== null && active !== document.body && active.checkVisibility()) return;
    (desk.element(stationNow().id) ?? wall).focus({ preventScroll: true });
  };

  const goTo = (next: Place): void => {
    const isNew = next.station !== place.station;
    desk.settle();
    place = next;
    restage();
    if (isNew) desk.announce(composed`${place.index + 1} of ${order().stations.length}: ${stationNow().name}`);
  };
  const go = (blockId: string): void => {
    view = 'steps';
    goTo(placeOf(order(), blockId) ?? place);
  };
  const goFromChain = (blockId: string): void => {
    const there = placeOf(order(), blockId);
    view = 'steps';
    goTo(there === undefined ? place : { ...there, reveal: 'result' });
  };
  const next = (): void => {
    if (stage.turn(1)) return;
    const here = stationNow();
    if (isAllRevealed(order(), here, place) && here.blocks.some((id) => isHeldBack(id, desk.context()))) showHere();
    else goTo(ahead(order(), place));
  };

  const back = (): void => {
    if (!stage.turn(-1)) goTo(behind(order(), place));
  };

  const setPause = (changed: Pause): void => {
    pause = changed;
    refresh();
  };
  const note = (guess: Guess): void => {
    const cell = stepNow();
    if (cell === undefined || !isHeldBack(cell.id, desk.context())) return;
    setPause(guessed(pause, cell.id, guess));
    desk.announce(`The guess: ${guess}.`);
  };
  const showHere = (): void => {
    setPause(show(pause, stationNow().blocks));
    place = { ...place, reveal: 'result' };
    restage();
    const said = below.querySelector('.outcome');
    if (said !== null) desk.announce(said.textContent.replace(/\s+/g, ' '));
  };
  const showAll = (): void => setPause(show(pause, [...blocks().keys()]));
  const turnTo = (to: LectureView): void => {
    view = view === to ? 'steps' : to;
    restage();
  };
  const chooseDrawing = (cellId: string): void => {
    drawing = cellId;
    restage();
  };
  const chooseInput = (cellId: string): void => {
    input = cellId;
    restage();
  };
  const unfold = (): void => {
    isUnfolded = !isUnfolded;
    restage();
  };

  const act = (action: LectureAction): void => {
    switch (action) {
      case 'next': return next();
      case 'back': return back();
      case 'first': return goTo(BEGINNING);
      case 'last': return goTo(ending(order()));
      case 'chain':
      case 'overview': return turnTo(action);
      case 'guess first': return setPause(switchPause(pause));
      case 'up':
      case 'down':
      case 'stays': return note(action);
      case 'blank': return darken(!dark.isConnected);
      case 'full screen': return void fillScreen();
      case 'leave': return leave();
    }
  };
  const darken = (isDark: boolean): void => {
    if (isDark) {
      document.body.append(dark);
      dark.focus();
    } else {
      dark.remove();
      keepFocus();
    }
  };
  dark.addEventListener('click', () => darken(false));

  const enter = (): void => {
    if (isOpen) return;
    isOpen = true;
    page.classList.add(PAGE_CLASS);
    root.prepend(above, wall);
    sheet.after(below, foot);
    stopListening = listenForLecture(root, { act, isDark: () => dark.isConnected, lighten: () => darken(false) });
    window.addEventListener('resize', stage.fit);
    void document.fonts.ready.then(() => {
      if (isOpen) stage.fit();
    });
    restage();
    keepFocus();
  };
  const close = (): void => {
    isOpen = false;
    stopListening?.();
    window.removeEventListener('resize', stage.fit);
    dark.remove();
    for (const element of [above, wall, below, foot]) element.remove();
    page.classList.remove(PAGE_CLASS);
    stage.clear();
  };
  const leave = (): void => {
    const station = stationNow();
    close();
    memory?.write(rememberedText({ place, isOpen }));
    if (pause.isOn) setPause(NO_PAUSE);
    const there = desk.element(station.id);
    if (there === undefined) scrollTo(0, 0);
    else showCell(there);
  };

  const remembered = readRemembered(memory?.read());
  if (remembered !== undefined) place = remembered.place;
  return {
    get isOpen() {
      return isOpen;
    },
    enter,
    begin: () => {
      if (remembered?.isOpen === true) enter();
    },
    follow: () => {
      if (!isOpen) return;
      arrange();
      stage.keepWhole();
    },
    edited: (before) => {
      pause = edited(pause, before);
      return pause.round?.before;
    },
    heldBack: () => heldBackBy(pause),
    notYet: () => (isOpen && view === 'steps' ? notYetTold(order(), place, desk) : new Set()),
    dispose: () => {
      if (isOpen) close();
    },
  };
}

function part(className: string): HTMLElement {
  const made = document.createElement('div');
  made.className = className;
  return made;
}

/** Fills the screen, or gives it back; a browser that refuses leaves everything as it is. */
async function fillScreen(): Promise<void> {
  if (document.fullscreenElement !== null) return document.exitFullscreen();
  return document.documentElement.requestFullscreen();
}
