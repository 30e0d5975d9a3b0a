/**
 * Formulas: from the reader's text to a checked expression, and its readers.
 *
 * Nouns: an `Expression` is the tree of one formula, each node with its place in the text; a formula gives a number (with a
 * kind of quantity) or a truth, never a mixture. `FUNCTIONS` is all that can be called.
 * Invariants: nothing is evaluated that was not parsed here, and parsing makes no code; a tree's height is bounded, so that
 * every reader may recurse; evaluation is in SI doubles and its results are finite or a `Problem`; a new function needs an
 * entry in each reader (functions, functions-of-one or -of-several, dimensions where it has a unit, differentiate, typeset).
 * Problems found in the text carry it; those of dimensions and values carry the span, and their caller knows the text.
 */
export type { ArithmeticOperator, ComparisonOperator, Expression } from './types.ts';
export { FUNCTIONS, type FunctionDescription } from './functions.ts';
export { checkSymbolName } from './symbol-name.ts';
export { parseFormula } from './parse.ts';
export { printFormula } from './print.ts';
export { dependsOn, kindOf, leavesOf, operandsOf, readsUncertainty, referencedSymbols } from './expression.ts';
export { checkDimensions } from './dimensions.ts';
export { unknownNameMend } from './dimension-problems.ts';
export { applyCases, openBrackets, type AppliedCases } from './cases.ts';
export { evaluate, evaluateTruth, evaluateWithPartials, type Environment } from './evaluate.ts';
export { evaluateBlock } from './block.ts';
export { repeatedIn } from './repeated.ts';
export { BlockProgram, type BlockNames, type Operand } from './block-program.ts';
export { inOrderOfReading } from './reading-order.ts';
export { differentiate } from './differentiate.ts';
export { exponentOf, inForce, type Definitions } from './power-law.ts';
export { product as productOf, quotient as quotientOf, sum as sumOf, symbol as symbolNode } from './build.ts';
export { aggregateOf, weightedSum, type Aggregate } from './aggregate.ts';
export { literalNumber, substitute } from './substitute.ts';
export { typeset, typesetSubstituted } from './typeset.ts';
export { symbolTex } from './symbol-tex.ts';
export { GREEK_LETTERS, mayHoldSymbols, plainSymbols, symbolInWords, withSymbols, type SymbolText } from './symbol-text.ts';
