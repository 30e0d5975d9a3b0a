import type { Random } from '../numeric/index.ts';
import { trapezoidFactor } from './distributions.ts';
import type { Component, Input } from './types.ts';

/**
 * Fills `target` with samples of one input by itself: its value plus a sample of each component. A component with Student's t
 * (repeated readings, n − 1 degrees of freedom) is scaled by its standard uncertainty, so that its samples scatter by
 * √(ν/(ν − 2)) more than that, and without bound for ν ≤ 2: so Supplement 1 has it, and so it differs from first order.
 * @source JCGM 101:2008, 6.4.2 to 6.4.9 (6.4.9.2 for readings).
 */
export function sampleInput(input: Input, random: Random, target: Float64Array): void {
  target.fill(input.value);
  addComponents(input.components, random, target);
}

/** Adds a sample of each component to every entry. */
export function addComponents(components: readonly Component[], random: Random, target: Float64Array): void {
  for (const component of components) if (component.standardUncertainty > 0) addDeviations(component, random, target);
}

/** √(ν/χ²): what makes a normal sample one of Student's t; 1 where the standard uncertainty is exactly known. */
export function studentScale(degreesOfFreedom: number, random: Random): number {
  return degreesOfFreedom === Infinity ? 1 : Math.sqrt(degreesOfFreedom / random.chiSquare(degreesOfFreedom));
}

/** Adds to every entry a sample of a component's deviation from its estimate. */
function addDeviations(component: Component, random: Random, target: Float64Array): void {
  const { standardUncertainty: u, degreesOfFreedom } = component;
  switch (component.distribution) {
    case 'normal': return random.addNormal(target, u);
    case 't': return random.addStudent(target, u, degreesOfFreedom);
    case 'rectangular': return random.addUniform(target, u * Math.sqrt(3));
    case 'triangular': {
      // The sum of two rectangular ones half as wide.
      random.addUniform(target, (u * Math.sqrt(6)) / 2);
      return random.addUniform(target, (u * Math.sqrt(6)) / 2);
    }
    case 'arcsine': {
      const halfWidth = u * Math.SQRT2;
      for (let i = 0; i < target.length; i++) target[i] = (target[i] as number) + halfWidth * Math.sin(2 * Math.PI * random.uniform());
      return;
    }
    case 'curvilinear trapezoid': {
      const { widthInexactness = 0 } = component;
      const halfWidth = u / trapezoidFactor(widthInexactness);
      for (let i = 0; i < target.length; i++) {
        const width = halfWidth * (1 + widthInexactness * (2 * random.uniform() - 1));
        target[i] = (target[i] as number) + width * (2 * random.uniform() - 1);
      }
    }
  }
}
