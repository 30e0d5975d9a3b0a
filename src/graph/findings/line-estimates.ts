import { combine, fromInput, type Estimate } from '../../core/estimate/index.ts';
import { lifeLimits, quantileGradient, strengthLimits, type LineFit } from '../../core/fatigue/index.ts';
import type { PublishedValue } from './form.ts';

/** What a line estimates at a stress and at a life: median, and what a share exceeds. */
export const LIFE_ESTIMATES: readonly string[] = ['N_50', 'N_share'];
export const STRENGTH_ESTIMATES: readonly string[] = ['S_50', 'S_share'];

interface Asked {
  readonly stress: Estimate | undefined;
  readonly cycles: Estimate | undefined;
  readonly share: number;
}

/** One estimate, SI; its derivative to what it was asked at, and to the line's parameters and ln s. */
interface FromLine {
  readonly value: number;
  readonly asked: Estimate;
  readonly derivative: number;
  readonly gradient: readonly number[];
}

const NONE: PublishedValue = { problem: { code: 'estimate-none', what: 'The line has no such value there.', mend: 'Ask inside the tested range; below a fatigue limit no life is bounded.' } };
/** Relative step of a derivative. */
const STEP = 1e-5;

/**
 * The estimates of a line that a cell publishes, with the line's uncertainty (first order, by the covariance of its parameters, JCGM 100, equation 13) and that of
 * what they were asked at. Of one line they vary together, and say so; that the parameters themselves, published elsewhere, vary with them is not said.
 */
export function lineEstimates(fit: LineFit, asked: Asked, symbols: ReadonlyMap<string, string>): readonly (readonly [string, PublishedValue])[] {
  const found = [...LIFE_ESTIMATES, ...STRENGTH_ESTIMATES].flatMap((name) => {
    const share = name.endsWith('50') ? 0.5 : asked.share;
    const isLife = name.startsWith('N');
    const at = isLife ? asked.stress : asked.cycles;
    if (at === undefined || !symbols.has(name)) return [];
    return [{ name, id: symbols.get(name) ?? name, one: isLife ? lifeOf(fit, at, share) : strengthOf(fit, at, share) }];
  });
  const free = fit.degreesOfFreedom ?? fit.failures - fit.parameters.length;
  const enlargement = fit.degreesOfFreedom === null && free >= 1 ? fit.failures / free : 1;
  const covariance = (a: FromLine, b: FromLine): number => enlargement * a.gradient.reduce((sum, x, i) =>
    sum + b.gradient.reduce((inner, y, j) => inner + x * y * (fit.covariance[i]?.[j] ?? 0), 0), 0);
  return found.map(({ name, id, one }): readonly [string, PublishedValue] => {
    if (one === undefined || !(covariance(one, one) >= 0)) return [name, NONE];
    const u = Math.sqrt(covariance(one, one));
    const correlations = new Map(found.flatMap((other): [string, number][] => {
      const r = other.one === undefined || other.id === id ? Number.NaN : covariance(one, other.one) / (u * Math.sqrt(covariance(other.one, other.one)));
      return Number.isFinite(r) ? [[other.id, Math.max(-1, Math.min(1, r))]] : [];
    }));
    const line = fromInput({
      id, value: one.value,
      components: [{ kind: 'A', source: `line through ${fit.n} specimens`, distribution: 'normal', standardUncertainty: u, degreesOfFreedom: free >= 1 ? free : Infinity }],
      ...(correlations.size === 0 ? {} : { correlations }),
    });
    return [name, { estimate: combine(one.value, [{ estimate: line, derivative: 1 }, { estimate: one.asked, derivative: one.derivative }]) }];
  });
}

function lifeOf(fit: LineFit, asked: Estimate, share: number): FromLine | undefined {
  const at = (pascals: number): number => 10 ** lifeLimits(fit, pascals / 1e6, { kind: 'share', share, confidence: 0.95 }).estimate;
  const value = at(asked.value);
  if (!Number.isFinite(value)) return undefined;
  return { value, asked, derivative: slope(at, asked.value), gradient: quantileGradient(fit, asked.value / 1e6, share).map((part) => value * Math.LN10 * part) };
}

/** The stress at which that share lives longer: a change of the line moves it by what makes up for the change of life. */
function strengthOf(fit: LineFit, asked: Estimate, share: number): FromLine | undefined {
  const at = (cycles: number): number => {
    const found = strengthLimits(fit, cycles, share === 0.5 ? { kind: 'median', confidence: 0.95 } : { kind: 'tolerance', share, confidence: 0.95 });
    return found.ok ? found.value.estimate * 1e6 : Number.NaN;
  };
  const value = at(asked.value);
  const logLife = (pascals: number): number => lifeLimits(fit, pascals / 1e6, { kind: 'median', confidence: 0.95 }).estimate;
  const fall = slope(logLife, value);
  if (!Number.isFinite(value) || !Number.isFinite(fall) || fall === 0) return undefined;
  return { value, asked, derivative: slope(at, asked.value), gradient: quantileGradient(fit, value / 1e6, share).map((part) => -part / fall) };
}

function slope(f: (x: number) => number, x: number): number {
  const difference = (f(x * (1 + STEP)) - f(x * (1 - STEP))) / (2 * STEP * x);
  return Number.isFinite(difference) ? difference : 0;
}
