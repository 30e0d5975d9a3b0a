import { DISTRIBUTIONS } from './distributions.ts';
import type { FunctionOfSeveral } from './types.ts';
import { reversals, REVERSALS_NEEDS, reversalsSlopes, type StrainLine } from './reversals.ts';

const REVERSALS: FunctionOfSeveral = {
  value: (x) => reversals(x as unknown as StrainLine),
  slopes: (x, y) => reversalsSlopes(x as unknown as StrainLine, y),
  needs: REVERSALS_NEEDS,
  fault: () => 0,
};

const BY_NAME: ReadonlyMap<string, FunctionOfSeveral> = new Map<string, FunctionOfSeveral>([['reversals', REVERSALS], ...DISTRIBUTIONS]);

/** Undefined for functions of one number and for those that formulas treat by themselves. */
export function functionOfSeveral(name: string): FunctionOfSeveral | undefined {
  return BY_NAME.get(name);
}
