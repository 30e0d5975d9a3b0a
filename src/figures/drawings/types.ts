import type { Picture } from '../types.ts';

/** A value as the drawing shows it. */
export interface FigureValue {
  /** SI; undefined while the sheet has no value. */
  readonly si: number | undefined;
  /** Value with unit as the sheet writes it: `99.8 N`. '' while there is none. */
  readonly text: string;
  /** Name of the symbol: `R_A`. */
  readonly symbol: string;
  /** An asked step that has not been answered: only the letter shows, and no length gives the value away. */
  readonly hidden: boolean;
  /** Symbol of the given that the reader changes through this figure; absent where the value is not the reader's to change. */
  readonly given?: string;
  /** Symbol of a given that this one only is another name of: both are told. */
  readonly names?: string;
  /** Standard uncertainty, SI; absent where none is known. */
  readonly uncertainty?: number;
}

/** A load across the shaft; position in metres from the left support, force downwards positive. */
export interface FigureLoad {
  readonly position: number;
  readonly force: FigureValue;
}

/** A dimension along the shaft. `chain`: end to end on one line. Ends in metres from the left support, in either order. */
export interface FigureDimension {
  readonly line: 'section' | 'chain' | 'overall';
  readonly from: number;
  readonly to: number;
  readonly value: FigureValue;
}

/** How one given changes when a place moves to the right by a distance: by the distance, or by its negative. */
export interface Move {
  readonly symbol: string;
  readonly sign: 1 | -1;
}

export type PlaceName = 'left load point' | 'right load point' | 'left support' | 'right support' | 'section';

/** A place that the reader may move along the shaft. */
export interface MovablePlace<Name extends string = string> {
  readonly name: Name;
  /** Metres along the axis, from where the drawing counts: the left support, the fulcrum. */
  readonly position: number;
  /** For screen readers: `Left load point, 101.3 mm from the left support`. */
  readonly label: string;
  /** Everything else keeps its place when exactly these change. */
  readonly moves: readonly Move[];
  /** The stretch it can stand in, both ends included, in metres as `position`; an end may be infinite. */
  readonly reach: Frame;
}

/** The stretch of the shaft's axis that a drawing shows, metres from the left support. */
export interface Frame {
  readonly from: number;
  readonly to: number;
}

/** Writes an SI value with its unit as the sheet does. */
export type ValueText = (si: number) => string;

/** A note made of words and symbols. */
export type Run = string | { readonly symbol: string };

/** A shaft on two supports, ready to be drawn. Every position is finite. */
export interface BeamFigure {
  /** Positions are the sheet's. false: some are missing or contradict each other, and a schematic stands in for them. */
  readonly toScale: boolean;
  /** Whether the part-spans end at the right support, within their uncertainty; it is not called to scale where they don't. */
  readonly closes: boolean;
  /** Distance between the supports, m, above zero. */
  readonly span: number;
  readonly loads: readonly FigureLoad[];
  readonly reactions: { readonly left: FigureValue; readonly right: FigureValue };
  readonly dimensions: readonly FigureDimension[];
  readonly section?: { readonly position: number; readonly shear: FigureValue; readonly moment: FigureValue };
  readonly diameter?: FigureValue;
  readonly movable: readonly MovablePlace<PlaceName>[];
  /** What is missing or out of order, in words, shown in the drawing. */
  readonly notes: readonly (readonly Run[])[];
  /** Symbols without a value that the shear and moment diagrams need. */
  readonly missing: readonly string[];
  readonly shearText: ValueText;
  readonly momentText: ValueText;
  readonly lengthText: ValueText;
}

export interface DrawingOptions {
  /** Width in px that the drawing is laid out for: one unit of the viewBox is one px, so text keeps its size. At least 240. */
  readonly width: number;
  /** Begins every id in the drawing; unique over the page. Letters, digits and hyphens. */
  readonly idPrefix: string;
  /** Height of the letters in px, at least 12; unless said, 13, and 12 on narrow drawings. */
  readonly textSize?: number;
  /** Held stretch of the axis, so that the scale stays while something is dragged; unless said, the stretch that fits. */
  readonly frame?: Frame;
}

/** Places in px of the viewBox. */
export interface Area {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Where a place can be taken hold of. */
export interface Handle extends Area, MovablePlace {
  /** The place moves up and down, up being positive, in this scale of its own; unless said, along the axis. */
  readonly upright?: { readonly pxPerMetre: number };
}

/** Where a figure stands that can be typed over. */
export interface TypedFigure extends Area {
  readonly given: string;
}

export interface Drawing extends Picture {
  readonly handles: readonly Handle[];
  readonly figures: readonly TypedFigure[];
  /** The stretch shown; hand it back as `frame` to hold the scale. */
  readonly frame: Frame;
  readonly pxPerMetre: number;
}

/** One dimension along the axis; ends in metres, in either order. */
export interface Dimension {
  readonly from: number;
  readonly to: number;
  readonly value: FigureValue;
}
