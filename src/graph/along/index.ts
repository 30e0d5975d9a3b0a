/**
 * The sheet as a function of its inputs at other values, and samples through it. Apart from the sheet's graph, so that a worker
 * needs no more than this.
 *
 * Nouns: a *chain* (every symbol with how it follows from others; plain data), *columns* (values of a symbol, place by place),
 * a *sampling* (samples of one result being made).
 * Invariants: nothing here keeps or changes a sheet; the same chain, columns and seed give the same numbers wherever they are worked out.
 */
export { chainOf, evaluateAlong, type AlongOptions, type Chain, type Columns, type Link } from './chain.ts';
export { sampleSheet, uncertainInputs, type Samples } from './sample-sheet.ts';
export { blockMaker, SampleRoom, sampledResult, samplingRequest, MOST_SAMPLES, startSampling, type Sampling, type SampledResult, type SamplingProgress, type SamplingRequest } from './monte-carlo.ts';
