/**
 * Results against an input, and the way back from a wanted result: the sheet evaluated anew at other values of its givens.
 */
export { sweepCurves, type CheckTurn, type SweepFound, type SweepGap, type SweptCurve } from './curves.ts';
export { sweepMap, type SweptMap } from './map.ts';
export { givensBehind, plausibleReach, possibleBounds, possibleReach, typedText, unitOfGiven, type Reach } from './moving.ts';
export { workBack, type WorkBackAnswer, type WorkBackAsk, type WorkBackFound } from './work-back.ts';
