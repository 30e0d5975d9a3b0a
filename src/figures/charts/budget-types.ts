/** An uncertainty budget to be drawn. */
export interface BudgetData {
  readonly symbol: string;
  /** The largest share first. */
  readonly bars: readonly BudgetBar[];
  readonly isCorrelated: boolean;
  /** What the budget comes to. */
  readonly sentence: string;
}

export interface BudgetBar {
  readonly symbol: string;
  /** Share of the variance, and what correlation adds to it or takes from it: fractions. */
  readonly own: number;
  readonly shared: number;
  /** `73 %` */
  readonly share: string;
  readonly covarianceShare?: string;
  /** Its values as one sentence. */
  readonly tell: string;
}
