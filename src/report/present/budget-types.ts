/** Where the uncertainty of a result comes from (JCGM 100:2008, Table H.1 for the form), in display units. */
export interface PresentedBudget {
  readonly symbol: string;
  readonly symbolTex: string;
  /** Inputs that have an uncertainty, the largest share first. */
  readonly rows: readonly PresentedBudgetRow[];
  /** Some inputs vary together, so that shares alone do not make the whole. */
  readonly isCorrelated: boolean;
  /** Inputs without any uncertainty, with their values in TeX: `k_F = 0.5`. */
  readonly exact: readonly string[];
  readonly total: PresentedTotal;
}

/** What the parts come to. */
export interface PresentedTotal {
  /** `312.4 MPa` */
  readonly value: string;
  /** Combined standard uncertainty: `2.1 MPa`. */
  readonly uncertainty: string;
  /** The same over the value: `0.67 %`; absent where the value is 0. */
  readonly relative?: string;
  /** Effective degrees of freedom: `5.2`, `∞`; absent where they are not claimed. */
  readonly degreesOfFreedom?: string;
  /** Coverage factor: `2.57`. */
  readonly factor: string;
  /** Level of confidence: `95 %`. */
  readonly level: string;
  /** Coverage factor times standard uncertainty: `5.5 MPa`. */
  readonly expanded: string;
  /** All of it in sentences. */
  readonly sentence: string;
}

/** One input of an uncertainty budget, or the parameters of one fit together, their values and uncertainties one after the other. */
export interface PresentedBudgetRow {
  readonly input: string;
  readonly inputTex: string;
  /** What the sheet calls it, or its symbol. */
  readonly words: string;
  /** `6.312 mm` */
  readonly value: string;
  /** Standard uncertainty of the input: `0.012 mm`. */
  readonly uncertainty: string;
  readonly type: EvaluationType;
  /** Of the only component; absent where several join. */
  readonly distribution?: string;
  /** `3`, `∞` */
  readonly degreesOfFreedom: string;
  /** Change of the result per change of the input: `−148 MPa/mm`; `together` for several. */
  readonly sensitivity: string;
  /** The same as a formula, where that is simple. */
  readonly sensitivityTex?: string;
  /** Part of the result's standard uncertainty: `1.8 MPa`. */
  readonly contribution: string;
  /** Share of the result's variance: `73 %`. */
  readonly share: string;
  /**
   * What its covariances with other inputs add to the variance or take from it, half of each on either side: `−12 %`.
   * Absent in a budget without correlated inputs. All shares and covariance shares of a budget make 100 %.
   */
  readonly covarianceShare?: string;
  /** Both as fractions of the variance, to be drawn. */
  readonly parts: { readonly own: number; readonly shared: number };
  /** What the input's own uncertainty is made of, where it has several components. */
  readonly components: readonly PresentedComponent[];
}

/** Type A (from readings), type B (from anything else). */
export type EvaluationType = 'A' | 'B' | 'A and B';

export interface PresentedComponent {
  /** `4 readings`, `limit ±0.5 mm`, `resolution 0.5 mm`. */
  readonly source: string;
  readonly type: EvaluationType;
  readonly distribution: string;
  readonly degreesOfFreedom: string;
  /** In the input's unit. */
  readonly uncertainty: string;
  /** In the result's unit. */
  readonly contribution: string;
  readonly share: string;
  /** As a fraction of the result's variance, to be drawn. */
  readonly part: number;
}

/** What would make a result as sure as the reader wants it. */
export interface PresentedRequirements {
  /** How the wanted uncertainty was read: `u(σ) = 1.5 MPa, 0.48 % of the value`. */
  readonly wanted: string;
  /** Whether the result is that sure already. */
  readonly isMet: boolean;
  /** Times its present size that the uncertainty of every input would have to be, all of them together: `0.47`. */
  readonly together: string;
  readonly rows: readonly PresentedRequirement[];
}

export interface PresentedRequirement {
  /** Inputs that are bettered together; mostly one. */
  readonly inputs: readonly { readonly input: string; readonly inputTex: string; readonly words: string }[];
  readonly can: boolean;
  /** `u at most 0.0031 mm, now 0.0065 mm`, or that it can't do it alone and how far it gets. */
  readonly sentence: string;
}
