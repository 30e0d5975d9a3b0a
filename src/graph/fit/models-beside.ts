import {
  compareNested, fitMaximumLikelihood, profileLimits,
  type LifeDistribution, type LikelihoodRatio, type LineFit, type LineModel, type ParameterName, type ProfileLimits, type Specimens,
} from '../../core/fatigue/index.ts';
import type { Problem } from '../../core/problem/index.ts';

/** Another model of the same specimens by maximum likelihood, or why it has no fit. */
export interface ModelBeside {
  readonly model: LineModel;
  readonly life: LifeDistribution;
  readonly found: { readonly fit: LineFit } | { readonly none: Problem };
  /** Against the straight line with the same distribution of life; absent for that line, and where there is no fit. */
  readonly againstStraight?: LikelihoodRatio;
}

/** Limits by profile likelihood of what a model's own limits by curvature stand for. */
export interface ProfileBeside {
  readonly name: Exclude<ParameterName, 'A'> | 's';
  readonly curvature: { readonly lo: number; readonly hi: number };
  readonly profile: ProfileLimits;
}

/** What stands beside a line by maximum likelihood: the other models, and limits that need no curvature. */
export interface BesideLine {
  readonly models: readonly ModelBeside[];
  readonly profiles: readonly ProfileBeside[];
}

/** With more specimens all limits are alike, and the search for the other models would take its time. */
const MOST_SPECIMENS = 1000;

const MODELS: readonly LineModel[] = ['linear', 'quadratic', 'limit'];
const LIVES: readonly LifeDistribution[] = ['lognormal', 'weibull'];

/** Whether other models are put beside a line. */
export function canBeCompared({ method, n }: LineFit): boolean {
  return method === 'maximum-likelihood' && n <= MOST_SPECIMENS;
}

/** The chosen line's neighbours, found when they are first looked at; undefined for least squares and long tables. */
export function besideLine(specimens: Specimens, fit: LineFit): () => BesideLine | undefined {
  let known: BesideLine | undefined;
  return () => {
    if (!canBeCompared(fit)) return undefined;
    known ??= { models: modelsOf(specimens, fit), profiles: profilesOf(specimens, fit) };
    return known;
  };
}

function modelsOf(specimens: Specimens, chosen: LineFit): readonly ModelBeside[] {
  const { stress } = chosen;
  const models = stress === 'log' ? MODELS : MODELS.filter((model) => model !== 'limit');
  return LIVES.flatMap((life) => {
    const found = models.map((model) => {
      if (model === chosen.model && life === chosen.life) return { model, found: { fit: chosen } };
      const fitted = fitMaximumLikelihood(specimens, { model, stress, life });
      return { model, found: fitted.ok ? { fit: fitted.value } : { none: fitted.problem } };
    });
    const straight = found.find(({ model }) => model === 'linear')?.found;
    return found.map((one): ModelBeside => {
      const ratio = straight !== undefined && 'fit' in straight && 'fit' in one.found ? compareNested(straight.fit, one.found.fit) : null;
      return { ...one, life, ...(ratio === null ? {} : { againstStraight: ratio }) };
    });
  });
}

function profilesOf(specimens: Specimens, { parameters, sLimits, model, stress, life, confidence }: LineFit): readonly ProfileBeside[] {
  const options = { model, stress, life, confidence };
  const own = parameters.flatMap(({ name, lo, hi }): ProfileBeside[] => {
    // With a fatigue limit every point of another profile is a search of its own: seconds, and the limit is what is asked.
    if (name === 'A' || (model === 'limit' && name !== 'S_0')) return [];
    const profile = profileLimits(specimens, options, { of: 'parameter', name }, confidence);
    return profile.ok ? [{ name, curvature: { lo, hi }, profile: profile.value }] : [];
  });
  if (model === 'limit') return own;
  const ofScale = profileLimits(specimens, options, { of: 's' }, confidence);
  return ofScale.ok ? [...own, { name: 's', curvature: sLimits, profile: ofScale.value }] : own;
}
