import { render } from 'lit-html';
import { cellAnchor } from '../report/index.ts';
import { asidesIn, lineageOf, shapeOf, type Block, type Lineage } from '../sheet/index.ts';
import { drawBlock } from './cell.ts';
import { createDrawQueue } from './draw-queue.ts';
import { faultBlock, renderAnew, safely } from './fault.ts';
import type { CellUi, Desk } from './desk.ts';
import { isCellNearby, unwatchCell, watchCell } from './equations.ts';
import { observeDesk, type ObservedDesk } from './observed-desk.ts';

/** Blocks that fill a tall window are drawn at once before anything is known of what is in view. */
const FIRST_BLOCKS = 16;
/** A block that takes longer, ms, follows after the results, one in a task: a chart of a long table does. */
const HEAVY = 50;
interface ShownBlock {
  readonly element: HTMLElement;
  readonly lineage: Lineage;
  /** Id of the block that the element bears. */
  name: string;
  /** The block as it was drawn, and what was asked for it; undefined until it is. */
  drawn: { readonly block: Block; readonly asked: ObservedDesk } | undefined;
  /** Milliseconds that it took to draw it last. */
  cost: number;
}

/** The blocks of the sheet in the page, each in an element of its own. */
export interface BlockList {
  element(blockId: string): HTMLElement | undefined;
  /**
   * Puts the blocks in their places and draws those of which something shown has changed: what is in view at once, the
   * others too unless they are too many; these follow in the tasks after this one. Calls back when all are drawn but those
   * that take long by themselves, which follow one by one.
   */
  update(blocks: ReadonlyMap<string, Block>): void;
  drawIfChanged(block: Block): void;
  /** Draws now the blocks that have never been: a key that goes on to the next blank must find it. */
  drawUndrawn(): void;
  /** Draws now what still waits. */
  finish(): void;
  dispose(): void;
}

interface BlockListHands {
  /** What can be seen, or nearly, stands as it is to be. */
  readonly whenSeen: () => void;
  /** All are drawn but those that take long by themselves. */
  readonly whenDrawn: () => void;
}

/** @param head element that the blocks come after; @param uis records of the cells, kept here in step with the blocks */
export function createBlockList(head: Element, uis: Map<string, CellUi>, desk: Desk, { whenSeen, whenDrawn }: BlockListHands): BlockList {
  const shown = new Map<string, ShownBlock>();
  let arranged: readonly Block[] = [];
  let sight: Sight | undefined;
  let isDrawing = false;
  const drawIfChanged = (block: Block): void => {
    // To take away what has the focus tells its blank that it is left, which draws: not into what is just being drawn.
    if (isDrawing) {
      queueMicrotask(() => drawIfChanged(desk.block(block.id) ?? block));
      return;
    }
    const place = shown.get(block.id);
    if (place === undefined || desk.folds.isAway(block.id) || !hasChanged(block, place)) return;
    isDrawing = true;
    try {
      draw(block, place, desk);
    } finally {
      isDrawing = false;
    }
  };
  const isInView = ({ id }: Block): boolean => {
    const there = shown.get(id);
    return there !== undefined && isCellNearby(there.element);
  };
  const queue = createDrawQueue({ draw: drawIfChanged, isInView, whenDrawn });

  return {
    element: (blockId) => shown.get(blockId)?.element,
    drawIfChanged,
    drawUndrawn: () => {
      for (const block of queue.waiting()) if (shown.get(block.id)?.drawn === undefined) drawIfChanged(block);
    },
    finish: queue.finish,
    update: (blocks) => {
      const isFirst = shown.size === 0;
      const all = [...blocks.values()];
      const focused = document.activeElement;
      const isAsBefore = areAlike(all, arranged);
      const left = isAsBefore ? undefined : arrange(blocks, shown, uis, head);
      arranged = all;
      const now = { away: desk.folds.away(), asides: asidesIn(shapeOf(desk.session.document())).of };
      if (!isAsBefore || now.away !== sight?.away || now.asides !== sight.asides) putAway(all, shown, now);
      sight = now;
      const [waiting, heavy]: [Block[], Block[]] = [[], []];
      queue.put(waiting, heavy);
      for (const [i, block] of all.entries()) {
        if (isHeavy(block, shown.get(block.id), desk)) heavy.push(block);
        else if (isFirst ? i < FIRST_BLOCKS : isInView(block)) drawIfChanged(block);
        else waiting.push(block);
      }
      if (focused instanceof HTMLElement && focused !== document.activeElement) (focused.isConnected ? focused : left)?.focus({ preventScroll: true });
      if (isFirst) return queue.beginLater();
      whenSeen();
      queue.begin();
    },
    dispose: () => {
      queue.stop();
      for (const { element } of shown.values()) unwatchCell(element);
    },
  };
}

/** Whether it took long to draw it last, and it is to be drawn again. */
function isHeavy(block: Block, there: ShownBlock | undefined, desk: Desk): boolean {
  return there !== undefined && there.cost > HEAVY && !desk.folds.isAway(block.id) && hasChanged(block, there);
}

