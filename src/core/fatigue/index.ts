/**
 * From tested specimens to the S-N line and back to lives and strengths: fits, limits, staircase, comparison, plan.
 *
 * Nouns: a *specimen* has a stress amplitude in MPa, a number of cycles and an *outcome*; a *runout* or suspended test is
 * right-censored; a *line* gives the location of log10 life at a stress, with a *scale* s about it that is the same at every
 * stress; a *limit of life* or *of strength* says what it bounds, and with which confidence.
 * Invariants: life is always the dependent variable, stress the experimenter's; results are frozen plain objects on log10
 * scales, parameters as `LineFit` says; specimens left out are counted; what can't be done comes back as a Problem in
 * words, what should be known about a fit as one among its warnings; never NaN.
 */
export * from './types.ts';
export { compareGroups, type CompareGroupsOptions, type GroupComparison, type GroupTest } from './compare-groups.ts';
export { compareLives, compareStrengths, type ComparedStrengths, type RatioOfLines } from './compare-lines.ts';
export { compareNested, type LikelihoodRatio } from './compare-models.ts';
export {
  compareCounts, countedCycles, isPlausibleCount, rollOversBetween, type CountedCycles, type CountSuspicion,
} from './counter.ts';
export { coverageOfAdjusted, coverageOfLargeSample } from './coverage.ts';
export { type CountedLevels } from './dixon-mood.ts';
export { fitLeastSquares, type LeastSquaresOptions } from './least-squares-fit.ts';
export { standardQuantile } from './life-distribution.ts';
export { lifeLimits, locationStandardError, quantileGradient, type LifeLimits, type LimitApproach, type LimitKind } from './life-limits.ts';
export { locationAt, parameterNames, type FittedLine } from './line.ts';
export { fitMaximumLikelihood, type MaximumLikelihoodOptions } from './maximum-likelihood-fit.ts';
export {
  amplitudeOfEqualLife, MEAN_STRESS_CORRECTIONS, type MeanStressConstants, type MeanStressCorrection,
} from './mean-stress.ts';
export { nextFactor } from './next-factor.ts';
export { fitOneStress, ONE_STRESS, type LivesAtOneStress } from './one-stress.ts';
export { parameterLimits, type ParameterLimits } from './parameter-limits.ts';
export {
  plannedHalfWidth,
  planTests,
  specimensPerLevel,
  type ExpectedLine,
  type Plan,
  type PlannedLevel,
  type PlanOptions,
  type PlanRow,
  type WantedPrecision,
} from './plan.ts';
export { type ProbitFit } from './probit.ts';
export { profileLimits, type ProfileLimits, type ProfileQuantity } from './profile.ts';
export { brokenBy, lifeGivenSurvival, stillBreaks, type PredictedLife } from './remaining-life.ts';
export { runningTime, type Pause } from './running-time.ts';
export { percentReplication } from './specimens.ts';
export { analyseStaircase, type Staircase, type StaircaseOptions } from './staircase.ts';
export { coverageOfStaircase, type StaircaseCoverage } from './staircase-coverage.ts';
export { nextTest, settableStep, type NextTest, type StaircaseRule } from './staircase-run.ts';
export { restoredLine, storedLine, type StoredLine } from './stored-line.ts';
export { strengthByDelta, strengthLimits, type StrengthLimits } from './strength.ts';
export { twoSidedToleranceFactor } from './tolerance-interval.ts';
export { fitWeibullThreshold, type ProfiledQuantity, type ThresholdFit } from './weibull-threshold.ts';
