import { describe, expect, it } from 'vitest';
import { evaluateWithPartials, parseFormula, typeset } from '../../../src/core/formula/index.ts';

/** Computed with Python, statistics.NormalDist (cdf, pdf); the first also in every table of the normal distribution (0.9750). */
const TABLE = [
  [1.959963984540054, 0.975, 0.05844506980503538],
  [0, 0.5, 0.3989422804014327],
  [-3, 0.0013498980316301035, 0.0044318484119380075],
] as const;

describe('normal(x)', () => {
  it.each(TABLE)('at %f', (x, share, density) => {
    const parsed = parseFormula('normal(z)');
    if (!parsed.ok) throw new Error(parsed.problem.what);
    const result = evaluateWithPartials(parsed.value, { value: () => x, standardUncertainty: () => 0 });
    if (!result.ok) throw new Error(result.problem.what);
    expect(result.value.value / share).toBeCloseTo(1, 11);
    expect((result.value.partials.get('z') ?? 0) / density).toBeCloseTo(1, 11);
  });

  it('is set as the trade writes it', () => {
    const parsed = parseFormula('normal(z_N)');
    expect(parsed.ok ? typeset(parsed.value) : '').toContain('\\Phi');
  });
});
