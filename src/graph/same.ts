import type { Component, Estimate, Input } from '../core/estimate/types.ts';
import type { SymbolState } from './types.ts';

/** Whether two results say the same: then an edit stops spreading there. */
export function sameResult(a: SymbolState, b: SymbolState): boolean {
  if (a === b) return true;
  if (a.status !== b.status || a.unit?.name !== b.unit?.name) return false;
  if (a.status === 'value' && b.status === 'value') return a.isOfUncertainties === b.isOfUncertainties && sameEstimate(a.estimate, b.estimate);
  if (a.status === 'range' && b.status === 'range') return a.word === b.word && sameNames(a.waitsFor, b.waitsFor);
  return JSON.stringify(a) === JSON.stringify(b);
}

function sameNames(a: readonly string[] = [], b: readonly string[] = []): boolean {
  return a.length === b.length && a.every((name, i) => name === b[i]);
}

function sameEstimate(a: Estimate, b: Estimate): boolean {
  if (a.value !== b.value || a.sensitivities.size !== b.sensitivities.size) return false;
  for (const [id, { input, derivative }] of a.sensitivities) {
    const other = b.sensitivities.get(id);
    if (other === undefined || other.derivative !== derivative || !sameInput(input, other.input)) return false;
  }
  return true;
}

function sameInput(a: Input, b: Input): boolean {
  if (a === b) return true;
  return (
    a.id === b.id &&
    a.value === b.value &&
    a.components.length === b.components.length &&
    a.components.every((component, i) => sameComponent(component, b.components[i])) &&
    JSON.stringify([a.together, [...(a.correlations ?? [])]]) === JSON.stringify([b.together, [...(b.correlations ?? [])]])
  );
}

function sameComponent(a: Component, b: Component | undefined): boolean {
  return (
    b !== undefined &&
    a.kind === b.kind &&
    a.source === b.source &&
    a.distribution === b.distribution &&
    a.standardUncertainty === b.standardUncertainty &&
    a.degreesOfFreedom === b.degreesOfFreedom &&
    a.widthInexactness === b.widthInexactness
  );
}
