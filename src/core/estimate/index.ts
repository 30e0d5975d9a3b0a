/**
 * Estimates: values with uncertainty, from readings and instruments to budgets, intervals and samples.
 *
 * Nouns: an *input* is an independently measured or stated quantity with the *components* of its uncertainty (type A from
 * readings, type B from anything else); an *estimate* is a value with its derivatives with respect to the inputs; a
 * *budget* says what each input gives; *samples* are values an input or result may have.
 * Invariants: SI throughout, words apart; an estimate knows its inputs, so that x − x has no uncertainty and x/x is
 * exactly 1; the instrument's part is its limit of error, which no repetition makes smaller, and the larger of its resolution and the readings'
 * scatter; what a scale errs by is common to all that was measured on it; a stated uncertainty stands alone; inputs, estimates and instruments are frozen. Terms and formulas follow JCGM 100:2008 and JCGM 101:2008.
 */
export { budget, budgetRows, type BudgetEntry, type BudgetRow, type ComponentShare } from './budget.ts';
export { coverageInterval, effectiveDegreesOfFreedom, factorInterval, type CoverageInterval } from './coverage.ts';
export { DISTRIBUTIONS, type LimitKnowledge } from './distributions.ts';
export { sampleInput } from './sample.ts';
export { sampleInputs, inputSource, type InputSource } from './sample-inputs.ts';
export { combine, correlation, covariance, elasticity, exactly, fromInput, standardUncertainty } from './estimate.ts';
export { evaluateGiven, type GivenSpec } from './given.ts';
export { inputCovariance, inputUncertainty } from './input.ts';
export { halfWidthAt, type InstrumentClass, type LimitOfError } from './instrument.ts';
export { INSTRUMENT_CLASSES } from './instrument-classes.ts';
export { instrumentClass, limitKnowledge, overrideInstrument } from './instrument-text.ts';
export { parseMeasurement, parseReadings, type Measurement } from './measurement-text.ts';
export { summariseReadings, type ReadingStatistics } from './readings.ts';
export { FIGURES_OF_UNCERTAINTIES, roundByUncertainty, type RoundedValue } from './rounding.ts';
export {
  numericalTolerance, settlingOf, STABILITY_BLOCK, telling, watchStability, type Digits, type Settling, type Stability, type StabilityWatch,
} from './stability.ts';
export { histogramOf, summariseSamples, type SampleSummary, type Histogram } from './summarise-samples.ts';
export { checkTogether } from './together.ts';
export { validateFactor, validateFirstOrder, type Validation } from './validate-first-order.ts';
export { readingsNeeded, whatItTakes, type Requirement } from './what-it-takes.ts';
export type { Component, Distribution, Estimate, Input, Sensitivity } from './types.ts';
