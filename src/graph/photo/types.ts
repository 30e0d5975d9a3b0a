import type { BorderShape, FractureReading, FractureUncertainty } from '../../core/mechanics/index.ts';
import type { MarkPoint, ScaleMark, StoredPicture } from '../../sheet/index.ts';

/** A border through marked points. */
export interface LaidBorder {
  readonly shape: BorderShape;
  readonly points: number;
  /** How far the points lie off it, dots. */
  readonly misfit: number;
  /** Some of it lies beyond the rim of the section, where it is not counted. */
  readonly isCut: boolean;
}

/** How far two values lie apart, in standard uncertainties of their difference, and whether that is no more than two. */
export interface Agreement {
  readonly apart: number;
  readonly agrees: boolean;
}

/** The picture of the other half of the fracture. */
export interface HalfState {
  readonly cellId: string;
  readonly label: string;
  readonly photo: PhotoState;
  /** Absent until its zones are outlined. */
  readonly share?: number;
  /** Absent until those of both are. */
  readonly agreement?: Agreement;
}

/** Where the specimen broke, as the sheet has it. */
export interface PlaceState {
  /** Symbol of the place, and whether it has a value. */
  readonly brokeAt: string;
  readonly isKnown: boolean;
  /** Symbol of the specimen's section there. */
  readonly sectionThere?: string;
  /** The section in the picture, m²; absent without outline or scale. */
  readonly area?: number;
  /** Of both sections. */
  readonly agreement?: Agreement;
}

/** A picture with its marks read, and what they say. Points are in dots of the picture. */
export interface PhotoState {
  readonly picture?: StoredPicture;
  readonly scale: ScaleMark;
  /** Borders as they are laid through their points, as corners to be drawn; the points themselves where they show none yet. */
  readonly section: readonly MarkPoint[];
  readonly final: readonly MarkPoint[];
  /** What was laid through the points of each; absent where nothing can be. */
  readonly borders: { readonly outline?: LaidBorder; readonly final?: LaidBorder };
  readonly origins: readonly MarkPoint[];
  /** Known length between two dots (m); absent without a scale. */
  readonly metresPerDot?: number;
  /** Absent until the section and the final zone are outlined. */
  readonly reading?: FractureReading;
  /** What a marked point is read to, standard uncertainty in dots; and what follows for the reading. */
  readonly pointUncertainty?: number;
  readonly uncertainty?: FractureUncertainty;
  readonly half?: HalfState;
  readonly place?: PlaceState;
}
