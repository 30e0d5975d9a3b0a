import { composed } from '../../core/problem/index.ts';
import type { SheetStates } from '../../graph/types.ts';
import type { LectureView } from './bar.ts';
import type { LectureAction } from './keys.ts';
import { TITLE, type LectureOrder, type Station } from './order.ts';
import { edited, guessed, GUESSES, NO_PAUSE, show, switchPause, type Guess, type Pause } from './pause.ts';
import { ahead, BEGINNING, behind, ending, isAllRevealed, placeIn, placeOf, sectionAhead, sectionBehind, type Place } from './place.ts';
import type { Role } from './stage.ts';

/** The lecture as it stands: no part of the document. */
export interface LectureState {
  readonly isOpen: boolean;
  readonly place: Place;
  readonly view: LectureView;
  /** Id of the drawing beside; '' for none, undefined: the nearest above. */
  readonly drawing: string | undefined;
  /** Id of the given at hand; '' for none. */
  readonly input: string;
  readonly pause: Pause;
  /** Whose hands are asked for before a result that an edit has withheld. */
  readonly hands: Guess | undefined;
  /** What the class says of the prediction at the station. */
  readonly said: Guess | undefined;
  readonly isUnfolded: boolean;
  /** The screen is blanked. */
  readonly isDark: boolean;
}

/** What the lecture asks of the sheet as it is in the page. */
export interface LectureSheet {
  readonly order: LectureOrder;
  /** Ids of all blocks. */
  readonly blocks: readonly string[];
  isStep(blockId: string): boolean;
  awaitsGuess(blockId: string): boolean;
  /** A step that the class is to work out, without an answer. */
  isToBeWorked(blockId: string): boolean;
}

interface LectureEvents {
  /** @param fills the screen, as the button of a remote that begins asks for */
  enter: { readonly fills: boolean };
  leave: object;
  next: object;
  back: object;
  'next section': object;
  'section before': object;
  first: object;
  last: object;
  'go to': { readonly blockId: string };
  /** In the list, which stays. */
  'go to section': { readonly blockId: string };
  /** From a result that is seen: there it is seen too. */
  'go to result': { readonly blockId: string };
  /** What is looked at already is left for the steps. */
  view: { readonly view: LectureView };
  drawing: { readonly cellId: string };
  input: { readonly cellId: string };
  unfold: object;
  /** Predict first, or no more. */
  'guess first': object;
  guess: { readonly guess: Guess };
  show: object;
  'show all': object;
  /** The screen is blanked, or comes back. */
  blank: object;
  lighten: object;
  'full screen': object;
  /** Results of an edit are about to be shown. */
  edited: { readonly before: SheetStates };
  /** The sheet is in the page with its latest results. */
  follow: object;
}

export type LectureEvent<On extends keyof LectureEvents = keyof LectureEvents> = { [One in On]: { readonly on: One } & LectureEvents[One] }[On];

/** What is to be done outside the state, in order. */
export type LectureEffect = RoomEffect | DeskEffect;

/** `stage`: the station is put on the wall; `refresh`: what is withheld has changed. */
export interface RoomEffect {
  readonly do: 'open' | 'close' | 'stage' | 'refresh' | 'remember' | 'darken' | 'lighten' | 'tell outcome';
}

export type DeskEffect =
  | { readonly do: 'settle' }
  | { readonly do: 'fill the screen' }
  | { readonly do: 'announce'; readonly sentence: string }
  /** On the sheet. */
  | { readonly do: 'show'; readonly blockId: string };

interface LectureStep {
  readonly state: LectureState;
  readonly effects: readonly LectureEffect[];
}

export const CLOSED: LectureState = {
  isOpen: false, place: BEGINNING, view: 'steps', drawing: undefined, input: '', pause: NO_PAUSE, hands: undefined, said: undefined, isUnfolded: false, isDark: false,
};

/** The lecture after an event, and what else is to be done. */
export function lectureStep<On extends keyof LectureEvents>(state: LectureState, event: LectureEvent<On>, sheet: LectureSheet): LectureStep {
  return STEPS[event.on](state, event, sheet);
}

