import type { Random } from '../numeric/index.ts';
import { trapezoidFactor } from './distributions.ts';
import type { Component, Input } from './types.ts';

/**
 * Fills `target` with draws of one input by itself: its value plus a draw of each component. A component with Student's t
 * (repeated readings, n − 1 degrees of freedom) is scaled by its standard uncertainty, so that its draws scatter by
 * √(ν/(ν − 2)) more than that, and without bound for ν ≤ 2: so Supplement 1 has it, and so it differs from first order.
 * @source JCGM 101:2008, 6.4.2 to 6.4.9 (6.4.9.2 for readings).
 */
export function drawInput(input: Input, random: Random, target: Float64Array): void {
  target.fill(input.value);
  addComponents(input.components, random, target);
}

/** Adds a draw of each component to every entry. */
export function addComponents(components: readonly Component[], random: Random, target: Float64Array): void {
  for (const component of components) {
    if (component.standardUncertainty === 0) continue;
    const draw = deviationSource(component, random);
    for (let i = 0; i < target.length; i++) target[i] = (target[i] ?? 0) + draw();
  }
}

/** √(ν/χ²): what makes a normal draw one of Student's t; 1 where the standard uncertainty is exactly known. */
export function studentScale(degreesOfFreedom: number, random: Random): number {
  return degreesOfFreedom === Infinity ? 1 : Math.sqrt(degreesOfFreedom / random.chiSquare(degreesOfFreedom));
}

/** Draws of a component's deviation from its estimate. */
function deviationSource(component: Component, random: Random): () => number {
  const { standardUncertainty: u, degreesOfFreedom } = component;
  switch (component.distribution) {
    case 'normal': return () => u * random.normal();
    case 't': return () => u * random.normal() * studentScale(degreesOfFreedom, random);
    case 'rectangular': {
      const halfWidth = u * Math.sqrt(3);
      return () => halfWidth * (2 * random.uniform() - 1);
    }
    case 'triangular': {
      const halfWidth = u * Math.sqrt(6);
      return () => halfWidth * (random.uniform() + random.uniform() - 1);
    }
    case 'arcsine': {
      const halfWidth = u * Math.SQRT2;
      return () => halfWidth * Math.sin(2 * Math.PI * random.uniform());
    }
    case 'curvilinear trapezoid': {
      const { widthInexactness = 0 } = component;
      const halfWidth = u / trapezoidFactor(widthInexactness);
      return () => {
        const width = halfWidth * (1 + widthInexactness * (2 * random.uniform() - 1));
        return width * (2 * random.uniform() - 1);
      };
    }
  }
}
