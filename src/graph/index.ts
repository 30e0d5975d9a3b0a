/**
 * The document as a graph: who reads whom, kept up to date by the Observable runtime.
 *
 * Nouns: a *compiled sheet* (the document compiled: names, loops, dimensions, one node per block), the *graph* (the compiled sheet's nodes as
 * variables of one runtime module), a *state* (what a cell is at this moment; frozen, diagnostics are values).
 * A *slip* switched on stands in place of a step's formula or a given's value; the sheet without it is always at hand (`rightStates`).
 * Invariants: order on the page does not matter; a cell in trouble stops only those that read it; the same inputs give
 * the same state object, so that nothing moves without reason; states handed out are of one consistent moment.
 */
export { createSheetGraph, type SheetGraph, type SheetListener } from './sheet-graph.ts';
export { restingOnExample } from './invented.ts';
export { linesOfSheet, type LineToTake } from './fit/lines-of-sheet.ts';
export {
  differencesOf, entriesOf, isCalled, isOfferedAt, kindLike, kindsAt, labelAt, LONGEST_NAME, MATERIAL_KINDS, MATERIAL_VALUES, materialOf, optionFor, readMaterial, readMaterialValue,
  type MaterialKind, type MaterialValue, type OwnMaterial,
} from './own-material.ts';
export { troubleFor, valueFor, valuesOfSheet, type ValuesToTake, type ValueToTake } from './values-of-sheet.ts';
export { readSnapshot, type LineSnapshot, type LineSource } from './fit/line-snapshot.ts';
export { unfitFor } from './fit/taken-line.ts';
export { awaitsLine, isMissing } from './fit/line-awaited.ts';
export { symbolsOf } from './formulas.ts';
export { optionInForce, type OptionInForce } from './option-in-force.ts';
export { someNames } from './waits.ts';
export type { ComparedAt, ComparedPair, ComparisonFindings } from './findings/comparison-findings.ts';
export type {
  Findings, LimitRow, LimitsFindings, LivesFindings, LivesRow, PlanFindings, PlanFound, PlanWish, StaircaseFindings, WeightsFindings,
} from './findings/types.ts';
export { canBeCompared } from './fit/models-beside.ts';
export type { BesideLine, ModelBeside, ProfileBeside } from './fit/models-beside.ts';
export {
  chainOf, sampledResult, samplingRequest, sampleSheet, evaluateAlong, MOST_SAMPLES, startSampling,
  type AlongOptions, type Chain, type Columns, type Sampling, type SampledResult, type SamplingProgress, type SamplingRequest, type Samples, type Link,
} from './along/index.ts';
export {
  changedSince, countedSoFar, keptForRow, leftAlone, OUTCOMES, predictionNow, readFrozen, readRecord, readStamp, rollOverText, stoodStillSince, type ChangedInput, type RecordState,
} from './record/index.ts';
export type { Agreement, HalfState, PhotoState } from './photo/types.ts';
export { derivativeForm, type DerivativeForm } from './derivative-form.ts';
export { effectsAround, type Effects, type EffectsAround } from './effects.ts';
export { elasticityBetween, expressionOf, slopesAround, type Slopes } from './slopes.ts';
export { compileSheet } from './compile.ts';
export { reckon, type Reckoned } from './reckon.ts';
export type { CompiledSheet } from './compiled-types.ts';
export { symbolsAfter } from './elsewhere.ts';
export { drawnSymbols, sweptSymbols } from './kinds/figure.ts';
export { liveSymbols } from './showing-node.ts';
export {
  givensBehind, plausibleReach, possibleBounds, possibleReach, sweepCurves, sweepMap, typedText, unitOfGiven, workBack, type SweepFound, type SweepGap, type SweptCurve,
  type WorkBackAnswer, type WorkBackFound,
} from './sweep/index.ts';
export {
  orderByColumn, rowsShown, tableCsv, type CellMark, type ColumnState, type Look, type SheetSymbols, type TableState,
} from './table/index.ts';
export type {
  CellState, CheckState, FitState, RangeWord, ReadingState, SheetStates, SymbolState,
} from './types.ts';
export { holdsReadings } from './read-given.ts';
export { slipsOn } from './slips/slips-on.ts';
export { asRead, stateAsRead } from './slips/as-read.ts';
export { rightStates, statesWithSlips } from './slips/with-slips.ts';
export {
  alikeSteps, allowanceOf, entryKeys, isJudged, markOf, ownResults, ownWorkingOf, questionKeys, questionStanding, standings, symbolsOffered, unitOfStep, workingOf, type QuestionStanding, type Allowance, type Mark, type MarkedSheet, type Standing, type Verdict,
} from './marking/index.ts';
export { drawClass, planVariants, readVariation, type Misfit, type TeamDraw, type VariantPlan } from './variants/index.ts';
export { parseBounds } from './bounds.ts';
export { unitOf } from './read-given.ts';
export { heldSheet, type HeldSheet } from './held/held-sheet.ts';
export {
  answered, fitsAsItIs, holdsSpecimens, proposeRowsIn, rowsIn,
  type Again, type ColumnIn, type DecimalMark, type How, type MarkReading, type RowsAnswer, type RowsCount, type RowsIn, type RowsInProposal, type RowsQuestion,
  type Target, type UnitReading, type WordReading,
} from './rows-in/index.ts';
