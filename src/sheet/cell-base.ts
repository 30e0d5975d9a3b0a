import type { Problem } from '../core/problem/index.ts';

/** What every kind of cell has. */
export interface CellBase {
  readonly id: string;
  /**
   * Keys the sheet does not understand: kept on save, shown as "not understood". Keys inside an option or an item are
   * told with their place: `option 2: colour`.
   */
  readonly unknownKeys: readonly string[];
  /** Problems of the cell's own text: broken YAML, a missing key, a malformed symbol. */
  readonly problems: readonly Problem[];
  readonly label?: string;
  /** Help or source shown beside the line, plain text. */
  readonly note?: string;
}
