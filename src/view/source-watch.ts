import { cellsOf } from '../sheet/index.ts';
import { kindsAt } from '../graph/index.ts';
import { wantedOf } from './cells/take-value.ts';
import type { Desk } from './desk.ts';
import { lineSource, valueSource } from './offer-shelf.ts';

/** Looks after what was taken from other sheets: whether their sources, as far as this browser keeps them, are still the same. */
export interface SourceWatch {
  /** Compares what has not been compared yet. */
  look(): void;
  dispose(): void;
}

type Texts = ReadonlyMap<string, string>;

/** Only the sheets that something came from are worked out. */
function titles(cells: readonly { readonly of: Texts }[]): ReadonlySet<string> {
  return new Set(cells.flatMap(({ of }) => of.get('from') ?? []));
}

export function watchSources(desk: Desk): SourceWatch {
  let compared: ReadonlySet<Texts> = new Set();
  let isGone = false;
  const compareLines = async (cells: readonly { readonly id: string; readonly of: Texts }[]): Promise<void> => {
    // Refused by the browser: nothing can be said, and nobody asked.
    const sheets = cells.length === 0 ? undefined : await desk.lines?.kept(titles(cells)).catch(() => undefined);
    if (sheets === undefined || isGone) return;
    for (const { id, of } of cells) desk.changeUi(id, ({ taking }) => void (taking.source = { of, now: lineSource(of, sheets) }));
  };
  const compareValues = async (cells: readonly { readonly id: string; readonly of: Texts }[]): Promise<void> => {
    const sheets = cells.length === 0 ? undefined : await desk.values?.(wantedOf(desk)).kept(titles(cells)).catch(() => undefined);
    if (sheets === undefined || isGone) return;
    for (const { id, of } of cells) desk.changeUi(id, ({ takingValues }) => void (takingValues.source = { of, now: valueSource(of, sheets) }));
  };
  const look = (): void => {
    const { document: sheet } = desk.context();
    const lines = cellsOf(sheet, 'fit').flatMap(({ id, snapshot }) => (snapshot === undefined ? [] : [{ id, of: snapshot }]));
    const values = cellsOf(sheet, 'given').flatMap(({ id, taken }) => (taken === undefined ? [] : [{ id, of: taken }]));
    const now = new Set([...lines, ...values].map(({ of }) => of));
    const isNew = (cells: typeof lines): boolean => cells.some(({ of }) => !compared.has(of));
    const [newLines, newValues] = [isNew(lines), isNew(values)];
    compared = now;
    if (newLines) void compareLines(lines);
    if (newValues) void compareValues(values);
  };
  // Another window may have changed the source meanwhile.
  const again = (): void => {
    if (document.hidden) return;
    compared = new Set();
    look();
    // And so may the list of materials.
    for (const choice of cellsOf(desk.context().document, 'choice')) if (kindsAt(choice).length > 0) desk.changeUi(choice.id, () => undefined);
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
