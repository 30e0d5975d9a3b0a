/**
 * Drawings of the shaft as SVG text: plain functions from values to strings, no DOM, the same on the page, in the report and in tests.
 * Nouns: figure (what to draw), axis (the shared horizontal scale), drawing (the SVG with its words and the places that can be handled).
 * Invariants: one unit of the viewBox is one px of the width asked for, so letters keep their size; the free body and the diagrams
 * of one figure at one width share their axis; no number in the text is NaN or infinite; hidden values show neither in figures nor in lengths.
 *
 * Looks come from `../drawings.css` by class names alone, below `svg.drawing`:
 * - body: `outline` (thick), `centre-line`, `ground`, `ground-hatch`, `motion` and `motion-head` (rotation)
 * - `held-outline`: a held state behind, dashed and light, without letters
 * - forces: groups `force load` and `force reaction` with `force-line`, `force-head`
 * - dimensions: `dimension-line`, `extension-line`, `dimension-head`, `dimension-dot`, `leader`, `dimension-figure`
 * - section: `section-line`, `section-end`, `section-dot`
 * - diagrams: `zero-line`, `axis-head`, `guide`, `curve`, `area`, `area-hatch`, `sign-slice`, `sign-line`, `sign-head`
 * - letters (a rim of paper where lines pass behind): `value`, `word`, `axis-word`, `note`, `symbol`, `subscript`; with `yours` (the reader may change it), `look` (look here), `soft`
 */
export { keptFrame } from './axis.ts';
export { beamFigureFrom } from './beam-figure.ts';
export type { FigureTexts } from './beam-figure.ts';
export type { BeamRole, RoleValues } from './roles.ts';
export { LEVER_ROLES, leverFigureFrom } from './lever-figure.ts';
export type { LeverFigure, LeverRole, LeverValues } from './lever-figure.ts';
export { loadingLever } from './loading-lever.ts';
export { showsHeld } from './held-outline.ts';
export { freeBody } from './free-body.ts';
export { drawnSymbol } from './lettering.ts';
export { SPECIMEN_ROLES, specimenFigureFrom } from './specimen-figure.ts';
export type { SpecimenFigure, SpecimenRole, SpecimenValues } from './specimen-figure.ts';
export { stressAlongAxis } from './stress-along-axis.ts';
export { planeBending } from './plane-bending.ts';
export { stressAlong } from './stress-along.ts';
export { isStripForm, STRIP_ROLES, stripFigureFrom } from './strip-figure.ts';
export type { StripFigure, StripRole, StripValues } from './strip-figure.ts';
export { WITHHELD_PANEL } from './diagram-panel.ts';
export { shearMoment } from './shear-moment.ts';
export type { Area, BeamFigure, Drawing, DrawingOptions, FigureValue, Frame, Handle, Move, PlaceName, TypedFigure, ValueText } from './types.ts';
