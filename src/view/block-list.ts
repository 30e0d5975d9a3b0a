import { render } from 'lit-html';
import { cellAnchor } from '../report/index.ts';
import { lineageOf, type Block, type Lineage } from '../sheet/index.ts';
import { drawBlock } from './cell.ts';
import { faultBlock, renderAnew, safely } from './fault.ts';
import type { CellUi, Desk } from './desk.ts';
import { isNearby, unwatchCell, watchCell } from './equations.ts';
import { observeDesk, type ObservedDesk } from './observed-desk.ts';
import { whenStill } from './still.ts';

/** Blocks that fill a tall window are drawn at once before anything is known of what is in view. */
const FIRST_BLOCKS = 16;
/** Time for what is out of view, ms, before the page is given back to the reader; then slice by slice. */
const AT_ONCE = 24;
const SLICE = 12;
/** A block that takes longer, ms, follows after the results, one in a task: a chart of a long table does. */
const HEAVY = 50;
/** Rest after an edit, ms, before heavy blocks out of view follow. */
const REST = 600;

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

/** @param head element that the blocks come after; @param uis records of the cells, kept here in step with the blocks */
export function createBlockList(head: Element, uis: Map<string, CellUi>, desk: Desk, whenDrawn: () => void): BlockList {
  const shown = new Map<string, ShownBlock>();
  let waiting: Block[] = [];
  let heavy: Block[] = [];
  let task: ReturnType<typeof setTimeout> | undefined;

  const hasChanged = (block: Block, { drawn }: ShownBlock): boolean => drawn?.block !== block || !safely(() => drawn.asked.isStillTrue(), () => false);
  let isDrawing = false;
  const drawIfChanged = (block: Block): void => {
    // To take away what has the focus tells its blank that it is left, which draws: not into what is just being drawn.
    if (isDrawing) {
      queueMicrotask(() => drawIfChanged(desk.block(block.id) ?? block));
      return;
    }
    isDrawing = true;
    try {
      draw(block);
    } finally {
      isDrawing = false;
    }
  };
  const draw = (block: Block): void => {
    const place = shown.get(block.id);
    if (place === undefined || !hasChanged(block, place)) return;
    const asked = observeDesk(desk);
    place.drawn = { block, asked };
    const begun = performance.now();
    const { state, template } = safely(() => drawBlock(block, asked.desk), (error) => faultBlock(block, error, asked.desk));
    place.element.className = `cell cell-${block.kind === 'prose' ? 'prose' : block.cell.kind} ${state}`.trim();
    safely(() => void render(template, place.element), (error) => renderAnew(faultBlock(block, error, asked.desk).template, place.element));
    place.cost = performance.now() - begun;
  };
  const isHeavy = (block: Block): boolean => {
    const there = shown.get(block.id);
    return there !== undefined && there.cost > HEAVY && hasChanged(block, there);
  };
  const drawHeavy = (): void => {
    const next = heavy.find(({ id }) => isInView(id)) ?? heavy[0];
    if (next === undefined) return;
    heavy = heavy.filter((block) => block !== next);
    drawIfChanged(next);
    followLater();
  };
  const isInView = (id: string): boolean => {
    const there = shown.get(id)?.element;
    return there !== undefined && isNearby(there);
  };
  const followLater = (): void => {
    if (heavy.length > 0) task = setTimeout(() => whenStill(drawHeavy, drawHeavy), heavy.some(({ id }) => isInView(id)) ? 0 : REST);
  };
  const drawWaiting = (milliseconds: number): void => {
    clearTimeout(task);
    const until = performance.now() + milliseconds;
    let drawn = 0;
    for (const block of waiting) {
      drawIfChanged(block);
      drawn++;
      if (performance.now() > until) break;
    }
    waiting = waiting.slice(drawn);
    if (waiting.length > 0) drawWaitingLater();
    else {
      whenDrawn();
      followLater();
    }
  };
  const drawWaitingLater = (): void => {
    task = setTimeout(() => whenStill(drawWaitingLater, () => drawWaiting(SLICE)));
  };
  const takeAway = (gone: readonly ShownBlock[]): HTMLElement | undefined => {
    let left: Element | null = null;
    for (const { element: old } of gone) {
      if (old.contains(document.activeElement)) left = old.previousElementSibling;
      unwatchCell(old);
      old.remove();
    }
    return left instanceof HTMLElement ? left : undefined;
  };
  const place = (block: Block, previous: Element): HTMLElement => {
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
  };

  return {
    element: (blockId) => shown.get(blockId)?.element,
    drawIfChanged,
    drawUndrawn: () => {
      for (const block of waiting) if (shown.get(block.id)?.drawn === undefined) drawIfChanged(block);
    },
    finish: () => {
      if (waiting.length > 0) drawWaiting(Number.POSITIVE_INFINITY);
      clearTimeout(task);
      while (heavy.length > 0) drawHeavy();
      clearTimeout(task);
    },
    update: (blocks) => {
      const isFirst = shown.size === 0;
      const gone = followRenames(blocks, shown, uis);
      const focused = document.activeElement;
      const left = takeAway(gone);
      let previous: Element = head;
      for (const block of blocks.values()) previous = place(block, previous);
      waiting = [];
      heavy = [];
      for (const [i, block] of [...blocks.values()].entries()) {
        const there = shown.get(block.id)?.element;
        if (isHeavy(block)) heavy.push(block);
        else if (isFirst ? i < FIRST_BLOCKS : there !== undefined && isNearby(there)) drawIfChanged(block);
        else waiting.push(block);
      }
      if (focused instanceof HTMLElement && focused !== document.activeElement) (focused.isConnected ? focused : left)?.focus({ preventScroll: true });
      if (isFirst) drawWaitingLater();
      else drawWaiting(AT_ONCE);
    },
    dispose: () => {
      clearTimeout(task);
      for (const { element } of shown.values()) unwatchCell(element);
    },
  };
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
