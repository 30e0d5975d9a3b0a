import { Runtime, type Observer, type Variable } from '@observablehq/runtime';
import type { CellBlock, SheetDocument } from '../sheet/types.ts';
import { evaluateNode, faultState, takeSnapshot, type Evaluated } from './evaluate.ts';
import { formOf } from './forms.ts';
import type { CompiledSheet, CompiledNode } from './compiled-types.ts';
import { compileSheet } from './compile.ts';
import { compiledSheet } from './compiled-sheet.ts';
import type { CellState, SheetStates } from './types.ts';

export type SheetListener = (changedCellIds: ReadonlySet<string>, states: SheetStates) => void;

/** A document as one module of the Observable runtime: an edit redefines the variables of the cells it touches. */
export interface SheetGraph {
  /** Takes the edited document; what follows from the edit is computed before the next frame. */
  update(document: SheetDocument): void;
  /** The last consistent state of the whole sheet. */
  states(): SheetStates;
  /** Resolves when nothing is left to compute. */
  settled(): Promise<SheetStates>;
  /** Calls back once per edit, when all that follows from it is computed; returns how to stop that. */
  subscribe(listener: SheetListener): () => void;
  /** Who reads whom, in an order in which every symbol comes after those it reads. */
  compiled(): CompiledSheet;
  /** How often a cell has been evaluated since the graph was made; for tests that count work. */
  evaluations(cellId: string): number;
  dispose(): void;
}

interface LiveCell {
  node: CompiledNode;
  readonly variable: Variable;
  /** Of this node; a redefined one knows nothing yet. */
  last?: Evaluated;
}

export function createSheetGraph(document: SheetDocument): SheetGraph {
  const sheet = new LiveSheet();
  sheet.update(document);
  return sheet;
}

class LiveSheet implements SheetGraph {
  private isDisposed = false;
  private readonly runtime = createRuntime(() => this.isDisposed);
  private readonly module = this.runtime.module();
  private readonly cells = new Map<string, LiveCell>();
  private readonly known = new Map<string, CellState>();
  private readonly evaluated = new Map<string, number>();
  private readonly waiting = new Set<string>();
  private readonly changed = new Set<string>();
  private readonly listeners = new Set<SheetListener>();
  private current: CompiledSheet = compiledSheet([], []);
  private snapshot = takeSnapshot(this.current, this.known);
  private whenSettled: ((states: SheetStates) => void)[] = [];

  update(document: SheetDocument): void {
    const before = this.current;
    this.current = compiledOrEmpty(document);
    const { nodes } = this.current;
    // Made of the one before by another cell in the place of one: the cells are the same, and few are looked at.
    const isAlike = this.current.definers === before.definers && nodes.length === before.nodes.length;
    if (!isAlike) this.takeAway();
    for (const node of isAlike ? nodes.filter((one, at) => one !== before.nodes[at]) : nodes) {
      const live = this.cells.get(node.cellId);
      if (live === undefined) {
        const fresh: LiveCell = { node, variable: this.module.variable(this.observer(node.cellId)) };
        this.cells.set(node.cellId, fresh);
        this.define(fresh);
      } else if (live.node !== node && live.node.signature !== node.signature) {
        live.node = node;
        this.define(live);
      }
    }
    if (this.waiting.size === 0) void Promise.resolve().then(() => this.finish());
  }

  /** Cells that are no longer in the document. */
  private takeAway(): void {
    const { nodes } = this.current;
    if (nodes.length === this.cells.size && nodes.every(({ cellId }) => this.cells.has(cellId))) return;
    const kept = new Set(nodes.map(({ cellId }) => cellId));
    for (const [cellId, live] of this.cells) {
      if (kept.has(cellId)) continue;
      this.cells.delete(cellId);
      this.known.delete(cellId);
      this.waiting.delete(cellId);
      live.variable.delete();
    }
  }

  states(): SheetStates {
    return this.snapshot;
  }

