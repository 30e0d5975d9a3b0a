/** How the budgets of a cell are looked at. */
export interface BudgetUi {
  /** Wanted standard uncertainty as typed, by symbol. */
  readonly wanted: Map<string, string>;
  /** Inputs whose components are unfolded, by symbol and input. */
  readonly unfolded: Set<string>;
  /** Level of confidence of the expanded uncertainty. */
  level: number;
}

export function createBudgetUi(): BudgetUi {
  return { wanted: new Map(), unfolded: new Set(), level: 0.95 };
}
