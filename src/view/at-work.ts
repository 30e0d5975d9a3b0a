import { render } from 'lit-html';
import { runningTests, type WholeContext } from '../report/index.ts';
import type { Block } from '../sheet/index.ts';
import { movedWords, type Announcer } from './announce.ts';
import type { BlockList } from './block-list.ts';
import { withResults, type Changes } from './changes.ts';
import { isShown } from './commands.ts';
import { forgetDrafts, type CellUi, type Desk } from './desk.ts';
import { keepEquations, setWaitingEquations } from './equations.ts';
import { renderSafely } from './fault.ts';
import { sheetFoot } from './help.ts';
import type { Lecture } from './lecture/lecture-types.ts';
import type { SourceWatch } from './source-watch.ts';
import { lightStrip, type Lighting } from './lighting.ts';
import type { LongSheet } from './long-sheet.ts';
import type { CellMenu } from './menu-later.ts';
import type { PlaceKeeper } from './reading-place.ts';
import { isWatched } from './record/running-strip.ts';
import type { StripParts } from './record/strip-parts.ts';
import type { SheetSession } from './session.ts';
import type { Side } from './side/side.ts';
import type { Steps } from './steps.ts';
import { whenStill } from './still.ts';
import { titleBlock } from './title-block.ts';
import { watchStrip } from './watch-strip.ts';

/** Equations set before the sheet first shows, ms; the others follow. */
const FIRST_EQUATIONS = 40;

/** A sheet that is being begun: where the next line is added is seen at its end. */
const SHORT = 12;

/** Of the page while something stands at the foot of its window. */
export const OVER_A_STRIP = 'over-a-strip';

/** A sheet in the page: its parts, which know of each other through it, and how it stands. */
export interface AtWork {
  readonly session: SheetSession;
  readonly frame: Frame;
  readonly uis: Map<string, CellUi>;
  readonly desk: Desk;
  readonly announcer: Announcer;
  readonly lighting: Lighting;
  readonly list: BlockList;
  readonly long: LongSheet;
  readonly lecture: Lecture;
  /** What stays in view beside the sheet, where the page has a place for it. */
  readonly side: Side | undefined;
  /** Where the reader is, where the page remembers it. */
  readonly place: PlaceKeeper | undefined;
  readonly parts: StripParts;
  readonly steps: Steps;
  readonly menu: CellMenu;
  readonly sourceWatch: SourceWatch;
  readonly now: Now;
}

export interface Frame {
  readonly root: HTMLElement;
  readonly sheet: HTMLElement;
  readonly head: HTMLElement;
  readonly foot: HTMLElement;
  /** What stands at the foot of the window. */
  readonly strip: HTMLElement;
  readonly region: HTMLElement;
}

export interface Now {
  context: WholeContext;
  changes: Changes;
  /** Cell that was edited last on the page. */
  edited: string | undefined;
  /** Blocks that are drawn. */
  blocks: ReadonlyMap<string, Block>;
  /** All blocks, drawn or not. */
  all: readonly Block[];
  /** Their places. */
  order: ReadonlyMap<string, number>;
  /** What waits for the results of the edit that was just made. */
  waiting: readonly (() => void)[];
  /** These are being done: the line that one of them goes to is drawn first, though its turn is later. */
  isActing: boolean;
  isBegun: boolean;
  headFrame: number;
}

export function contextOf(session: SheetSession): WholeContext {
  return { document: session.document(), states: session.states(), system: session.system() };
}

/** What stood in the page stays until there are values to show in its place. */
export function begin(work: AtWork): void {
  const { frame: { root, sheet, region }, now, menu, lecture } = work;
  if (now.isBegun) return;
  now.isBegun = true;
  keepEquations(root);
  update(work);
  now.changes = { ...now.changes, baseline: now.context.states };
  drawAround(work);
  setWaitingEquations(FIRST_EQUATIONS);
  root.replaceChildren(sheet, menu.element, region);
  work.place?.restore();
  lecture.begin();
  window.dispatchEvent(new CustomEvent('spanlife:begun'));
}

/** The results of a change are there: they are put into the page, and what waited for them is done. */
export function follow(work: AtWork): void {
  const { session, now, uis, lecture, announcer } = work;
  if (!now.isBegun) return begin(work);
  const before = now.context.states;
  const after = session.states();
  const { changes, isForeign } = withResults(now.changes, { before, after, compared: after === before ? undefined : lecture.edited(before) });
  now.changes = changes;
  if (isForeign) for (const record of uis.values()) forgetDrafts(record);
  update(work);
  doWhatWaited(now);
  if (after === before) return;
  const sentence = movedWords(changes.moved, after, now.context);
  if (sentence !== '') announcer.sayMoved(sentence);
}

function doWhatWaited(now: Now): void {
  const actions = now.waiting;
  now.waiting = [];
  now.isActing = true;
  try {
    for (const action of actions) action();
  } finally {
    now.isActing = false;
  }
}

/** Puts the sheet as it is into the page. */
export function update(work: AtWork): void {
  const { session, now, uis, lighting, list, long, lecture, sourceWatch } = work;
  now.context = { ...contextOf(session), ...lecture.telling() };
  lighting.follow(now.context);
  const all = now.context.document.blocks.filter((block) => isShown(block) || uis.get(block.id)?.editing !== undefined);
  if (all.length !== now.all.length || !all.every(({ id }, at) => id === now.all[at]?.id)) now.order = new Map(all.map(({ id }, index) => [id, index]));
  now.all = all;
  now.blocks = new Map(long.pick(all).map((block) => [block.id, block]));
  list.update(now.blocks);
  lecture.follow();
  sourceWatch.look();
  // The head counts and lists over the whole sheet; it follows the results within the same frame.
  const draw = (): void => drawAround(work);
  now.headFrame ||= requestAnimationFrame(() => whenStill(work, draw));
}

/** What stands above the sheet's blocks, below them and at the foot of the window. */
export function drawAround(work: AtWork): void {
  const { frame: { sheet, head, foot }, desk, lighting, long, menu, now, side } = work;
  cancelAnimationFrame(now.headFrame);
  now.headFrame = 0;
  renderSafely(() => titleBlock(desk), head);
  sheet.classList.toggle('lighting', lighting.now() !== undefined);
  drawStrips(work);
  side?.draw();
  render([long.foot(), sheetFoot(now.blocks.size === 0, now.blocks.size > SHORT ? undefined : (anchor) => menu.openAdd([...now.blocks.keys()].at(-1), anchor))], foot);
}

export function drawStrips(work: AtWork): void {
  const { frame: { strip }, desk, parts, steps, lighting } = work;
  parts.awake.want(runningTests(desk.context().document).some(isWatched));
  renderSafely(() => [watchStrip(desk, parts, () => drawStrips(work)), lightStrip(lighting.now(), desk), steps.strip()], strip);
  document.documentElement.classList.toggle(OVER_A_STRIP, strip.firstElementChild !== null);
}
