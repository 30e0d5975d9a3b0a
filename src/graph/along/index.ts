/**
 * The sheet as a function of its inputs at other values, and draws through it. Apart from the sheet's graph, so that a worker
 * needs no more than this.
 *
 * Nouns: a *chain* (every symbol with how it follows from others; plain data), *columns* (values of a symbol, place by place),
 * a *drawing* (draws of one result being made).
 * Invariants: nothing here keeps or changes a sheet; the same chain, columns and seed give the same numbers wherever they are worked out.
 */
export { chainOf, evaluateAlong, type AlongOptions, type Chain, type Columns, type Link } from './chain.ts';
export { drawSheet, uncertainInputs, type Draws } from './draws.ts';
export { DrawRoom, drawnResult, drawRequest, MOST_DRAWS, startDrawing, type Drawing, type DrawnResult, type DrawProgress, type DrawRequest } from './monte-carlo.ts';
