import { combine, type Estimate } from '../../core/estimate/index.ts';
import { lifeLimits, strengthLimits, type LimitKind, type LineFit, type StrengthLimits } from '../../core/fatigue/index.ts';
import { fail, ok, type Problem, type Result } from '../../core/problem/index.ts';
import { parseUnit } from '../../core/units/index.ts';
import type { Ask, FindingsForm, FormReading, Found, PublishedValue } from './form.ts';
import { LIFE_ESTIMATES, lineEstimates, STRENGTH_ESTIMATES } from './line-estimates.ts';
import type { LimitRow, LimitsFindings } from './types.ts';

const ASKS: readonly Ask[] = [
  { takes: 'quantity', name: 'stress', unit: 'MPa', possible: '> 0' },
  { takes: 'quantity', name: 'life', unit: 'cycles', possible: '> 0' },
  { takes: 'quantity', name: 'next', unit: '1', possible: '1 .. 100000', usual: 10, whole: true },
  { takes: 'quantity', name: 'share', unit: '1', possible: '0.5 .. 0.999999', usual: 0.9 },
  { takes: 'quantity', name: 'confidence', unit: '1', possible: '0.5 .. 0.999999', usual: 0.95 },
];

type Side = 'lower' | 'upper';

/** What is published of each row, behind `N_` for lives and `S_` for strengths; `line-estimates.ts` has the estimates. */
const SIDES: readonly (readonly [name: string, row: LimitRow, side: Side])[] = [
  ['50_low', 'median', 'lower'], ['50_high', 'median', 'upper'], ['band_low', 'band', 'lower'], ['band_high', 'band', 'upper'], ['next', 'next', 'lower'], ['next_high', 'next', 'upper'],
  ['first', 'first of several', 'lower'], ['design', 'tolerance', 'lower'], ['interval_low', 'interval', 'lower'], ['interval_high', 'interval', 'upper'], ['two_s', 'two s', 'lower'],
];
const LIVES: ReadonlyMap<string, { readonly row: LimitRow; readonly side: Side }> = new Map(SIDES.map(([name, row, side]) => [`N_${name}`, { row, side }]));
const STRENGTHS: ReadonlyMap<string, { readonly row: LimitRow; readonly side: Side }> = new Map(SIDES.flatMap(([name, row, side]) => (row === 'interval' ? [] : [[`S_${name}`, { row, side }] as const])));

const CYCLES = parseUnit('cycles');
const MEGAPASCAL = parseUnit('MPa');

/** Limits of life at a stress and of strength at a life, all from one line. */
export const limitsForm: FindingsForm = {
  asks: ASKS,
  published: [...LIFE_ESTIMATES, ...LIVES.keys(), ...STRENGTH_ESTIMATES, ...STRENGTHS.keys()],
  unitOf: (name) => {
    const unit = LIVES.has(name) || LIFE_ESTIMATES.includes(name) ? CYCLES : STRENGTHS.has(name) || STRENGTH_ESTIMATES.includes(name) ? MEGAPASCAL : undefined;
    return unit?.ok === true ? unit.value : undefined;
  },
  find,
};

const ROWS: readonly LimitRow[] = ['median', 'band', 'next', 'first of several', 'tolerance', 'interval', 'two s'];
/** Of lives alone: an interval of strengths is no limit of the lives at any stress. */
const STRENGTH_ROWS = ROWS.filter((row) => row !== 'interval');

type Asked = Pick<LimitsFindings, 'confidence' | 'share' | 'several'>;

function kindOf(row: LimitRow, { confidence, share, several }: Asked): LimitKind {
  switch (row) {
    case 'first of several':
      return { kind: row, several, confidence };
    case 'tolerance':
    case 'interval':
      return { kind: row, share, confidence };
    case 'two s':
      return { kind: row };
    default:
      return { kind: row, confidence };
  }
}

function find(reading: FormReading): Result<Found> {
  const line = reading.line();
  if (!line.ok) return line;
  const { fit } = line.value;
  const asked: Asked = {
    confidence: reading.quantity('confidence')?.value ?? 0.95,
    share: reading.quantity('share')?.value ?? 0.9,
    several: reading.quantity('next')?.value ?? 10,
  };
  const stress = reading.quantity('stress');
  const cycles = reading.quantity('life');
  if (stress === undefined && cycles === undefined) return fail(nothingAsked());
  const atStress = stress === undefined ? undefined : livesAt(fit, stress.value, asked);
  const atLife = cycles === undefined ? undefined : strengthsAt(fit, cycles.value, asked);
  const values = new Map<string, PublishedValue>(lineEstimates(fit, { stress, cycles, share: asked.share }, reading.cell.symbols));
  for (const [name, { row, side }] of LIVES) {
    if (stress === undefined || !reading.cell.symbols.has(name)) continue;
    const at = (pascals: number): number | null => cyclesOf(lifeLimits(fit, pascals / 1e6, kindOf(row, asked))[side]);
    values.set(name, published(at, stress));
  }
  for (const [name, { row, side }] of STRENGTHS) {
    if (cycles === undefined || !reading.cell.symbols.has(name)) continue;
    const at = (count: number): number | null => {
      const found = strengthLimits(fit, count, kindOf(row, asked));
      const bound = found.ok ? found.value[side] : null;
      return bound === null ? null : bound * 1e6;
    };
    values.set(name, published(at, cycles));
  }
  return ok({
    findings: Object.freeze({ form: 'limits', ...asked, ...foundation(fit), ...(atStress === undefined ? {} : { atStress }), ...(atLife === undefined ? {} : { atLife }) }),
    values,
    warnings: warningsOf(fit, stress?.value, cycles?.value),
  });
}

