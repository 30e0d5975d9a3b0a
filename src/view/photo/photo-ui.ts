import type { MarkKey } from '../../sheet/index.ts';

/** How the page looks at a picture: no part of the document. */
export interface PhotoUi {
  /** What a tap or Enter in the picture marks; undefined: nothing, and the page scrolls under a finger. */
  mode: MarkKey | undefined;
  /** Whether a picture is being read. */
  isReading: boolean;
}

export function createPhotoUi(): PhotoUi {
  return { mode: undefined, isReading: false };
}

/** What can be marked, in words: the button, what one sets with it, and how to go about it. */
export const MODES: readonly { readonly key: MarkKey; readonly button: string; readonly thing: string; readonly how: string }[] = [
  { key: 'scale', button: 'Set the scale', thing: 'end of the scale', how: 'Mark both ends of something whose length is known, such as a rule in the picture, and type that length below.' },
  { key: 'outline', button: 'Outline the section', thing: 'point of the section', how: 'Mark points all around the rim of the broken section: for a round one four or more, far apart; of a strip its corners, one after the other.' },
  { key: 'final', button: 'Outline the final zone', thing: 'point of the final zone', how: 'Mark points all around the border of the rough zone that broke last: eight or more tell most. An ellipse is laid through them from five on, a circle below; one that has corners, as at the rim, goes straight from point to point, its corners among them.' },
  { key: 'origins', button: 'Mark an origin', thing: 'origin', how: 'Mark each place at which a crack began.' },
];
