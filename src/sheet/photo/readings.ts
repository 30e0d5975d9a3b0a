/** What a picture can give the sheet: shares and places without a scale, areas with one. */
export const PHOTO_READINGS = ['share', 'eccentricity', 'rotation', 'area', 'final_area'] as const;
export type PhotoReading = (typeof PHOTO_READINGS)[number];

/** How a marked border goes between its points: on the nearest circle or ellipse, or straight. */
export const MARKED_SHAPES = ['circle', 'ellipse', 'corners'] as const;
export type MarkedShape = (typeof MARKED_SHAPES)[number];
