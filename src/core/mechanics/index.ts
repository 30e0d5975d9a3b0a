/**
 * Statics and strength of the specimen as plain functions of numbers: beams on two supports, sections, bending stress.
 * Nouns: beam, load, reaction, shear, moment, diagram, section, strip.
 * Invariants: SI throughout; loads positive downwards, reactions upwards, moments when sagging; positions count from the left support.
 * The drawings are built on these, and tests hold the worksheets' own formulas against them.
 */
export { beamReactions, momentAt, shearAt } from './beam.ts';
export type { Beam, PointLoad, Reactions } from './beam.ts';
export { shearMomentDiagram } from './diagram.ts';
export type { BreakPoint, Extreme, ShearMomentDiagram, Stretch } from './diagram.ts';
export { diameterAt, profileReach } from './profile.ts';
export type { Profile } from './profile.ts';
export { nominalBendingStress, rectangle, roundTube, solidRound } from './section.ts';
export type { Section } from './section.ts';
export { STRIP_SHAPES, stripStress } from './strip.ts';
export type { Strip, StripShape, StripSupport } from './strip.ts';
export { waistedShape, waistedWidth, waistFits } from './waisted-strip.ts';
export type { Waist } from './waisted-strip.ts';
export { BORDER_SHAPES, borderOf, leftOutByChords, partInside } from './border.ts';
export type { Border, BorderShape, MarkedBorder } from './border.ts';
export { fractureUncertainty, readMarks, type FractureMarks, type FractureUncertainty } from './fracture-uncertainty.ts';
export { polygonArea, polygonCentroid, readFracture } from './fracture-zones.ts';
export type { FractureReading, PicturePoint } from './fracture-zones.ts';
export { crossesItself, isInside } from './outline.ts';
export { axesOf, fitCircle, fitEllipse, POINTS_OF } from './fitted-border.ts';
export type { FittedEllipse } from './fitted-border.ts';
export { combinationsOf, leverSettings, MOST_COMBINATIONS } from './lever-setting.ts';
export type { LeverSetting, LeverSettings, LeverToSet, OwnedWeight } from './lever-setting.ts';
