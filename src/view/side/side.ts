/**
 * What stays in view beside the sheet: its chief results, what is open, undo, and the contents. In the margin of a wide window, and on a narrow one in a line
 * at its foot that unfolds. All that it says comes from the same presented context as the lines of the sheet.
 */
import { presentChain, presentContents } from '../../report/index.ts';
import type { Desk } from '../desk.ts';
import { renderSafely } from '../fault.ts';
import { setEquationsIn } from '../equations.ts';
import { observeDesk, type ObservedDesk } from '../observed-desk.ts';
import { whenStill } from '../still.ts';
import { headingOf, keepInView, sectionInView, showAtTop } from './in-view.ts';
import { listenBeside } from './listen.ts';
import { sideTemplate } from './template.ts';
import type { SideHands, SideUi } from './side-ui.ts';

/** Where it stands, and what the page says there of keeping. */
export interface SidePlace {
  readonly element: HTMLElement;
  readonly keeping: () => string;
}

export interface Side {
  /** Shows the sheet as it is, where anything shown differs. */
  draw(): void;
  dispose(): void;
}

export function createSide({ element, keeping }: SidePlace, desk: Desk, sheet: HTMLElement): Side {
  const ui: SideUi = { isUnfolded: false, isChainOpen: false, query: '', section: -1, source: undefined, lastCell: '' };
  let drawn: { readonly asked: ObservedDesk; readonly keeping: string; readonly edited: string | undefined } | undefined;
  const draw = (): void => {
    const [said, edited] = [keeping(), desk.edited()];
    if (drawn !== undefined && drawn.keeping === said && drawn.edited === edited && drawn.asked.isStillTrue()) return;
    if (edited !== undefined && edited !== drawn?.edited) follow(edited);
    const asked = observeDesk(desk);
    drawn = { asked, keeping: said, edited };
    element.classList.toggle('unfolded', ui.isUnfolded);
    element.classList.toggle('finding', ui.query.trim() !== '');
    renderSafely(() => sideTemplate(asked.desk, ui, hands, said), element);
    setEquationsIn(element);
  };
  const follow = (cellId: string): void => {
    if (presentChain(cellId, desk.context()).length > 0) ui.source = cellId;
  };
  const change = (make: (one: SideUi) => void): void => {
    make(ui);
    drawn = undefined;
    draw();
  };
  const look = (): void => {
    const section = sectionInView(presentContents(desk.context()), desk);
    if (section === ui.section) return;
    change((one) => void (one.section = section));
    keepInView(element);
  };
  // Where the reader is can be told only of lines that lie in the page, and costs nothing where the frame lays it out in any case.
  let frame = 0;
  const lookInFrame = (): void => {
    frame ||= requestAnimationFrame(() => {
      frame = 0;
      whenStill(look, look);
    });
  };
  const hands = handsOf(ui, desk, change);
  const stop = listenBeside(element, sheet, {
    scrolled: () => whenStill(look, look),
    entered: (cellId) => {
      ui.lastCell = cellId;
      const before = ui.source;
      follow(cellId);
      const show = (): void => change(() => undefined);
      if (ui.source !== before) whenStill(show, show);
    },
    fold: () => change((one) => void (one.isUnfolded = false)),
    find: () => {
      change((one) => void (one.isUnfolded = true));
      element.querySelector<HTMLElement>('.find input')?.focus();
    },
  });
  return {
    draw: () => {
      draw();
      lookInFrame();
    },
    dispose: () => {
      cancelAnimationFrame(frame);
      stop();
      renderSafely(() => '', element);
    },
  };
}

function handsOf(ui: SideUi, desk: Desk, change: SideHands['change']): SideHands {
  const go = (blockId: string): void => {
    const from = ui.lastCell;
    change((one) => void (one.isUnfolded = false));
    desk.go(blockId, from === blockId || desk.block(from)?.kind !== 'cell' ? '' : from);
  };
  return {
    change, go,
    goToNext: (cellIds) => {
      const { blocks } = desk.context().document;
      const placeOf = (id: string): number => blocks.findIndex((block) => block.id === id);
      const last = placeOf(ui.lastCell);
      const next = cellIds.find((id) => placeOf(id) > last) ?? cellIds[0];
      if (next !== undefined) go(next);
    },
    goToSection: (blockId, index) => {
      change((one) => void (one.isUnfolded = false));
      desk.go(blockId, '');
      showAtTop(() => headingOf(blockId, index, desk));
    },
  };
}