  settled(): Promise<SheetStates> {
    return this.waiting.size === 0 ? Promise.resolve(this.snapshot) : new Promise((resolve) => this.whenSettled.push(resolve));
  }

  subscribe(listener: SheetListener): () => void {
    this.listeners.add(listener);
    return () => void this.listeners.delete(listener);
  }

  compiled(): CompiledSheet {
    return this.current;
  }

  evaluations(cellId: string): number {
    return this.evaluated.get(cellId) ?? 0;
  }

  dispose(): void {
    this.isDisposed = true;
    this.listeners.clear();
    this.runtime.dispose();
  }

  private define(live: LiveCell): void {
    const { cellId, inputs } = live.node;
    this.waiting.add(cellId);
    delete live.last;
    live.variable.define(variableName(cellId), inputs.map((input) => variableName(input.cellId)), (...values: CellState[]) => this.evaluate(live, values));
  }

  private evaluate(live: LiveCell, values: readonly CellState[]): CellState {
    const { node, last } = live;
    const { cellId } = node;
    live.last = evaluateNode(node, (_id, place) => values[place], this.known.get(cellId), last === undefined ? [] : [last]);
    if (live.last !== last) this.evaluated.set(cellId, this.evaluations(cellId) + 1);
    return live.last.state;
  }

  private observer(cellId: string): Observer {
    const told = (state: CellState): void => {
      if (this.known.get(cellId) !== state) {
        this.known.set(cellId, state);
        this.changed.add(cellId);
      }
      this.waiting.delete(cellId);
      this.finish();
    };
    return {
      // The runtime tells of a deleted variable once more; nobody may wait for it.
      pending: () => {
        if (this.cells.has(cellId)) this.waiting.add(cellId);
      },
      fulfilled: (value, name) => {
        if (name !== null && this.cells.has(cellId)) told(value as CellState);
      },
      rejected: (error) => told(faultState(cellId, error)),
    };
  }

  /** Tells of what has changed, once nothing is left to compute. */
  private finish(): void {
    if (this.waiting.size > 0) return;
    this.snapshot = takeSnapshot(this.current, this.known);
    const ids = new Set(this.changed);
    this.changed.clear();
    const resolvers = this.whenSettled;
    this.whenSettled = [];
    for (const listener of this.listeners) listener(ids, this.snapshot);
    for (const resolve of resolvers) resolve(this.snapshot);
  }
}

/** A document that can not be compiled by a fault of ours has no value at all: none of before may stand beside what was typed. */
function compiledOrEmpty(document: SheetDocument): CompiledSheet {
  try {
    return compileSheet(document);
  } catch (error) {
    return compiledSheet(document.blocks.flatMap((block) => (block.kind === 'cell' ? [faultNode(block, error)] : [])), []);
  }
}

function faultNode({ id, cell }: CellBlock, error: unknown): CompiledNode {
  return { cellId: id, symbols: formOf(cell).symbols(cell), inputs: [], signature: `fault ${id} ${String(error)}`, compute: () => faultState(id, error) };
}

/**
 * A runtime that resolves no name outside the sheet (by default `name` or `length` would be the window's) and computes
 * in a microtask instead of the next animation frame, so that results are there before the frame that shows them and a
 * hidden tab stays up to date. For the second two private members are touched: the frame is chosen when the package is
 * loaded, every public way to a value (`module.value` too) waits for it, and a hidden tab is given none.
 */
function createRuntime(isDisposed: () => boolean): Runtime {
  const runtime = new Runtime({}, (name) => {
    throw new ReferenceError(`no cell defines ${name}`);
  });
  runtime._computeSoon = () => Promise.resolve().then(() => (isDisposed() ? undefined : runtime._computeNow()));
  return runtime;
}

/** Prefixed, since the runtime reserves a few names. */
function variableName(cellId: string): string {
  return `cell ${cellId}`;
}
