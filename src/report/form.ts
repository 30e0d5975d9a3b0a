import type { SampledResult } from '../graph/index.ts';
import type { Cell, CellBlock } from '../sheet/types.ts';
import type { CellTemplate } from './parts.ts';
import type { ReportPart } from './report-part.ts';
import type { PresentContext } from './present/types.ts';

/** Where a cell stands, and what a report may show below it. */
export interface Place {
  readonly block: CellBlock;
  /** Finished samples of its result. */
  readonly sampled: SampledResult | undefined;
}

/** All that a report asks of one kind of cell. */
export interface Form<C extends Cell> {
  /** What it looks like. */
  template(cell: C, context: PresentContext, place: Place): CellTemplate;
  /** What the report says of it, and where; absent where that is the same as on the page, in its place. */
  report?(cell: C, context: PresentContext, place: Place): ReportPart;
  /** The same in LaTeX; absent where that has nothing of it. */
  tex?(cell: C, context: PresentContext): string;
  /** Its own number is marked where a slip has moved it; what has none is marked as a whole. */
  readonly marksSlips?: true;
}
