import { Runtime, type Variable } from '@observablehq/runtime';
import type { CellBlock, SheetDocument } from '../sheet/types.ts';
import { definedSymbols } from './names.ts';
import { computeNode, faultState, readFrom, sameItems, takeSnapshot, type InputState } from './node-state.ts';
import { compilePlan, type Plan, type PlanNode } from './plan.ts';
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
  plan(): Plan;
  /** How often a cell has been evaluated since the graph was made; for tests that count work. */
  evaluations(cellId: string): number;
  dispose(): void;
}

interface LiveCell {
  node: PlanNode;
  readonly variable: Variable;
  last?: CellState;
  lastInputs: readonly (InputState | undefined)[];
}

export function createSheetGraph(document: SheetDocument): SheetGraph {
  const runtime = createRuntime();
  const module = runtime.module();
  const cells = new Map<string, LiveCell>();
  const states = new Map<string, CellState>();
  const evaluated = new Map<string, number>();
  const waiting = new Set<string>();
  const changed = new Set<string>();
  const listeners = new Set<SheetListener>();
  let plan: Plan = { nodes: [], order: [] };
  let snapshot = takeSnapshot(plan, states);
  let whenSettled: ((states: SheetStates) => void)[] = [];

  const finish = (): void => {
    if (waiting.size > 0) return;
    snapshot = takeSnapshot(plan, states);
    const ids = new Set(changed);
    changed.clear();
    const resolvers = whenSettled;
    whenSettled = [];
    for (const listener of listeners) listener(ids, snapshot);
    for (const resolve of resolvers) resolve(snapshot);
  };

  const observer = (cellId: string) => ({
    // The runtime tells of a deleted variable once more; nobody may wait for it.
    pending: () => {
      if (cells.has(cellId)) waiting.add(cellId);
    },
    fulfilled: (value: unknown, name: string | null) => {
      if (name === null || !cells.has(cellId)) return;
      const state = value as CellState;
      if (states.get(cellId) !== state) {
        states.set(cellId, state);
        changed.add(cellId);
      }
      waiting.delete(cellId);
      finish();
    },
    rejected: (error: unknown) => {
      states.set(cellId, faultState(cellId, error));
      changed.add(cellId);
      waiting.delete(cellId);
      finish();
    },
  });

  const evaluate = (live: LiveCell, inputs: readonly (CellState | undefined)[]): CellState => {
    const { node } = live;
    const read = node.inputs.map((input, i) => readFrom(input, inputs[i]));
    if (live.last !== undefined && sameItems(read, live.lastInputs)) return live.last;
    const { cellId } = node;
    evaluated.set(cellId, (evaluated.get(cellId) ?? 0) + 1);
    const state = computeNode(node, read, states.get(cellId));
    live.last = state;
    live.lastInputs = read;
    return state;
  };

  const define = (live: LiveCell): void => {
    waiting.add(live.node.cellId);
    delete live.last;
    const inputs = live.node.inputs.map(({ cellId }) => variableName(cellId));
    live.variable.define(variableName(live.node.cellId), inputs, (...values: CellState[]) => evaluate(live, values));
  };

  const update = (next: SheetDocument): void => {
    plan = compiled(next);
    const kept = new Set(plan.nodes.map(({ cellId }) => cellId));
    for (const [cellId, live] of cells) {
      if (kept.has(cellId)) continue;
      cells.delete(cellId);
      states.delete(cellId);
      waiting.delete(cellId);
      live.variable.delete();
    }
    for (const node of plan.nodes) {
      const live = cells.get(node.cellId);
      if (live === undefined) {
        const fresh: LiveCell = { node, variable: module.variable(observer(node.cellId)), lastInputs: [] };
        cells.set(node.cellId, fresh);
        define(fresh);
      } else if (live.node.signature !== node.signature) {
        live.node = node;
        define(live);
      }
    }
    if (waiting.size === 0) void Promise.resolve().then(finish);
  };

  update(document);
  return {
    update,
    states: () => snapshot,
    settled: () => (waiting.size === 0 ? Promise.resolve(snapshot) : new Promise((resolve) => whenSettled.push(resolve))),
    subscribe: (listener) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    plan: () => plan,
    evaluations: (cellId) => evaluated.get(cellId) ?? 0,
    dispose: () => {
      listeners.clear();
      runtime.dispose();
    },
  };
}

/** A document that can not be compiled by a fault of ours has no value at all: none of before may stand beside what was typed. */
function compiled(document: SheetDocument): Plan {
  try {
    return compilePlan(document);
  } catch (error) {
    return { nodes: document.blocks.flatMap((block) => (block.kind === 'cell' ? [faultNode(block, error)] : [])), order: [] };
  }
}

function faultNode({ id, cell }: CellBlock, error: unknown): PlanNode {
  return { cellId: id, symbols: definedSymbols(cell), inputs: [], signature: `fault ${id} ${String(error)}`, compute: () => faultState(id, error) };
}

/**
 * A runtime that resolves no name outside the sheet (by default `name` or `length` would be the window's) and computes
 * in a microtask instead of the next animation frame, so that results are there before the frame that shows them and a
 * hidden tab stays up to date.
 */
function createRuntime(): Runtime {
  const runtime = new Runtime({}, (name) => {
    throw new ReferenceError(`no cell defines ${name}`);
  });
  runtime._computeSoon = () => Promise.resolve().then(() => (runtime._disposed ? undefined : runtime._computeNow()));
  return runtime;
}

/** Prefixed, since the runtime reserves a few names. */
function variableName(cellId: string): string {
  return `cell ${cellId}`;
}
