import type { CellBase } from './cell-base.ts';

/** Begins a part on demand: what follows it, up to its `end`, is closed until somebody asks for it. Its `label` is its heading. */
export interface AsideCell extends CellBase {
  readonly kind: 'aside';
  /** What the part contains, in a line that stands there while it is closed. `{=x}` shows a live value. */
  readonly holds: string;
}

/** Ends the part on demand that was begun last. */
export interface EndCell extends CellBase {
  readonly kind: 'end';
}
