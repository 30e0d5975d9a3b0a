import type { LifeLimits } from '../../../core/fatigue/index.ts';
import { fromSI } from '../../../core/units/index.ts';
import type { UnitSystem } from '../../../core/units/types.ts';
import type { LivesFindings, LivesRow } from '../../../graph/index.ts';
import type { FitCell } from '../../../sheet/types.ts';
import { figures, plainFigures, unitText, withUnit } from '../number.ts';
import type { PresentedSmallTable } from '../types.ts';
import { rowName } from './limits.ts';
import { askedStress, chanceText, lifeText, NO_SIDE, NOT_BOUNDED, percent, stressUnit, type FindingsWords } from './words.ts';

const NAMES: Readonly<Record<LivesFindings['distribution'], string>> = {
  lognormal: 'lognormal lives', weibull: 'Weibull lives, two parameters', 'weibull-threshold': 'Weibull lives with a threshold',
};
const PUBLISHED: Readonly<Partial<Record<LivesRow, string>>> = { median: 'N_50', share: 'N_share', next: 'N_next', 'first of several': 'N_first', tolerance: 'N_design' };

/** Lives at one stress: quantiles with limits, the parameters, and what they rest on. */
export function livesWords(findings: LivesFindings, cell: FitCell, system: UnitSystem): FindingsWords {
  const { confidence, share, distribution } = findings;
  return {
    settings: [NAMES[distribution], `${percent(confidence)} confidence`, `${percent(share)} to survive`],
    sentences: [leadOf(findings, system), foundation(findings)],
    tables: [limitTable(findings, cell), parameterTable(findings)],
    facts: meanings(findings),
  };
}

function limitTable(findings: LivesFindings, cell: FitCell): PresentedSmallTable {
  return {
    caption: 'Life, in cycles',
    heads: ['Limits of', 'Lower limit', 'Estimate', 'Upper limit'].map((text) => ({ text })),
    rows: findings.rows.map(([row, limits]) => {
      const symbol = cell.symbols.get(PUBLISHED[row] ?? '');
      return { head: { text: rowName(row, findings) }, cells: cellsOf(row, limits), ...(symbol === undefined ? {} : { symbol }) };
    }),
  };
}

function cellsOf(row: LivesRow, { lower, estimate, upper }: LifeLimits): readonly string[] {
  const isLowerOnly = row === 'first of several' || row === 'tolerance';
  return [lifeText(lower), row === 'first of several' || row === 'interval' ? NO_SIDE : lifeText(estimate), isLowerOnly ? NO_SIDE : lifeText(upper)];
}

/** Scale of log10 life as the distribution's own shape; limits change sides. */
function parameterTable({ distribution, location, scale, threshold, confidence }: LivesFindings): PresentedSmallTable {
  const number = (value: number | null): string => (value === null ? NOT_BOUNDED : plainFigures(value, 4));
  const shape = (s: number | null): number | null => (s === null ? null : 1 / (s * Math.LN10));
  const cells = <T extends { readonly estimate: number; readonly lower: number | null; readonly upper: number | null }>(
    { lower, estimate, upper }: T, text: (value: number | null) => string,
  ): readonly string[] => (threshold === undefined || lower !== null || upper !== null ? [text(lower), text(estimate), text(upper)] : [NO_SIDE, text(estimate), NO_SIDE]);
  const rows = distribution === 'lognormal'
    ? [{ head: { text: 'Mean of lg N' }, cells: cells(location, number) }, { head: { text: 'Standard deviation of lg N' }, cells: cells(scale, number) }]
    : [
        { head: { text: 'Characteristic life / cycles' }, cells: cells(location, lifeText) },
        { head: { text: 'Shape' }, cells: cells({ lower: shape(scale.upper), estimate: 1 / (scale.estimate * Math.LN10), upper: shape(scale.lower) }, number) },
        ...(threshold === undefined ? [] : [{
          head: { text: 'Threshold / cycles' },
          cells: [threshold.lower, threshold.estimate, threshold.upper].map((value) => (value === null ? NOT_BOUNDED : figures(value, 3))),
        }]),
      ];
  return { caption: `Parameters, with ${percent(confidence)} limits`, heads: ['Parameter', 'Lower limit', 'Estimate', 'Upper limit'].map((text) => ({ text })), rows };
}

function leadOf({ stress: [low, high], n, runouts, rows, share, confidence, distribution }: LivesFindings, system: UnitSystem): string {
  const byRow = new Map(rows);
  const unit = stressUnit(system);
  const at = high > low * (1 + 1e-9)
    ? `${figures(fromSI(low, unit), 4)} to ${withUnit(figures(fromSI(high, unit), 4), unitText(unit))}`
    : askedStress(low, system);
  const tested = `${n} specimens at ${at}${runouts === 0 ? '' : `, ${runouts} unbroken`}`;
  const middle = `half last ${lifeText(byRow.get('median')?.estimate ?? null)} cycles, ${percent(share)} more than ${lifeText(byRow.get('share')?.estimate ?? null)}`;
  const design = byRow.get('tolerance')?.lower ?? null;
  const sure = distribution === 'weibull-threshold' || design === null ? '.' : `; with ${percent(confidence)} confidence at least ${percent(share)} last longer than ${lifeText(design)} cycles.`;
  return `${tested}: ${middle}${sure}`;
}

function foundation({ distribution, isExact, failures, threshold }: LivesFindings): string {
  const here = 'All of this holds at this stress alone.';
  if (isExact) return `Exact limits for lognormal lives, ${failures - 1} ${failures === 2 ? 'degree' : 'degrees'} of freedom. ${here}`;
  if (distribution !== 'weibull-threshold') return `Maximum likelihood, an unbroken specimen as one that lives longer; limits adjusted for few specimens, approximate. ${here}`;
  const gain = threshold === undefined ? '' : ` Without a threshold so great a gain would come by chance with ${chanceText(threshold.p)}.`;
  return `Maximum likelihood, limits by profile likelihood. They are approximate: meant for 95 %, they held in 93 to 100 of 100 simulated samples that had a threshold at all.${gain} ${here}`;
}

function meanings(findings: LivesFindings): FindingsWords['facts'] {
  const { confidence, share, logLikelihood, failures, runouts, distribution } = findings;
  const sure = percent(confidence);
  const counts = { name: 'Specimens', text: `${failures} broken, ${runouts} unbroken; log likelihood ${plainFigures(logLikelihood, 5)}: of two distributions for the same specimens the greater one fits better` };
  if (distribution === 'weibull-threshold') return [counts];
  return [
    counts,
    { name: rowName('tolerance', findings), text: `with ${sure} confidence at least ${percent(share)} of all such specimens live longer` },
    { name: rowName('interval', findings), text: `with ${sure} confidence at least ${percent(share)} of all such specimens live between the limits` },
  ];
}
