import type { Result } from '../core/problem/index.ts';
import type { LineToTake } from '../graph/index.ts';

/** Another sheet, with the lines fitted in it. */
export interface SheetWithLines {
  readonly title: string;
  /** What tells it apart from others of its title: team, when it was changed, or the file's name. */
  readonly detail: string;
  readonly lines: readonly LineToTake[];
}

/** Where lines of other sheets can be had. Calls may reject where the browser refuses; whoever calls says so. */
export interface LineShelf {
  /** Sheets kept in this browser that have a fit of their own, the one that lies open left out, latest change first. */
  kept(): Promise<readonly SheetWithLines[]>;
  ofFile(file: File): Promise<Result<SheetWithLines>>;
}

/** How a line that was taken stands to the sheet it came from. */
export type SourceNow =
  | { readonly state: 'same' | 'not here' }
  | {
      readonly state: 'changed';
      /** Whether its specimens are others than then; else only the way the line is drawn. */
      readonly tests: boolean;
      readonly snapshot: ReadonlyMap<string, string>;
    };

/** Entries that tell where and when, not what. */
const ABOUT = new Set(['taken', 'from']);

/** Compares a line with those of the kept sheets: the one of the same title and fit is its source. */
export function sourceNow(taken: ReadonlyMap<string, string>, sheets: readonly SheetWithLines[]): SourceNow {
  const found = sheets.flatMap(({ lines }) => lines.flatMap(({ snapshot }) => (snapshot !== undefined && isSource(snapshot, taken) ? [snapshot] : [])));
  const [first] = found;
  if (first === undefined) return { state: 'not here' };
  if (found.some((snapshot) => saysTheSame(snapshot, taken))) return { state: 'same' };
  return { state: 'changed', tests: first.get('data') !== taken.get('data'), snapshot: first };
}

function isSource(snapshot: ReadonlyMap<string, string>, taken: ReadonlyMap<string, string>): boolean {
  return snapshot.get('from') === taken.get('from') && snapshot.get('fit') === taken.get('fit');
}

function saysTheSame(a: ReadonlyMap<string, string>, b: ReadonlyMap<string, string>): boolean {
  return [...a].every(([key, text]) => ABOUT.has(key) || b.get(key) === text);
}
