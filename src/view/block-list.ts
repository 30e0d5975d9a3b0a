import { render } from 'lit-html';
import { cellAnchor } from '../report/index.ts';
import type { Block } from '../sheet/index.ts';
import { drawBlock } from './cell.ts';
import type { CellUi, Desk } from './desk.ts';
import { isNearby, unwatchCell, watchCell } from './equations.ts';
import { sameSignature, signatureOf, type Signature } from './signature.ts';
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
  /** Id of the block that the element bears. */
  name: string;
  signature: Signature | undefined;
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

  const changedSignature = (block: Block, place: ShownBlock): Signature | undefined => {
    const signature = signatureOf(block, desk.ui(block.id), desk);
    return sameSignature(place.signature, signature) ? undefined : signature;
  };
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
    const signature = place === undefined ? undefined : changedSignature(block, place);
    if (place === undefined || signature === undefined) return;
    place.signature = signature;
    const begun = performance.now();
    const { state, template } = drawBlock(block, desk);
    place.element.className = `cell cell-${block.kind === 'prose' ? 'prose' : block.cell.kind} ${state}`.trim();
    render(template, place.element);
    place.cost = performance.now() - begun;
  };
  const isHeavy = (block: Block): boolean => {
    const there = shown.get(block.id);
    return there !== undefined && there.cost > HEAVY && changedSignature(block, there) !== undefined;
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
  const takeAway = (gone: readonly string[]): HTMLElement | undefined => {
    let left: Element | null = null;
    for (const id of gone) {
      const old = shown.get(id)?.element;
      shown.delete(id);
      uis.delete(id);
      if (old === undefined) continue;
      if (old.contains(document.activeElement)) left = old.previousElementSibling;
      unwatchCell(old);
      old.remove();
    }
    return left instanceof HTMLElement ? left : undefined;
  };
  const place = (block: Block, previous: Element): HTMLElement => {
    let there = shown.get(block.id);
    if (there === undefined) {
      there = { element: document.createElement('section'), name: '', signature: undefined, cost: 0 };
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
    finish: () => {
      if (waiting.length > 0) drawWaiting(Number.POSITIVE_INFINITY);
      clearTimeout(task);
      while (heavy.length > 0) drawHeavy();
      clearTimeout(task);
    },
    update: (blocks) => {
      const isFirst = shown.size === 0;
      followRename(blocks, shown, uis);
      const focused = document.activeElement;
      const left = takeAway([...shown.keys()].filter((id) => !blocks.has(id)));
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

/** Where the only change of ids is one that took the place of another, the block was renamed in its own text: it keeps its element. */
function followRename(blocks: ReadonlyMap<string, Block>, shown: Map<string, ShownBlock>, uis: Map<string, CellUi>): void {
  const gone = [...shown.keys()].filter((id) => !blocks.has(id));
  const come = [...blocks.keys()].filter((id) => !shown.has(id));
  const [from, to] = [gone[0], come[0]];
  if (gone.length !== 1 || come.length !== 1 || from === undefined || to === undefined) return;
  const place = shown.get(from);
  const record = uis.get(from);
  shown.delete(from);
  uis.delete(from);
  if (place !== undefined) shown.set(to, { element: place.element, name: '', signature: undefined, cost: place.cost });
  if (record !== undefined) uis.set(to, record);
}
