import { coverageOfAdjusted, parameterLimits, type LeastSquaresFit, type LineFit, type Replication, type ReplicationClass } from '../../core/fatigue/index.ts';
import { counterpart, fromSI, ONE, parseUnit } from '../../core/units/index.ts';
import type { UnitSystem } from '../../core/units/types.ts';
import type { LineSource } from '../../graph/index.ts';
import { countText, decimalText, figures, plainFigures, unitText, withUnit } from './number.ts';

/** What is said of a fitted line beside its numbers, in words. */

/** Below this p the test of the line against its replicates speaks against the line, as the fit's own warning does. */
const SIGNIFICANT = 0.05;

/** What a plan's replication is enough for: classes of ASTM E739, section 7.1. */
const REPLICATION_WORDS: Readonly<Record<ReplicationClass, string>> = {
  preliminary: 'enough for preliminary and exploratory tests',
  research: 'enough for research and development tests',
  design: 'enough for design allowables',
  reliability: 'enough for reliability data',
};

const SETTING_WORDS: Readonly<Record<string, string>> = {
  'method least-squares': 'least squares',
  'method maximum-likelihood': 'maximum likelihood',
  'life lognormal': 'lognormal lives',
  'life weibull': 'Weibull lives',
  'model linear': 'straight line',
  'model quadratic': 'quadratic',
  'model limit': 'with a fatigue limit',
  'stress log': 'logarithm of stress',
  'stress plain': 'stress itself',
  'group all': 'all groups',
};

/** A setting in force as the margin says it. */
export function settingWords(name: string, word: string): string {
  const key = `${name} ${word}`;
  return Object.hasOwn(SETTING_WORDS, key) ? (SETTING_WORDS[key] ?? word) : name === 'group' ? `only ${word}` : word;
}

export function methodSentence({ method, life, stress, failures }: LineFit): string {
  const x = stress === 'log' ? 'log₁₀ S' : 'S';
  if (method === 'least-squares') {
    return `Least squares of log₁₀ N on ${x}, over the ${failures} broken specimens; lives are taken as lognormal. N is the median life.`;
  }
  return life === 'lognormal'
    ? `Maximum likelihood with lognormal lives over ${x}; runouts count as lives longer than tested. N is the median life.`
    : `Maximum likelihood with Weibull lives over ${x}; runouts count as lives longer than tested. N is the characteristic life, which 36.8 % exceed.`;
}

export function limitsWords(fit: LineFit): string {
  const { confidence, degreesOfFreedom } = fit;
  const percent = `${figures(100 * confidence, 3).replace(/\.0$/, '')} %`;
  if (degreesOfFreedom !== null) {
    return `${percent} limits by Student’s t with ${degreesOfFreedom} ${degreesOfFreedom === 1 ? 'degree' : 'degrees'} of freedom; those of s by χ².`;
  }
  const large = `${percent} limits from the curvature of the likelihood, which hold for large samples.`;
  return fit.warnings.some(({ code }) => code === 'limits-narrow') ? `${large}${adjustedWords(fit)}` : large;
}

const NAMES: Readonly<Record<string, string>> = { S_0: 'S₀ / MPa' };
const LIMIT_FIGURES = 4;

/** Limits that hold what they say with few broken specimens, beside those of the table. */
function adjustedWords(fit: LineFit): string {
  if (fit.failures <= fit.parameters.length) return '';
  const { parameters, s } = parameterLimits(fit, fit.confidence);
  const limits = [...parameters, { name: 's', ...s }].map(({ name, lo, hi }) => `${NAMES[name] ?? name} ${figures(lo, LIMIT_FIGURES)} … ${figures(hi, LIMIT_FIGURES)}`);
  const [least, most] = coverageOfAdjusted(fit);
  const coverage = fit.model === 'linear' ? `; in simulations such 95 % limits held the truth in ${Math.floor(least)} to ${Math.ceil(most)} of 100 cases` : '';
  return ` Adjusted for ${fit.failures} broken specimens they are: ${limits.join('; ')}${coverage}.`;
}

export function countsWords({ n, failures, runouts, invalid, method }: LineFit): string {
  const specimens = `${countText(n)} ${n === 1 ? 'specimen' : 'specimens'} in the fit: ${countText(failures)} broken`;
  const unbroken = `${countText(runouts)} ${runouts === 1 ? 'runout' : 'runouts'}`;
  const counted = method === 'least-squares' && runouts > 0 ? `; ${unbroken} left out` : method === 'least-squares' ? '' : `, ${unbroken}`;
  return `${specimens}${counted}${invalid === 0 ? '' : `; ${countText(invalid)} invalid, left out`}.`;
}

