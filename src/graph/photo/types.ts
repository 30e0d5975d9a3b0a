import type { FractureReading, FractureUncertainty } from '../../core/mechanics/index.ts';
import type { MarkPoint, ScaleMark, StoredPicture } from '../../sheet/index.ts';

/** A picture with its marks read, and what they say. Points are in dots of the picture. */
export interface PhotoState {
  readonly picture?: StoredPicture;
  readonly scale: ScaleMark;
  readonly section: readonly MarkPoint[];
  readonly final: readonly MarkPoint[];
  readonly origins: readonly MarkPoint[];
  /** Known length between two dots (m); absent without a scale. */
  readonly metresPerDot?: number;
  /** Absent until the section and the final zone are outlined. */
  readonly reading?: FractureReading;
  /** What a marked point is read to, standard uncertainty in dots; and what follows for the reading. */
  readonly pointUncertainty?: number;
  readonly uncertainty?: FractureUncertainty;
}