export function eventOf(action: LectureAction): LectureEvent {
  switch (action) {
    case 'chain':
    case 'overview': return { on: 'view', view: action };
    case 'up':
    case 'down':
    case 'stays': return { on: 'guess', guess: action };
    default: return { on: action };
  }
}

const STEPS: { readonly [On in keyof LectureEvents]: (state: LectureState, event: LectureEvent<On>, sheet: LectureSheet) => LectureStep } = {
  enter: (state, { fills }) => (state.isOpen
    ? only(state)
    : { state: { ...state, isOpen: true }, effects: [{ do: 'open' }, { do: 'stage' }, ...(fills ? [{ do: 'fill the screen' } as const] : [])] }),
  leave: (state, _, sheet) => {
    if (!state.isOpen) return only(state);
    if (state.view === 'overview') return staged({ ...state, view: 'steps' });
    const left = { ...state, isOpen: false, isDark: false, pause: NO_PAUSE };
    const refresh = state.pause.isOn ? [{ do: 'refresh' } as const] : [];
    return { state: left, effects: [{ do: 'close' }, { do: 'remember' }, ...refresh, { do: 'show', blockId: stationOf(state, sheet).id }] };
  },
  next: (state, _, sheet) => {
    // The list is gone through section by section, with the two keys of a remote.
    if (state.view === 'overview') return moved(state, sectionAhead(sheet.order, state.place), sheet);
    const here = stationOf(state, sheet);
    const isToShow = isAllRevealed(sheet.order, here, state.place) && here.blocks.some((id) => sheet.awaitsGuess(id));
    if (isToShow) {
      const isAsked = sheet.isStep(here.id) && state.pause.round?.guesses.has(here.id) === false;
      const hand = isAsked ? nextHand(state.hands) : undefined;
      return hand === undefined ? shown(state, sheet) : staged({ ...state, hands: hand });
    }
    const on = ahead(sheet.order, state.place);
    return moved(state, handAsked(state) !== undefined && state.said !== undefined ? { ...state.place, reveal: 'outcome' } : on, sheet);
  },
  back: (state, _, sheet) => (state.hands !== undefined ? staged({ ...state, hands: GUESSES[GUESSES.indexOf(state.hands) - 1] }) : moved(state, state.view === 'overview' ? sectionBehind(sheet.order, state.place) : behind(sheet.order, state.place), sheet)),
  'next section': (state, _, sheet) => moved(state, sectionAhead(sheet.order, state.place), sheet),
  'section before': (state, _, sheet) => moved(state, sectionBehind(sheet.order, state.place), sheet),
  first: (state, _, sheet) => moved(state, placeIn(sheet.order, BEGINNING), sheet),
  last: (state, _, sheet) => moved(state, ending(sheet.order), sheet),
  'go to': (state, { blockId }, sheet) => moved({ ...state, view: 'steps' }, placeOf(sheet.order, blockId) ?? state.place, sheet),
  'go to section': (state, { blockId }, sheet) => moved(state, placeOf(sheet.order, blockId) ?? state.place, sheet),
  'go to result': (state, { blockId }, sheet) => {
    const there = placeOf(sheet.order, blockId);
    return moved({ ...state, view: 'steps' }, there === undefined ? state.place : { ...there, reveal: 'result' }, sheet);
  },
  view: (state, { view }) => staged({ ...state, view: view === state.view ? 'steps' : view }),
  drawing: (state, { cellId }) => staged({ ...state, drawing: cellId }),
  input: (state, { cellId }) => staged({ ...state, input: cellId }),
  unfold: (state) => staged({ ...state, isUnfolded: !state.isUnfolded }),
  'guess first': (state) => withPause(state, switchPause(state.pause)),
  guess: (state, { guess }, sheet) => {
    const { id } = stationOf(state, sheet);
    const sentence = `The guess: ${guess}.`;
    if (state.hands === undefined && handAsked(state) !== undefined) return { state: { ...state, said: guess }, effects: [{ do: 'stage' }, { do: 'announce', sentence }] };
    if (!sheet.isStep(id) || !sheet.awaitsGuess(id)) return only(state);
    const { state: after, effects } = withPause(state, guessed(state.pause, id, guess));
    return { state: after, effects: [...effects, { do: 'announce', sentence }] };
  },
  show: (state, _, sheet) => shown(state, sheet),
  'show all': (state, _, { blocks }) => withPause(state, show(state.pause, blocks)),
  blank: (state, _, sheet) => {
    // While hands are up it is the third key of a remote: most of them are.
    const hand = handAsked(state);
    if (hand !== undefined && !state.isDark) return STEPS.guess(state, { on: 'guess', guess: hand }, sheet);
    return { state: { ...state, isDark: !state.isDark }, effects: [{ do: state.isDark ? 'lighten' as const : 'darken' as const }] };
  },
  lighten: (state) => (state.isDark ? { state: { ...state, isDark: false }, effects: [{ do: 'lighten' }] } : only(state)),
  'full screen': (state) => ({ state, effects: [{ do: 'fill the screen' }] }),
  edited: (state, { before }) => only({ ...state, hands: undefined, pause: edited(state.pause, before) }),
  follow: (state, _, { order }) => only({ ...state, place: placeIn(order, state.place) }),
};