/** Whether the block itself is another than the one that was drawn, or anything that was asked for it. */
function hasChanged(block: Block, { drawn }: ShownBlock): boolean {
  return drawn?.block !== block || !safely(() => drawn.asked.isStillTrue(), () => false);
}

function draw(block: Block, place: ShownBlock, desk: Desk): void {
  const asked = observeDesk(desk);
  place.drawn = { block, asked };
  const begun = performance.now();
  const { state, template } = safely(() => drawBlock(block, asked.desk), (error) => faultBlock(block, error, asked.desk));
  place.element.className = `cell cell-${block.kind === 'prose' ? 'prose' : block.cell.kind} ${state}`.trim();
  safely(() => void render(template, place.element), (error) => renderAnew(faultBlock(block, error, asked.desk).template, place.element));
  place.cost = performance.now() - begun;
}

/** Whether these are the same blocks in the same order, whatever stands in them. */
function areAlike(blocks: readonly Block[], before: readonly Block[]): boolean {
  return blocks.length === before.length && blocks.every((block, i) => {
    const other = before[i];
    return other === block || (other !== undefined && other.id === block.id && lineageOf(other) === lineageOf(block));
  });
}

/** Puts the elements in the order of their blocks. What stood before the one that had the focus, where that is gone. */
function arrange(blocks: ReadonlyMap<string, Block>, shown: Map<string, ShownBlock>, uis: Map<string, CellUi>, head: Element): HTMLElement | undefined {
  const left = takeAway(followRenames(blocks, shown, uis));
  let previous = head;
  for (const block of blocks.values()) previous = placeAfter(previous, block, shown);
  return left;
}

/** Takes the elements of blocks that are gone out of the page. Where one had the focus: what stood before it. */
function takeAway(gone: readonly ShownBlock[]): HTMLElement | undefined {
  let left: Element | null = null;
  for (const { element: old } of gone) {
    if (old.contains(document.activeElement)) left = old.previousElementSibling;
    unwatchCell(old);
    old.remove();
  }
  return left instanceof HTMLElement ? left : undefined;
}

/** The element of a block, in its place. */
function placeAfter(previous: Element, block: Block, shown: Map<string, ShownBlock>): HTMLElement {
  let there = shown.get(block.id);
  if (there === undefined) {
    there = { element: document.createElement('section'), lineage: lineageOf(block), name: '', drawn: undefined, cost: 0 };
    there.element.className = 'cell';
    there.element.tabIndex = -1;
    shown.set(block.id, there);
    watchCell(there.element);
  }
  if (there.name !== block.id) nameElement(there, block);
  if (previous.nextElementSibling !== there.element) previous.after(there.element);
  return there.element;
}

/** What is out of sight, and what stands in a part on demand. */
interface Sight {
  readonly away: ReadonlySet<string>;
  readonly asides: ReadonlyMap<string, string>;
}

/** A block out of sight is drawn when somebody asks for it. One in a part on demand that stands open is seen to belong there. */
function putAway(blocks: readonly Block[], shown: ReadonlyMap<string, ShownBlock>, { away, asides }: Sight): void {
  for (const { id } of blocks) {
    const element = shown.get(id)?.element;
    if (element === undefined) continue;
    const [isAway, isInAside] = [away.has(id), asides.has(id)];
    // To set what is set already costs more than to ask, and this is done for every block at every edit.
    if (element.hidden !== isAway) element.hidden = isAway;
    if (element.hasAttribute('data-in-aside') !== isInAside) element.toggleAttribute('data-in-aside', isInAside);
  }
}

function nameElement(place: ShownBlock, block: Block): void {
  place.name = block.id;
  place.element.dataset['cell'] = block.id;
  place.element.id = cellAnchor(block.id);
  if (block.kind === 'cell' && 'symbol' in block.cell) place.element.dataset['symbol'] = block.cell.symbol;
}

/**
 * Ids are made from what is typed: where a block has another id than before, its element and its record go with it, so that an open editor
 * stays with its cell whatever is typed there. What belongs to a block that is gone does not pass to another one that bears its id.
 */
function followRenames(blocks: ReadonlyMap<string, Block>, shown: Map<string, ShownBlock>, uis: Map<string, CellUi>): readonly ShownBlock[] {
  const ids = new Map([...blocks].map(([id, block]) => [lineageOf(block), id]));
  const moved = [...shown].filter(([id, { lineage }]) => ids.get(lineage) !== id);
  const left: ShownBlock[] = [];
  const taken = moved.map(([id, place]) => {
    const record = uis.get(id);
    shown.delete(id);
    uis.delete(id);
    return { place, record, to: ids.get(place.lineage) };
  });
  for (const { place, record, to } of taken) {
    if (to === undefined) {
      left.push(place);
      continue;
    }
    shown.set(to, { ...place, name: '', drawn: undefined });
    if (record !== undefined) uis.set(to, record);
  }
  return left;
}