function livesAt(fit: LineFit, stress: number, asked: Asked): NonNullable<LimitsFindings['atStress']> {
  return { stress, rows: ROWS.map((row) => [row, lifeLimits(fit, stress / 1e6, kindOf(row, asked))] as const) };
}

function strengthsAt(fit: LineFit, cycles: number, asked: Asked): NonNullable<LimitsFindings['atLife']> {
  const rows: (readonly [LimitRow, StrengthLimits])[] = [];
  for (const row of STRENGTH_ROWS) {
    const found = strengthLimits(fit, cycles, kindOf(row, asked));
    if (!found.ok) return { cycles, rows: [], none: found.problem };
    rows.push([row, found.value]);
  }
  return { cycles, rows };
}

function cyclesOf(log10: number | null): number | null {
  const cycles = log10 === null ? Number.NaN : 10 ** log10;
  return Number.isFinite(cycles) && cycles > 0 ? cycles : null;
}

/** The degrees of freedom that `lifeLimits` takes by its usual approach. */
function foundation({ degreesOfFreedom, failures, parameters }: LineFit): Pick<LimitsFindings, 'degreesOfFreedom' | 'adjusted'> {
  if (degreesOfFreedom !== null) return { degreesOfFreedom, adjusted: false };
  const free = failures - parameters.length;
  return free < 1 ? { degreesOfFreedom: null, adjusted: false } : { degreesOfFreedom: free, adjusted: true };
}

/** Warnings of the line that bear on its limits. */
const PASSED_ON: readonly string[] = ['failures-few', 'specimens-few', 'runouts-left-out', 'line-rising', 'lack-of-fit', 'limit-weak'];

function warningsOf(fit: LineFit, stress: number | undefined, cycles: number | undefined): readonly Problem[] {
  const warnings = fit.warnings.filter(({ code }) => PASSED_ON.includes(code));
  const { stressMpa, cycles: tested } = fit.tested;
  const stressSide = stress === undefined ? undefined : sideOf(stress / 1e6, stressMpa);
  const lifeSide = cycles === undefined ? undefined : sideOf(cycles, tested);
  if (stressSide !== undefined) warnings.push(beyond('stress', `${stressSide} every stress that was tested`));
  if (lifeSide !== undefined) warnings.push(beyond('life', `${lifeSide} every life that was tested`));
  return warnings;
}

/** A little slack, since what was asked may come out of a formula. */
const SLACK = 1e-9;

function sideOf(value: number, [low, high]: readonly [number, number]): 'below' | 'above' | undefined {
  if (value < low * (1 - SLACK)) return 'below';
  return value > high * (1 + SLACK) ? 'above' : undefined;
}

function beyond(what: string, where: string): Problem {
  return {
    code: `limits-beyond-${what}`,
    what: `The ${what} that is asked about lies ${where}: the line is only drawn on there, and its limits hold less than they say.`,
    mend: 'Ask inside the tested range, or test there.',
  };
}

/** Relative step of the derivative. */
const STEP = 1e-5;

/** A bound holds its confidence already: what is uncertain in it is only what it was asked at. */
function published(at: (asked: number) => number | null, asked: Estimate): PublishedValue {
  const value = at(asked.value);
  if (value === null) return { problem: noBound() };
  const [below, above] = [at(asked.value * (1 - STEP)), at(asked.value * (1 + STEP))];
  const derivative = below === null || above === null ? 0 : (above - below) / (2 * STEP * asked.value);
  return { estimate: combine(value, [{ estimate: asked, derivative }]) };
}

function noBound(): Problem {
  return {
    code: 'limit-none',
    what: 'The line sets no such limit there.',
    mend: 'Ask inside the tested range; below a fatigue limit no life is bounded.',
  };
}

function nothingAsked(): Problem {
  return {
    code: 'limits-nothing-asked',
    what: 'Nothing is asked of the line yet.',
    mend: 'Under `asks`, add a line such as `stress: 380 MPa` or `life: 1e6 cycles`.',
    key: 'asks',
  };
}
