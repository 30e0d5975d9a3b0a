import type { LifeLimits, StrengthLimits } from '../../../core/fatigue/index.ts';
import type { UnitSystem } from '../../../core/units/types.ts';
import type { LimitRow, LimitsFindings, LivesRow } from '../../../graph/index.ts';
import type { FitCell } from '../../../sheet/types.ts';
import { unitText } from '../number.ts';
import type { PresentedSmallTable } from '../types.ts';
import { askedLife, askedStress, lifeText, NO_SIDE, NOT_BOUNDED, percent, stressText, stressUnit, type FindingsWords } from './words.ts';

/** Rows that have an upper side, and those whose middle is an estimate of just what they bound. */
const TWO_SIDED: readonly LimitRow[] = ['median', 'band', 'next', 'interval'];

type Sides = LifeLimits | StrengthLimits;
type SideText = (value: number | null) => string;

/** Limits of life at a stress and of strength at a life, as two tables that read alike. */
export function limitsWords(findings: LimitsFindings, cell: FitCell, system: UnitSystem): FindingsWords {
  const { confidence, share, several, atStress, atLife } = findings;
  const tables: PresentedSmallTable[] = [];
  if (atStress !== undefined && !isEndless(atStress)) {
    tables.push(limitTable(findings, cell, { caption: `Life at ${askedStress(atStress.stress, system)}`, unit: 'cycles', rows: atStress.rows, side: lifeText, quantity: 'N' }));
  }
  if (atLife !== undefined && atLife.none === undefined) {
    const side: SideText = (stressMpa) => stressText(stressMpa, system);
    const unit = unitText(stressUnit(system));
    tables.push(limitTable(findings, cell, { caption: `Strength at ${askedLife(atLife.cycles)}`, unit, rows: atLife.rows, side, quantity: 'S' }));
  }
  return {
    settings: [
      `${percent(confidence)} confidence`,
      `${percent(share)} to survive`,
      several === 1 ? 'the next specimen' : `the next ${several} specimens`,
    ],
    sentences: [leadOf(findings, system), ...(tables.length === 0 ? [] : [foundation(findings)])],
    tables,
    facts: tables.length === 0 ? [] : meanings(findings),
  };
}

/** Whether the line has no life at that stress: at or below a fatigue limit. */
function isEndless(atStress: NonNullable<LimitsFindings['atStress']>): boolean {
  return atStress.rows.some(([row, { estimate }]) => row === 'median' && !Number.isFinite(estimate));
}

const PUBLISHED: Readonly<Partial<Record<LimitRow, string>>> = { median: '50', band: 'band_low', next: 'next', 'first of several': 'first', tolerance: 'design', interval: 'interval_low', 'two s': 'two_s' };

interface Limits {
  readonly caption: string;
  readonly unit: string;
  readonly rows: readonly (readonly [LimitRow, Sides])[];
  /** How a limit is written. */
  readonly side: SideText;
  readonly quantity: 'N' | 'S';
}

function limitTable(findings: LimitsFindings, cell: FitCell, { caption, unit, rows, side, quantity }: Limits): PresentedSmallTable {
  return {
    caption: `${caption}, in ${unit}`,
    heads: ['Limits of', 'Lower limit', 'Estimate', 'Upper limit'].map((text) => ({ text })),
    rows: rows.map(([row, { lower, estimate, upper }]) => {
      const symbol = cell.symbols.get(`${quantity}_${PUBLISHED[row] ?? ''}`);
      return {
        head: { text: rowName(row, findings) },
        cells: [side(lower), row === 'first of several' || row === 'interval' ? NO_SIDE : side(estimate), TWO_SIDED.includes(row) ? side(upper) : NO_SIDE],
        ...(symbol === undefined ? {} : { symbol }),
      };
    }),
  };
}

