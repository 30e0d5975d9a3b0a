import { awaitsGuess, isToBeWorked } from '../../report/index.ts';
import { isTeamFile } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { showCell } from '../focus.ts';
import type { LectureAction } from './keys.ts';
import { CLOSED, eventOf, lectureStep, stationOf, type DeskEffect, type LectureEffect, type LectureEvent, type LectureSheet, type LectureState, type RoomEffect } from './lecture-step.ts';
import { listenForLecture } from './listen.ts';
import { lectureOrder } from './order.ts';
import { guessBy } from './pause.ts';
import type { Lecture, LectureParts } from './lecture-types.ts';
import { readRemembered, rememberedText } from './memory.ts';
import { createRoom, stepAt, type Room } from './room.ts';
import { sameTold, toldBy, toldOf } from './told.ts';
import { notYetTold } from './not-yet.ts';

export function createLecture({ root, sheet, desk, complete, draw, refresh, memory }: LectureParts): Lecture {
  const remembered = readRemembered(memory?.read());
  let state: LectureState = { ...CLOSED, place: remembered?.place ?? CLOSED.place };
  const seen = sheetAt(desk);
  const act = (event: LectureEvent): void => {
    const step = lectureStep(state, event, seen);
    ({ state } = step);
    for (const effect of step.effects) if (!carryOutAtDesk(effect, desk)) carryOut[effect.do]();
  };
  const hear = (action: LectureAction): void => {
    if ((action === 'next' || action === 'back') && room.turn(action === 'next' ? 1 : -1)) return;
    act(eventOf(action));
  };
  const room = createRoom({ root, sheet, desk, draw, act, hear });
  let stopListening = (): void => undefined;
  let told: ReadonlySet<string> = new Set();
  /** What is shown and withheld changes with what has been told. */
  const tellAsFar = (): void => {
    const now = toldOf(state, seen);
    if (sameTold(now, told)) return;
    told = now;
    refresh();
  };
  const arrange = (): void => {
    act({ on: 'follow' });
    room.arrange(state, seen);
  };
  const keepFocus = (): void => room.keepFocus(stationOf(state, seen).id);
  const remember = (): void => memory?.write(rememberedText(state));
  const carryOut: Record<RoomEffect['do'], () => void> = {
    open: () => {
      room.open();
      stopListening = listenForLecture(root, { act: hear, isDark: () => state.isDark, lighten: () => act({ on: 'lighten' }) });
      complete();
    },
    close: () => {
      stopListening();
      room.close();
      tellAsFar();
    },
    stage: () => {
      tellAsFar();
      arrange();
      room.fit(state);
      keepFocus();
      remember();
    },
    darken: () => room.darken(true),
    lighten: () => {
      room.darken(false);
      keepFocus();
    },
    refresh, remember,
    'tell outcome': () => tell(room, desk),
  };
  return lectureOf({ state: () => state, told: () => told, act, arrange, room, close: carryOut.close, seen, desk, wasOpen: remembered?.isOpen === true });
}

interface LectureHands {
  readonly state: () => LectureState;
  readonly told: () => ReadonlySet<string>;
  readonly act: (event: LectureEvent) => void;
  readonly arrange: () => void;
  readonly close: () => void;
  readonly room: Room;
  readonly seen: LectureSheet;
  readonly desk: Desk;
  readonly wasOpen: boolean;
}

function lectureOf({ state, told, act, arrange, room, close, seen, desk, wasOpen }: LectureHands): Lecture {
  return {
    enter: (fills = false) => act({ on: 'enter', fills }),
    begin: () => {
      if (wasOpen) act({ on: 'enter', fills: false });
    },
    follow: () => {
      if (!state().isOpen) return;
      arrange();
      room.keepWhole();
    },
    edited: (before) => {
      act({ on: 'edited', before });
      return state().pause.round?.before;
    },
    telling: () => ({ ...guessBy(state().pause), ...toldBy(told()) }),
    notYet: () => (state().isOpen && state().view === 'steps' ? notYetTold(seen.order, state().place, desk) : new Set()),
    // Its state stays: the page that is loaded again goes on with it.
    dispose: () => {
      if (state().isOpen) close();
    },
  };
}

/** The sheet as it is whenever it is asked: its order is worked out only while somebody looks. */
function sheetAt(desk: Desk): LectureSheet {
  return {
    get order() {
      return lectureOrder(desk.context(), desk.folds.away());
    },
    get blocks() {
      return desk.context().document.blocks.map(({ id }) => id);
    },
    isStep: (id) => stepAt(id, desk) !== undefined,
    awaitsGuess: (id) => awaitsGuess(id, desk.context()),
    isToBeWorked: (id) => {
      const step = stepAt(id, desk);
      const context = desk.context();
      // What a team is to find no lecture tells in its own file.
      return step !== undefined && !isTeamFile(context.document) && isToBeWorked(step, context);
    },
  };
}

/** Whether it was something for the desk. */
function carryOutAtDesk(effect: LectureEffect, desk: Desk): effect is DeskEffect {
  switch (effect.do) {
    case 'settle':
      desk.settle();
      return true;
    case 'announce':
      desk.announce(effect.sentence);
      return true;
    case 'fill the screen':
      // A browser that refuses leaves everything as it is.
      fillScreen().catch(() => desk.announce('The browser does not fill the screen.'));
      return true;
    case 'show': {
      const there = desk.element(effect.blockId);
      if (there === undefined) scrollTo(0, 0);
      else showCell(there);
      return true;
    }
    default: return false;
  }
}

function tell(room: Room, desk: Desk): void {
  const said = room.outcome();
  if (said !== undefined) desk.announce(said);
}

/** Fills the screen, or gives it back. */
async function fillScreen(): Promise<void> {
  if (document.fullscreenElement !== null) return document.exitFullscreen();
  return document.documentElement.requestFullscreen();
}