const NO_BREAK_HYPHEN = '\u2011';

/** Digits of a fingerprint that are shown: enough to compare two by eye. */
const SHOWN_DIGITS = 8;

/** @param taken where the line comes from, for one fitted in another sheet, which alone knows its replicates */
export function factsOf(fit: LineFit, system: UnitSystem, taken?: LineSource): readonly { readonly name: string; readonly text: string }[] {
  if (taken !== undefined) {
    return [
      { name: 'Taken from', text: `“${taken.title}”, its fit ${taken.fitId}, on ${taken.date.replaceAll('-', NO_BREAK_HYPHEN)}${taken.isInvented ? ', fitted to an invented example' : ''}` },
      { name: 'Tested range', text: testedWords(fit, system) },
      { name: 'Fingerprint of the tests', text: taken.fingerprint.slice(0, SHOWN_DIGITS) },
    ];
  }
  return [
    { name: 'Lack of fit', text: lackOfFitWords(fit) },
    { name: 'Replication', text: replicationWords(fit.replication) },
    { name: 'Tested range', text: testedWords(fit, system) },
    { name: 'Log likelihood', text: likelihoodText(fit.logLikelihood) },
    { name: 'AIC', text: likelihoodText(fit.aic) },
    ...explainedFact(fit),
  ];
}

/** What some readers ask for first, and what it does not tell. */
function explainedFact(fit: LineFit): readonly { readonly name: string; readonly text: string }[] {
  const { rSquared } = fit as Partial<LeastSquaresFit>;
  if (rSquared === undefined) return [];
  const slope = fit.parameters.find(({ name }) => name === 'B')?.value ?? 0;
  const x = fit.stress === 'log' ? 'log₁₀ S' : 'S';
  const correlation = fit.model === 'linear' ? `; correlation of log₁₀ N with ${x} ${shareText(Math.sign(slope) * Math.sqrt(Math.max(0, rSquared)))}` : '';
  return [{
    name: 'R²',
    text: `${shareText(rSquared)}${correlation}. It grows as the levels are set further apart, with the same scatter; it says neither that the line is straight nor how far a life strays: lack of fit and s do`,
  }];
}

/** With as many nines as there are. */
function shareText(value: number): string {
  const places = 1 - Math.abs(value) > 0 ? Math.min(12, Math.max(3, 1 - Math.floor(Math.log10(1 - Math.abs(value))))) : 3;
  return decimalText(value.toFixed(places), 0);
}

/** Without scatter the likelihood has no greatest value. */
function likelihoodText(value: number): string {
  return Number.isFinite(value) ? decimalText(value.toFixed(2), 0) : 'no bound: the specimens lie on the line exactly';
}

function lackOfFitWords({ method, lackOfFit }: LineFit): string {
  if (method === 'maximum-likelihood') return 'the F test belongs to least squares; compare models by AIC, the smaller the better';
  if (lackOfFit === null) return 'can’t be tested: it takes replicates, and more levels than the line has parameters';
  const { F, df1, df2, p } = lackOfFit;
  const words = p < SIGNIFICANT ? 'the replicates speak against the line' : 'the replicates give no reason to doubt the line';
  return `${words}: F(${df1}, ${df2}) = ${figures(F, 3)}, p ${p < 0.001 ? '< 0.001' : `= ${figures(p, 2)}`}`;
}

/** `50 % (12 specimens at 6 levels), enough for …` */
export function replicationWords({ percent, levels, specimens, suitedFor }: Replication): string {
  const counts = `${specimens} specimens at ${levels} ${levels === 1 ? 'level' : 'levels'}`;
  return `${figures(percent, 2)} % (${counts}), ${suitedFor === null ? 'too few specimens or replicates even for preliminary tests' : REPLICATION_WORDS[suitedFor]}`;
}

export function testedWords({ tested }: LineFit, system: UnitSystem): string {
  const read = parseUnit('MPa');
  const megapascal = read.ok ? read.value : ONE;
  const unit = counterpart(megapascal, system);
  const [low, high] = tested.stressMpa.map((stress) => plainFigures(fromSI(stress * megapascal.factor, unit), 4));
  const [short, long] = tested.cycles.map((cycles) => plainFigures(cycles, 3));
  return `${withUnit(`${low} … ${high}`, unitText(unit))}; ${short} … ${long} cycles`;
}
