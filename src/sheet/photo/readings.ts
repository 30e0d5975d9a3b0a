/** What a picture can give the sheet: shares and places without a scale, areas with one. */
export const PHOTO_READINGS = ['share', 'eccentricity', 'rotation', 'area', 'final_area'] as const;
export type PhotoReading = (typeof PHOTO_READINGS)[number];
