import type { DrawnResult, DrawProgress, DrawRequest } from '../../graph/index.ts';

/** Makes draws beside the page, so that the sheet goes on while they are made. */
export interface Drawer {
  draw(request: DrawRequest, listener: DrawListener): DrawingInHand;
}

export interface DrawListener {
  readonly progress: (progress: DrawProgress) => void;
  /** Not after `cancel`. */
  readonly done: (result: DrawnResult) => void;
  /** The browser did not let them be made. */
  readonly failed: () => void;
}

export interface DrawingInHand {
  /** Ends with what there is: `done` follows. */
  stop(): void;
  /** Ends without a result. */
  cancel(): void;
}
