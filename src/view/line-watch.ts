import type { FitCell } from '../sheet/index.ts';
import { cellsOf } from '../sheet/index.ts';
import type { Desk } from './desk.ts';
import { sourceNow } from './line-shelf.ts';

/** Looks after lines from other sheets: whether their sources, as far as this browser keeps them, are still the same. */
export interface LineWatch {
  /** Compares what has not been compared yet. */
  look(): void;
  dispose(): void;
}

export function watchLines(desk: Desk): LineWatch {
  let compared: ReadonlySet<ReadonlyMap<string, string>> = new Set();
  let isGone = false;
  const compare = async (cells: readonly FitCell[]): Promise<void> => {
    // Refused by the browser: nothing can be said, and nobody asked.
    const sheets = await desk.lines?.kept().catch(() => undefined);
    if (sheets === undefined || isGone) return;
    for (const { id, snapshot } of cells) {
      if (snapshot !== undefined) desk.changeUi(id, ({ taking }) => void (taking.source = { of: snapshot, now: sourceNow(snapshot, sheets) }));
    }
  };
  const look = (): void => {
    const cells = cellsOf(desk.context().document, 'fit').filter(({ snapshot }) => snapshot !== undefined);
    const snapshots = new Set(cells.flatMap(({ snapshot }) => snapshot ?? []));
    const isNew = [...snapshots].some((snapshot) => !compared.has(snapshot));
    compared = snapshots;
    if (isNew) void compare(cells);
  };
  // Another window may have changed the source meanwhile.
  const again = (): void => {
    if (document.hidden) return;
    compared = new Set();
    look();
  };
  document.addEventListener('visibilitychange', again);
  return {
    look,
    dispose: () => {
      isGone = true;
      document.removeEventListener('visibilitychange', again);
    },
  };
}
