/** Probability distributions of a type B component, JCGM 101:2008 section 6.4. */
export type Distribution =
  | 'normal'
  | 'rectangular'
  | 'triangular'
  | 'arcsine'
  | 'curvilinear trapezoid'
  | 't';

/** One contribution to the uncertainty of an input: from readings (A) or from anything else (B). SI units. */
export interface Component {
  readonly kind: 'A' | 'B';
  /** Where it comes from, in words: `3 readings`, `resolution 0.01 mm`, `limit ±0.02 mm`, `stated`. */
  readonly source: string;
  readonly distribution: Distribution;
  /** Standard uncertainty contributed, SI, >= 0. */
  readonly standardUncertainty: number;
  /** `Infinity` where taken as exactly known. */
  readonly degreesOfFreedom: number;
  /** Curvilinear trapezoid only: inexactness of the half-width over the half-width, 0..1. */
  readonly widthInexactness?: number;
  /** What it comes from, where other inputs have it from there too: the error of one scale is the same share of all that was measured on it, with the sign of the value. */
  readonly common?: string;
  /** Readings only: standard uncertainty of the instrument's resolution, SI, which their scatter covers and below which it does not fall. */
  readonly coveredResolution?: number;
}

/** An independently measured or stated quantity: what sensitivities refer to. Frozen. */
export interface Input {
  /** The symbol, unique over the document; a fit's parameters have ids of their own. */
  readonly id: string;
  /** Best estimate, SI. */
  readonly value: number;
  readonly components: readonly Component[];
  /** Givens read in pairs: deviations of the readings from their mean, SI, in the order read. */
  readonly together?: { readonly group: string; readonly deviations: readonly number[] };
  /** Stated correlation coefficients with other inputs, by their id; either side may state it. */
  readonly correlations?: ReadonlyMap<string, number>;
}

/** Derivative of an estimate with respect to one independent input. */
export interface Sensitivity {
  readonly input: Input;
  /** d(estimate)/d(input), SI. */
  readonly derivative: number;
}

/** A value with its first-order sensitivities to the independent inputs (JCGM 100:2008, 5.1). Frozen. */
export interface Estimate {
  /** SI. */
  readonly value: number;
  readonly sensitivities: ReadonlyMap<string, Sensitivity>;
}
