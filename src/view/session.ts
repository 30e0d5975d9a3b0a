import type { Result } from '../core/problem/index.ts';
import type { UnitSystem } from '../core/units/types.ts';
import { createSheetGraph, type CompiledSheet, type SheetStates } from '../graph/index.ts';
import { unitSystemOf } from '../report/index.ts';
import { createHistory, type EditCommand, type SheetDocument } from '../sheet/index.ts';

/** Cells whose state changed, or all of them. */
export type ChangedCells = ReadonlySet<string> | 'all';

/** One sheet that is being worked on: its document, its history and its values, whatever keeps it. */
export interface SheetSession {
  document(): SheetDocument;
  /** The last consistent state; belongs to the document as soon as the listeners have been called. */
  states(): SheetStates;
  /** The document compiled; goes with the states once the listeners have been called. */
  compiled(): CompiledSheet;
  apply(command: EditCommand): Result<SheetDocument>;
  undo(): void;
  redo(): void;
  canUndo(): boolean;
  canRedo(): boolean;
  /** Calls back after each edit, when all that follows from it is computed. */
  subscribe(listener: (changed: ChangedCells) => void): () => void;
  system(): UnitSystem;
  setSystem(system: UnitSystem): void;
  now(): Date;
  /** Ends the merging of keystrokes into one undo step. */
  settle(): void;
}

export interface OwnedSession extends SheetSession {
  dispose(): void;
}

interface SessionDependencies {
  readonly now: () => Date;
  /** Somebody who listens has failed; the others have been told all the same. */
  readonly failed?: (error: unknown) => void;
}

/** History and graph of a document, tied together; keeps nothing. */
export function createSession(document: SheetDocument, { now, failed }: SessionDependencies): OwnedSession {
  const history = createHistory(document);
  const graph = createSheetGraph(document);
  const listeners = new Set<(changed: ChangedCells) => void>();
  const stop = graph.subscribe((changed) => {
    for (const listener of listeners) {
      // What keeps the sheet hears of an edit whether or not the page can show it.
      try {
        listener(changed);
      } catch (error) {
        failed?.(error);
      }
    }
  });
  const step = (moved: boolean): void => {
    if (moved) graph.update(history.document);
  };
  const apply = (command: EditCommand): Result<SheetDocument> => {
    const result = history.apply(command);
    if (result.ok) graph.update(result.value);
    return result;
  };
  return {
    document: () => history.document,
    states: () => graph.states(),
    compiled: () => graph.compiled(),
    apply,
    undo: () => step(history.undo()),
    redo: () => step(history.redo()),
    canUndo: () => history.canUndo,
    canRedo: () => history.canRedo,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    system: () => unitSystemOf(history.document),
    setSystem: (system) => void apply({ do: 'set front matter', key: 'units', value: system }),
    now,
    settle: () => history.settle(),
    dispose: () => {
      stop();
      listeners.clear();
      graph.dispose();
    },
  };
}
