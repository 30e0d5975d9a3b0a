import type { LineFit } from '../../core/fatigue/index.ts';
import type { ModelBeside, ProfileBeside } from '../../graph/index.ts';
import type { FitCell } from '../../sheet/types.ts';
import { chanceText, percent } from './findings/words.ts';
import { settingWords } from './fit-words.ts';
import { decimalText, figures } from './number.ts';
import { symbolOf } from './symbol.ts';
import type { PresentContext, PresentedSmallTable } from './types.ts';

/** Differences of AIC below this are no reason to leave a model; common practice (Burnham and Anderson, 2002; from memory). */
const AIC_MATTERS = 2;
/** Shift of a limit, in half widths, from which the curvature is said to mislead; our own choice. */
const DIFFERS = 0.15;

/** The other models beside a line by maximum likelihood, and its limits by profile likelihood; takes a while the first time. */
export function presentBeside(cell: FitCell, { states }: PresentContext): readonly PresentedSmallTable[] {
  const { fit, beside } = states.cell(cell.id)?.fit ?? {};
  if (fit === undefined || beside === undefined) return [];
  return [modelTable(beside.models, fit), ...(beside.profiles.length === 0 ? [] : [profileTable(beside.profiles, fit, cell)])];
}

function modelTable(models: readonly ModelBeside[], chosen: LineFit): PresentedSmallTable {
  return {
    caption: 'Other models of the same specimens',
    heads: ['Model', 'Log likelihood', 'AIC', 'p against the straight line'].map((text) => ({ text })),
    rows: models.map((one) => {
      const isChosen = one.model === chosen.model && one.life === chosen.life;
      const name = `${settingWords('model', one.model)}, ${settingWords('life', one.life)}`;
      return {
        head: { text: isChosen ? `${name} (chosen)` : name },
        cells: 'fit' in one.found ? [decimal(one.found.fit.logLikelihood), decimal(one.found.fit.aic), chance(one)] : ['no fit', '–', '–'],
      };
    }),
    note: modelNote(models, chosen),
  };
}

function decimal(value: number): string {
  return decimalText(value.toFixed(2), 0);
}

function chance({ againstStraight }: ModelBeside): string {
  return againstStraight === undefined ? '–' : chanceText(againstStraight.p).replace(/^p (= )?/, '');
}

function modelNote(models: readonly ModelBeside[], chosen: LineFit): string {
  const fits = models.flatMap(({ found }) => ('fit' in found ? [found.fit] : []));
  const best = fits.reduce((a, b) => (b.aic < a.aic ? b : a), chosen);
  const said = chosen.aic - best.aic > AIC_MATTERS
    ? `The smaller the AIC the better: that of “${settingWords('model', best.model)}, ${settingWords('life', best.life)}” is smaller by ${figures(chosen.aic - best.aic, 2)} than that of the model chosen.`
    : 'The smaller the AIC the better; no model here is better than the one chosen by more than 2, which is no reason to leave it.';
  return `${said} p is by likelihood ratio: a small one says that the straight line with the same lives is too simple. Which model is right is a matter of the metal and the range of stress, too, and not of these numbers alone.`;
}

function profileTable(profiles: readonly ProfileBeside[], fit: LineFit, cell: FitCell): PresentedSmallTable {
  const wide = profiles.filter(differs).map(({ name }) => cell.symbols.get(name) ?? name);
  return {
    caption: `${percent(fit.confidence)} limits by curvature, and by profile likelihood`,
    heads: ['Parameter', 'Lower, curvature', 'Upper, curvature', 'Lower, profile', 'Upper, profile'].map((text) => ({ text })),
    rows: profiles.map(({ name, curvature, profile }) => ({
      head: { tex: name === 'S_0' ? `${symbolOf(cell.symbols.get(name) ?? name)} / \\mathrm{MPa}` : symbolOf(cell.symbols.get(name) ?? name) },
      cells: [curvature.lo, curvature.hi, profile.lower, profile.upper].map(limitText),
    })),
    note: wide.length === 0
      ? 'Both agree: the likelihood is as good as symmetric about the best values.'
      : `They differ much for ${wide.join(' and ')}: the likelihood is lopsided there, and the limits by profile are to be trusted more.`,
  };
}

function limitText(limit: number | null): string {
  return limit === null || !Number.isFinite(limit) ? 'not bounded' : figures(limit, 4);
}

function differs({ curvature: { lo, hi }, profile: { lower, upper } }: ProfileBeside): boolean {
  if (lower === null || upper === null) return true;
  return Math.max(Math.abs(lower - lo), Math.abs(upper - hi)) > (DIFFERS * (hi - lo)) / 2;
}
