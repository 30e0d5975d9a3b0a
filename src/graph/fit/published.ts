import { fromInput, type Input } from '../../core/estimate/index.ts';
import { nextFactor, standardQuantile, type LineFit } from '../../core/fatigue/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import { ONE, parseUnit, type Unit } from '../../core/units/index.ts';
import type { FitCell } from '../../sheet/index.ts';
import type { FitState, SymbolState } from '../types.ts';

/** The settings of a fit in force: words of its own or of the choices it names. */
export interface FitSettings {
  readonly method: string;
  readonly life: string;
  readonly model: string;
  readonly stress: string;
  readonly group: string;
}

/** What a fit can publish: parameters, scatter, the factor k_95 for the next specimen (`nextFactor`), z_50 by how many s the median lies above the line, counts, and the range tested. */
export const PUBLISHED: readonly string[] = [
  'A', 'B', 'C', 'S_0', 's', 'k_95', 'z_50', 'n', 'failures', 'runouts', 'left_out', 'N_low', 'N_high', 'S_low', 'S_high',
];

/** Display unit of what a fit publishes. */
export function publishedUnit(name: string, { stress, model }: FitSettings): Unit {
  const text =
    name === 'S_0' || name === 'S_low' || name === 'S_high'
      ? 'MPa'
      : name === 'N_low' || name === 'N_high'
        ? 'cycles'
        : stress === 'plain' && model !== 'limit' && name === 'B'
          ? 'MPa^-1'
          : stress === 'plain' && name === 'C'
            ? 'MPa^-2'
            : '1';
  const unit = parseUnit(text);
  return unit.ok ? unit.value : ONE;
}

/** What a fit publishes, by symbol; without a line each is the trouble that there is. */
export function publishedStates(
  cell: FitCell, settings: FitSettings, fitted: FitState | undefined, problem: Problem | undefined,
): ReadonlyMap<string, SymbolState> {
  const trouble = problem ?? { code: 'fit-no-result', what: 'This fit has no result.', mend: 'Its own line says what is missing.' };
  return new Map([...cell.symbols].map(([name, symbol]) => [symbol, fitted === undefined
    ? Object.freeze({ status: 'problem', problem: trouble, unit: publishedUnit(name, settings) })
    : publishedState(name, cell, settings, fitted.fit)]));
}

/** One published symbol: a parameter with its share of the fit's covariance, or a plain number of the fit. */
function publishedState(name: string, cell: FitCell, settings: FitSettings, fit: LineFit): SymbolState {
  const unit = publishedUnit(name, settings);
  const place = parameterPlace(name, fit);
  if (place !== undefined) {
    return Object.freeze({ status: 'value', estimate: fromInput(parameterInput(name, place, cell, settings, fit)), unit });
  }
  const plain = plainNumber(name, fit);
  if (plain === undefined) {
    return Object.freeze({ status: 'problem', unit, problem: {
      code: 'fit-no-parameter', what: `The chosen model has no ${name}.`, mend: 'Choose a model that has one.', cell: cell.id,
    } });
  }
  const input: Input = { id: cell.symbols.get(name) ?? name, value: plain * unit.factor, components: [] };
  return Object.freeze({ status: 'value', estimate: fromInput(input), unit });
}

/** Row of the covariance: parameters in their order, then ln s. */
function parameterPlace(name: string, fit: LineFit): number | undefined {
  if (name === 's') return fit.parameters.length;
  const place = fit.parameters.findIndex((parameter) => parameter.name === name);
  return place < 0 ? undefined : place;
}

function parameterInput(name: string, place: number, cell: FitCell, settings: FitSettings, fit: LineFit): Input {
  const se = (i: number): number => Math.sqrt(Math.max(0, fit.covariance[i]?.[i] ?? 0));
  const correlations = new Map<string, number>();
  for (const [other, symbol] of cell.symbols) {
    const at = parameterPlace(other, fit);
    if (at === undefined || at === place) continue;
    const product = se(place) * se(at);
    if (product > 0) correlations.set(symbol, Math.min(1, Math.max(-1, (fit.covariance[place]?.[at] ?? 0) / product)));
  }
  const value = name === 's' ? fit.s : (fit.parameters[place]?.value ?? Number.NaN);
  const standardError = name === 's' ? fit.s * se(place) : se(place);
  const { factor } = publishedUnit(name, settings);
  const dof = fit.degreesOfFreedom;
  return Object.freeze({
    id: cell.symbols.get(name) ?? name,
    value: value * factor,
    components: [{
      kind: 'A' as const,
      source: `fit of ${fit.n} specimens`,
      distribution: dof === null ? ('normal' as const) : ('t' as const),
      standardUncertainty: standardError * factor,
      degreesOfFreedom: dof ?? Infinity,
    }],
    ...(correlations.size === 0 ? {} : { correlations }),
  });
}

function plainNumber(name: string, fit: LineFit): number | undefined {
  switch (name) {
    case 'k_95':
      return nextFactor(fit, 0.95);
    case 'z_50':
      return standardQuantile(fit.life, 0.5);
    case 'n':
      return fit.n;
    case 'failures':
      return fit.failures;
    case 'runouts':
      return fit.runouts;
    case 'left_out':
      return fit.method === 'least-squares' ? fit.runouts : 0;
    case 'N_low':
      return fit.tested.cycles[0];
    case 'N_high':
      return fit.tested.cycles[1];
    case 'S_low':
      return fit.tested.stressMpa[0];
    case 'S_high':
      return fit.tested.stressMpa[1];
    default:
      return undefined;
  }
}
