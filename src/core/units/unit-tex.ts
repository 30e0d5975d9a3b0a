import type { UnitFactor } from './compound.ts';
import { unitFactors } from './counterpart.ts';
import type { Unit } from './types.ts';

/**
 * The unit set upright, for KaTeX: `\mathrm{N\,m}`, `\mathrm{mm}^{4}`, `\mathrm{N}/\mathrm{mm}^{2}`; the empty text
 * for the plain number.
 */
export function unitTex(unit: Unit): string {
  const factors = unitFactors(unit.name);
  const above = productTex(factors.filter((factor) => !factor.below));
  const below = factors.filter((factor) => factor.below);
  if (below.length === 0) return above;
  const divisor = productTex(below);
  return `${above === '' ? '1' : above}/${below.length === 1 ? divisor : `(${divisor})`}`;
}

function productTex(factors: readonly UnitFactor[]): string {
  const pieces: string[] = [];
  let upright: string[] = [];
  const closeUpright = (): void => {
    if (upright.length > 0) pieces.push(`\\mathrm{${upright.join('\\,')}}`);
    upright = [];
  };
  for (const { definition, exponent } of factors) {
    if (definition.tex === undefined && exponent === 1) {
      // Neighbours without a power share one group.
      upright.push(definition.symbol);
      continue;
    }
    closeUpright();
    const symbol = definition.tex ?? `\\mathrm{${definition.symbol}}`;
    // Braces, because a degree sign is itself a superscript.
    const base = definition.tex === undefined ? symbol : `{${symbol}}`;
    pieces.push(exponent === 1 ? symbol : exponent === 0.5 ? `\\sqrt{${symbol}}` : `${base}^{${exponent}}`);
  }
  closeUpright();
  return pieces.join('\\,');
}