/** What a row of limits is called, of a line and of lives at one stress. */
export function rowName(row: LimitRow | LivesRow, { share, confidence, several }: Pick<LimitsFindings, 'share' | 'confidence' | 'several'>): string {
  switch (row) {
    case 'median':
      return 'Median';
    case 'share':
      return `Life that ${percent(share)} exceed`;
    case 'band':
      return 'Whole median line at once';
    case 'next':
      return 'Next specimen';
    case 'first of several':
      return several === 1 ? 'Next specimen, lower side' : `First of the next ${several}`;
    case 'tolerance':
      return `Design value ${percent(share)} / ${percent(confidence)}`;
    case 'interval':
      return `Interval of ${percent(share)} / ${percent(confidence)}`;
    case 'two s':
      return 'Median less two s';
  }
}

/** The answer in one or two sentences, or why there is none. */
function leadOf({ confidence, share, atStress, atLife }: LimitsFindings, system: UnitSystem): string {
  const said: string[] = [];
  if (atStress !== undefined) {
    const stress = askedStress(atStress.stress, system);
    const rows = new Map(atStress.rows);
    const design = lifeText(rows.get('tolerance')?.lower ?? null);
    said.push(isEndless(atStress)
      ? `${stress} lies at or below the fatigue limit of this line: by it no specimen breaks there, so no life can be bounded.`
      : `At ${stress} half of all specimens last ${lifeText(rows.get('median')?.estimate ?? null)} cycles${
        design === NOT_BOUNDED ? '; no design value is bounded.' : `; with ${percent(confidence)} confidence at least ${percent(share)} last longer than ${design} cycles.`}`);
  }
  if (atLife !== undefined) {
    const life = askedLife(atLife.cycles);
    const rows = new Map(atLife.rows);
    const unit = unitText(stressUnit(system));
    const design = stressText(rows.get('tolerance')?.lower ?? null, system);
    said.push(atLife.none === undefined
      ? `The median life is ${life} at ${stressText(rows.get('median')?.estimate ?? null, system)} ${unit}${
        design === NOT_BOUNDED ? '; no design value is bounded.' : `; with ${percent(confidence)} confidence at least ${percent(share)} last that long at ${design} ${unit}.`}`
      : `No strength can be told: the line has no falling part that reaches ${life}.`);
  }
  return said.join(' ');
}

/** Where the limits come from. */
function foundation({ degreesOfFreedom, adjusted }: LimitsFindings): string {
  const freedom = degreesOfFreedom === null ? '' : `${degreesOfFreedom} ${degreesOfFreedom === 1 ? 'degree' : 'degrees'} of freedom`;
  const life = adjusted
    ? `Limits after maximum likelihood, adjusted for few specimens: s is enlarged, and t distributions have ${freedom}. They are approximate.`
    : degreesOfFreedom === null
      ? 'Limits after maximum likelihood as they hold for large samples; with so few broken specimens they come out too narrow.'
      : `Exact limits for lognormal lives with the same scatter at every stress, ${freedom}.`;
  return `${life} Limits of strength are the stresses at which the limits of life reach the life asked about; stress is not fitted on life.`;
}

/** What each row promises, once for both tables. */
function meanings(findings: LimitsFindings): FindingsWords['facts'] {
  const { confidence, share, several } = findings;
  const sure = percent(confidence);
  const name = (row: LimitRow): string => rowName(row, findings);
  return [
    { name: name('median'), text: `with ${sure} confidence the true median, which half of all specimens exceed, lies between the limits; it says nothing of a single specimen` },
    { name: name('band'), text: `limits that hold the whole median line at every stress together with ${sure} confidence; they promise more and are wider` },
    { name: name('next'), text: `one more specimen lies between the limits with ${sure} confidence: its scatter is in them, and the doubt about the line` },
    {
      name: name('first of several'),
      text: several === 1
        ? `one more specimen stays above the limit with ${sure} confidence`
        : `the first to break of ${several} more specimens stays above the limit with ${sure} confidence`,
    },
    { name: name('tolerance'), text: `with ${sure} confidence at least ${percent(share)} of all such specimens stay above the limit; up to ${percent(1 - share)} may not` },
    ...(findings.atStress === undefined ? [] : [{ name: name('interval'), text: `with ${sure} confidence at least ${percent(share)} of all such specimens live between the limits` }]),
    { name: name('two s'), text: 'a rule of thumb, for comparison: it takes the line for known exactly, and no confidence belongs to it' },
  ];
}