/** Whose hands are up just now. */
export function handAsked({ hands, place, view }: LectureState): Guess | undefined {
  return view === 'steps' ? (hands ?? GUESSES.find((one) => one === place.reveal)) : undefined;
}

function nextHand(hands: Guess | undefined): Guess | undefined {
  return GUESSES[hands === undefined ? 0 : GUESSES.indexOf(hands) + 1];
}

function only(state: LectureState): LectureStep {
  return { state, effects: [] };
}

function staged(state: LectureState): LectureStep {
  return { state, effects: [{ do: 'stage' }] };
}

function withPause(state: LectureState, pause: Pause): LectureStep {
  return { state: { ...state, pause }, effects: [{ do: 'refresh' }] };
}

function moved(state: LectureState, place: Place, sheet: LectureSheet): LectureStep {
  const after = { ...state, place, hands: undefined, said: place.station === state.place.station ? state.said : undefined };
  const { stations } = sheet.order;
  const sentence = composed`${place.index + 1} of ${stations.length}: ${stationOf(after, sheet).name}`;
  return {
    state: after,
    effects: [{ do: 'settle' }, { do: 'stage' }, ...(place.station === state.place.station ? [] : [{ do: 'announce', sentence } as const])],
  };
}

/** The results withheld at the station are shown, and how they went is told. */
function shown(state: LectureState, sheet: LectureSheet): LectureStep {
  const pause = show(state.pause, stationOf(state, sheet).blocks);
  return { state: { ...state, pause, hands: undefined, place: { ...state.place, reveal: 'result' } }, effects: [{ do: 'refresh' }, { do: 'stage' }, { do: 'tell outcome' }] };
}

export function stationOf({ place }: LectureState, { order: { stations } }: LectureSheet): Station {
  return stations[place.index] ?? stations[0] ?? { id: TITLE, blocks: [], name: '', chapter: 0, hasRoomBeside: false };
}

/** Which blocks are on the wall, and as what. @param isThere whether a block is in the page */
export function castOf({ view, drawing, input }: LectureState, station: Station, isThere: (blockId: string) => boolean): ReadonlyMap<string, Role> {
  const cast = new Map<string, Role>();
  if (view === 'overview') return cast;
  if (view === 'steps') for (const id of station.blocks) cast.set(id, 'stage');
  if (view === 'steps' && !station.hasRoomBeside) return cast;
  for (const [id, role] of [[drawing ?? station.drawing ?? '', 'drawing'], [input, 'input']] as const) {
    if (!cast.has(id) && isThere(id)) cast.set(id, role);
  }
  return cast;
}
