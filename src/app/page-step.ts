import type { SlipGroup } from '../report/index.ts';
import { KEEPS_NOTHING, type KeepingState } from './autosave.ts';
import type { PanelName } from './head-state.ts';
import type { HoldState } from './hold-types.ts';
import { inOrderSeen, type KeptSheet } from './kept-sheet.ts';
import type { Persistence } from './persistence.ts';
import type { DamagedRecord } from './shelf-store.ts';

/** How the page stands around the sheet that lies open. */
export interface PageState {
  readonly kept: readonly KeptSheet[];
  readonly damaged: readonly DamagedRecord[];
  readonly promise: Persistence | undefined;
  readonly keeping: KeepingState;
  readonly unfolded: PanelName | undefined;
  /** The panel that was asked for last: it unfolds once what it lists has been read. */
  readonly toUnfold: PanelName | undefined;
  readonly slips: readonly SlipGroup[];
  readonly hold: HoldState | undefined;
}

interface PageEvents {
  /** A panel is asked for, or none. */
  unfold: { readonly panel: PanelName | undefined };
  /** Its lists were read, or have taken too long to be waited for. */
  'waited for': { readonly panel: PanelName };
  'lists read': { readonly kept: readonly KeptSheet[]; readonly damaged: readonly DamagedRecord[] };
  /** Another sheet lies open. */
  opened: { readonly canKeep: boolean };
  /** The sheet, its values or its history changed. */
  changed: object;
  /** What a panel shows is to be worked out anew. */
  look: object;
  /** Nothing has changed for a moment since. */
  rested: object;
  'worked out': { readonly slips?: readonly SlipGroup[]; readonly hold?: HoldState };
  keeping: { readonly state: KeepingState };
  promise: { readonly answer: Persistence };
}

export type PageEvent<On extends keyof PageEvents = keyof PageEvents> = { [One in On]: { readonly on: One } & PageEvents[One] }[On];

/**
 * What is to be done outside the state, in order. `show when still`: not between a press and its click; `work out`: what the open panel
 * shows; `fold earlier`: the list of earlier states begins anew.
 */
export type PageEffect =
  | { readonly do: 'show' | 'show when still' | 'refresh lists' | 'work out' | 'work out soon' | 'fold earlier' | 'look at promise' }
  | { readonly do: 'read lists'; readonly panel: PanelName }
  /** Other windows and the next visit are told of a saving, and the browser is asked to keep it. */
  | { readonly do: 'tell kept' }
  | { readonly do: 'tell copied'; readonly otherId: string };

interface PageStep {
  readonly state: PageState;
  readonly effects: readonly PageEffect[];
}

export const NEW_PAGE: PageState = {
  kept: [], damaged: [], promise: undefined, keeping: { state: 'unchanged' }, unfolded: undefined, toUnfold: undefined, slips: [], hold: undefined,
};

/** The page after an event, and what else is to be done. */
export function pageStep<On extends keyof PageEvents>(state: PageState, event: PageEvent<On>): PageStep {
  return STEPS[event.on](state, event);
}

const STEPS: { readonly [On in keyof PageEvents]: (state: PageState, event: PageEvent<On>) => PageStep } = {
  // Lists of sheets are read before they are shown: one that was put in order under the finger would open another sheet than was pressed.
  unfold: (state, { panel }) => {
    const asked = { ...state, toUnfold: panel };
    return panel !== undefined && hasLists(panel) ? { state: asked, effects: [{ do: 'read lists', panel }] } : unfolded(asked, panel);
  },
  'waited for': (state, { panel }) => (state.toUnfold === panel ? unfolded(state, panel) : only(state)),
  'lists read': (state, { kept, damaged }) =>
    only({ ...state, damaged, kept: state.unfolded !== undefined && hasLists(state.unfolded) ? inOrderSeen(kept, state.kept) : kept }),
  opened: (state, { canKeep }) => workedOutSoon({ ...state, keeping: canKeep ? { state: 'unchanged' } : { state: 'failed', reason: KEEPS_NOTHING } }),
  changed: (state) => {
    const { effects } = workedOutSoon(state);
    return { state, effects: [{ do: 'show when still' }, ...effects] };
  },
  look: workedOutSoon,
  rested: (state) => ({ state, effects: [{ do: 'work out' }, { do: 'show' }] }),
  'worked out': (state, { slips = state.slips, hold = state.hold }) => only({ ...state, slips, hold }),
  keeping: (state, { state: keeping }) => {
    const after = { ...state, keeping };
    // Its words may take another line, which moves what lies below.
    if (keeping.state !== 'kept' && keeping.state !== 'copied') return { state: after, effects: [{ do: 'show when still' }] };
    const told = keeping.state === 'copied' ? [{ do: 'tell copied', otherId: keeping.otherId } as const] : [];
    // The list reads every sheet whole: only while somebody looks at it.
    return { state: after, effects: [{ do: 'tell kept' }, ...told, { do: state.unfolded === 'sheets' ? 'refresh lists' : 'show when still' }] };
  },
  promise: (state, { answer }) => {
    if (answer === state.promise) return only(state);
    return { state: { ...state, promise: answer }, effects: state.unfolded === 'sheets' ? [{ do: 'show' }] : [] };
  },
};

function only(state: PageState): PageStep {
  return { state, effects: [] };
}

function hasLists(panel: PanelName): boolean {
  return panel === 'sheets' || panel === 'hold';
}

function unfolded(state: PageState, panel: PanelName | undefined): PageStep {
  const look = panel === 'sheets' ? [{ do: 'look at promise' } as const] : [];
  return { state: { ...state, unfolded: panel }, effects: [{ do: 'work out' }, { do: 'fold earlier' }, { do: 'show' }, ...look] };
}

/** Slips are tried on the sheet and held states worked out only while somebody looks. */
function workedOutSoon(state: PageState): PageStep {
  return { state, effects: state.unfolded === 'slips' || state.unfolded === 'hold' ? [{ do: 'work out soon' }] : [] };
}
