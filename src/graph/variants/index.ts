/**
 * Numbers for each team of a class, out of the ranges that a sheet's givens have.
 *
 * Nouns: a given *varies*; a *plan* is a sheet read for that, with the *conditions* that every team's numbers keep to; a *variant* is the numbers of one team, a *misfit*
 * says why none were found.
 * Invariants: the same sheet, class seed and team give the same numbers everywhere; every number is a multiple of its stated step, as it is written; a variant
 * meets all conditions in the sheet itself; nothing of ranges, conditions and other teams' numbers is in a variant's sheet.
 */
export { planVariants } from './plan.ts';
export { drawClass, type TeamDraw } from './draw-class.ts';
export { drawVariant, teamSeed } from './draw.ts';
export { readVariation } from './read-variation.ts';
export type { Misfit, Variant, VariantPlan } from './types.ts';
