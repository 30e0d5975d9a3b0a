import type { PhotoMarks } from '../photo-marks.ts';
import type { PresentedNotes } from './notes-types.ts';
import type { PresentedTableSymbol } from './types.ts';

/** A picture with what is marked in it, and what that says. */
export interface PresentedPhoto extends PresentedNotes {
  /** Absent where there is none yet, as the marks. */
  readonly picture?: { readonly address: string; readonly width: number; readonly height: number };
  readonly marks?: Omit<PhotoMarks, 'idPrefix'>;
  readonly gives: readonly PresentedTableSymbol[];
  /** What is read from the marks, as pairs of words. */
  readonly facts: readonly { readonly name: string; readonly text: string }[];
  /** What the trade takes that for, in sentences. */
  readonly says: readonly string[];
  /** What the surface can't tell; '' where nothing is read from it. */
  readonly untold: string;
  /** The picture in words. */
  readonly alternative: string;
  /** The other half of the fracture; absent where none is named or it has no picture. */
  readonly other?: Pick<PresentedPhoto, 'picture' | 'marks' | 'alternative'> & { readonly label: string };
  /** Where the specimen broke, in a sentence, and the cell that says it. */
  readonly place?: { readonly sentence: string; readonly cellId: string };
}
