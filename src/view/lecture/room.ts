import { render } from 'lit-html';
import { cellIn, type Block, type StepCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { setEquationsIn } from '../equations.ts';
import { bar, strip } from './bar.ts';
import { guessing, isPredicting } from './guessing.ts';
import type { LectureAction } from './keys.ts';
import { castOf, handAsked, stationOf, type LectureEvent, type LectureSheet, type LectureState } from './lecture-step.ts';
import { TITLE } from './order.ts';
import { revealed } from './place.ts';
import { createStage } from './stage.ts';
import { chain, overview, titlePage } from './wall.ts';
import { isVisible } from '../visible.ts';

/** What the lecture view puts around the sheet: above it the section, over it the wall, below it the question and the bar. */
export interface Room {
  open(): void;
  close(): void;
  /** Puts the station on the wall. */
  arrange(state: LectureState, sheet: LectureSheet): void;
  /** Letters as large as they can be; what is shown keeps its size while it is brought to light piece by piece. */
  fit(state: LectureState): void;
  /** Smaller letters where something no longer fits. */
  keepWhole(): void;
  /** What is taller than the window goes on by a screen; whether there was more to see. */
  turn(way: 1 | -1): boolean;
  darken(isDark: boolean): void;
  /** What has left the wall keeps no focus. @param blockId of the station */
  keepFocus(blockId: string): void;
  /** How the results just shown went, in words. */
  outcome(): string | undefined;
}

interface RoomParts {
  readonly root: HTMLElement;
  readonly sheet: HTMLElement;
  readonly desk: Desk;
  /** Draws a block if what it shows has changed. */
  readonly draw: (block: Block) => void;
  readonly act: (event: LectureEvent) => void;
  /** What a key or a button of the bar means. */
  readonly hear: (action: LectureAction) => void;
}

interface Frame {
  readonly above: HTMLElement;
  readonly wall: HTMLElement;
  readonly below: HTMLElement;
  readonly foot: HTMLElement;
}

const PAGE_CLASS = 'in-lecture';

export function createRoom(parts: RoomParts): Room {
  const { root, sheet, desk, act } = parts;
  const frame: Frame = { above: part('lecture-strip'), wall: part('lecture-wall'), below: part('lecture-guess'), foot: part('lecture-bar') };
  frame.wall.tabIndex = -1;
  const dark = darkness(() => act({ on: 'lighten' }));
  const stage = createStage({ sheet, wall: frame.wall, desk, draw: parts.draw });
  const page = document.documentElement;
  return {
    open: () => {
      page.classList.add(PAGE_CLASS);
      root.prepend(frame.above, frame.wall);
      sheet.after(frame.below, frame.foot);
      window.addEventListener('resize', stage.fit);
      void document.fonts.ready.then(() => {
        if (frame.foot.isConnected) stage.fit();
      });
    },
    close: () => {
      window.removeEventListener('resize', stage.fit);
      for (const element of [dark, frame.above, frame.wall, frame.below, frame.foot]) element.remove();
      page.classList.remove(PAGE_CLASS);
      stage.clear();
    },
    arrange: (state, seen) => {
      const station = stationOf(state, seen);
      const cast = castOf(state, station, (id) => desk.element(id) !== undefined);
      sheet.dataset['view'] = state.view;
      stage.put(cast, revealed(state.place));
      drawFrame(frame, state, { seen, cast, parts });
    },
    fit: ({ view, place, isUnfolded, pause }) => stage.fit([view, place.station, isUnfolded, pause.isOn, isPredicting(place)].join()),
    keepWhole: stage.keepWhole,
    turn: stage.turn,
    darken: (isDark) => {
      if (!isDark) return dark.remove();
      document.body.append(dark);
      dark.focus();
    },
    keepFocus: (blockId) => {
      const active = document.activeElement;
      if (active !== null && active !== document.body && isVisible(active)) return;
      const there = desk.element(blockId);
      (there && isVisible(there) ? there : frame.wall).focus({ preventScroll: true });
    },
    outcome: () => frame.below.querySelector('.outcome')?.textContent.replace(/\s+/g, ' '),
  };
}

function drawFrame(
  { above, wall, below, foot }: Frame, state: LectureState,
  { seen, cast, parts: { desk, act, hear } }: { readonly seen: LectureSheet; readonly cast: ReadonlyMap<string, string>; readonly parts: RoomParts },
): void {
  const { view, pause, place, isUnfolded, input } = state;
  const station = stationOf(state, seen);
  const shown = {
    order: seen.order, station, index: place.index, view, isPausing: pause.isOn, isUnfolded,
    drawing: [...cast].find(([, role]) => role === 'drawing')?.[0] ?? '', input,
  };
  render(strip(shown), above);
  const isOnWall = view !== 'steps' || station.id === TITLE;
  const go = (on: 'go to' | 'go to result' | 'go to section') => (blockId: string): void => act({ on, blockId });
  wall.hidden = !isOnWall;
  render(!isOnWall ? '' : view === 'steps' ? titlePage(desk) : view === 'chain' ? chain(seen.order, station.id, desk, go('go to result')) : overview(seen.order, station.id, go('go to'), go('go to section')), wall);
  below.hidden = (!pause.isOn && !isPredicting(place)) || view === 'overview';
  render(view === 'overview' ? '' : guessing(stepAt(station.id, desk), { ...pause, hand: handAsked(state), reveal: place.reveal, said: state.said }, desk, {
    guess: (guess) => act({ on: 'guess', guess }), show: () => act({ on: 'show' }), showAll: () => act({ on: 'show all' }),
  }), below);
  render(bar(shown, {
    act: hear, chooseDrawing: (cellId) => act({ on: 'drawing', cellId }), chooseInput: (cellId) => act({ on: 'input', cellId }), unfold: () => act({ on: 'unfold' }),
  }, desk), foot);
  for (const element of [above, wall, below]) setEquationsIn(element);
}

export function stepAt(blockId: string, desk: Desk): StepCell | undefined {
  return cellIn(desk.block(blockId), 'step');
}

function part(className: string): HTMLElement {
  const made = document.createElement('div');
  made.className = className;
  return made;
}

function darkness(lighten: () => void): HTMLElement {
  const dark = document.createElement('button');
  dark.type = 'button';
  dark.className = 'lecture-dark';
  dark.setAttribute('aria-label', 'The screen is blank. Press any key to go on.');
  dark.addEventListener('click', lighten);
  return dark;
}
