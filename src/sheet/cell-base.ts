import type { Problem } from '../core/problem/index.ts';

/**
 * Where what stands in a cell comes from, where it is not the reader's own: `assumed` until somebody has looked, as g or one half of the load;
 * `example`, invented for the example that came with the sheet; `set`, given to this team by who handed the sheet out.
 */
export type Origin = 'assumed' | 'example' | 'set';

/** What every kind of cell has. */
export interface CellBase {
  readonly id: string;
  /**
   * A warning for each key that the sheet does not understand, with its line and the near name: kept on save. Keys inside an option or an item
   * have their place before them: `option 2: colour`.
   */
  readonly unknownKeys: readonly Problem[];
  /** Problems of the cell's own text: broken YAML, a missing key, a malformed symbol. */
  readonly problems: readonly Problem[];
  /** Where what stands in it comes from; absent where it is the reader's own, or nothing is entered in such a cell. */
  readonly origin?: Origin;
  /** Whether it belongs to one specimen and is emptied for the next. */
  readonly perSpecimen?: boolean;
  readonly label?: string;
  /** Help or source shown beside the line, plain text. */
  readonly note?: string;
}
