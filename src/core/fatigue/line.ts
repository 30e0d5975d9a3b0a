import type { LineFit, LineModel, ParameterName, StressScale } from './types.ts';

/** What is needed to reckon with a line: any `LineFit` has it, and so has a line stored from another sheet. */
export type FittedLine = Pick<
  LineFit,
  'model' | 'stress' | 'life' | 'parameters' | 'covariance' | 's' | 'degreesOfFreedom' | 'tested' | 'failures'
>;

/** Names of a model's parameters, in the order of the covariance. */
export function parameterNames(model: LineModel): readonly ParameterName[] {
  if (model === 'constant') return ['A'];
  if (model === 'linear') return ['A', 'B'];
  return model === 'quadratic' ? ['A', 'B', 'C'] : ['A', 'B', 'S_0'];
}

/** X of a stress in MPa: log10 or the stress itself. */
export function onScale(stressMpa: number, scale: StressScale): number {
  return scale === 'log' ? Math.log10(stressMpa) : stressMpa;
}

/** The stress in MPa of an X. */
export function offScale(x: number, scale: StressScale): number {
  return scale === 'log' ? 10 ** x : x;
}

/** log10 of the location of life at a stress; +∞ at or below a fatigue limit. */
export function locationAt(line: Pick<FittedLine, 'model' | 'stress' | 'parameters'>, stressMpa: number): number {
  const [a, b, c] = line.parameters.map(({ value }) => value);
  if (line.model === 'limit') {
    const above = stressMpa - (c ?? 0);
    return above > 0 ? (a ?? 0) + (b ?? 0) * Math.log10(above) : Infinity;
  }
  const x = onScale(stressMpa, line.stress);
  return (a ?? 0) + x * ((b ?? 0) + x * (line.model === 'quadratic' ? (c ?? 0) : 0));
}

/** Derivatives of the location to the parameters, in their order. */
export function locationGradient(line: Pick<FittedLine, 'model' | 'stress' | 'parameters'>, stressMpa: number): readonly number[] {
  if (line.model === 'limit') {
    const above = stressMpa - (line.parameters[2]?.value ?? 0);
    return [1, Math.log10(above), -(line.parameters[1]?.value ?? 0) / (above * Math.LN10)];
  }
  if (line.model === 'constant') return [1];
  const x = onScale(stressMpa, line.stress);
  return line.model === 'quadratic' ? [1, x, x * x] : [1, x];
}
