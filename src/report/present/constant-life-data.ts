import { MEAN_STRESS_CORRECTIONS, type MeanStressCorrection } from '../../core/fatigue/index.ts';
import { isolated } from '../../core/problem/index.ts';
import type { ConstantLifeData } from '../../figures/charts/index.ts';
import { cellIn } from '../../sheet/index.ts';
import type { FigureCell } from '../../sheet/types.ts';
import { chartTexts } from './chart-texts.ts';
import { roleValues } from './figure-values.ts';
import { cellAt } from './lookup.ts';
import { chosenOption } from './step.ts';
import type { PresentContext } from './types.ts';

const ROLES = ['amplitude', 'mean', 'factor', 'reversed', 'limit', 'life', 'tensile', 'yield', 'reversal', 'exponent'] as const;

/**
 * What a constant-life diagram shows. The choice that the cell names by `by` says the correction, by its option's key.
 * Roles of its values: `amplitude` (with the notch `factor` in it), `mean`, `reversed` and `life` of the specimen, `limit`
 * for the endurance limit; `tensile`, `yield`, `reversal` (the stress at one reversal) and `exponent` of the material.
 */
export function constantLifeData(cell: FigureCell, context: PresentContext): ConstantLifeData {
  const values = roleValues(cell, ROLES, context);
  const value = (role: (typeof ROLES)[number]): number | undefined => {
    const found = values[role];
    return found === undefined || found.hidden || found.si === undefined || !Number.isFinite(found.si) ? undefined : found.si;
  };
  const megapascals = (role: (typeof ROLES)[number]): number | undefined => {
    const found = value(role);
    return found === undefined ? undefined : found / 1e6;
  };
  const choice = cellIn(cellAt(cell.by ?? '', context), 'choice');
  const option = choice && chosenOption(choice);
  const [amplitude, mean, factor] = [megapascals('amplitude'), megapascals('mean'), cell.values.has('factor') ? value('factor') : 1];
  const specimen = amplitude === undefined || mean === undefined || factor === undefined ? undefined : { amplitude, mean };
  const isWithheld = Object.values(values).some(({ hidden }) => hidden);
  return {
    correction: isCorrection(option?.key) ? option.key : 'none',
    correctionName: isolated(option?.label ?? ''),
    constants: defined({ tensile: megapascals('tensile'), yield: megapascals('yield'), oneReversal: megapascals('reversal'), exponent: value('exponent') }),
    ...defined({ specimen, reversed: megapascals('reversed'), limit: megapascals('limit'), life: value('life') }),
    factor: factor !== undefined && factor > 0 ? factor : 1,
    texts: chartTexts(context.system),
    ...(isWithheld ? { note: 'The rest appears here once you have worked it out.' } : {}),
  };
}

function isCorrection(key: string | undefined): key is MeanStressCorrection {
  return MEAN_STRESS_CORRECTIONS.some((name) => name === key);
}

type Defined<T> = { readonly [K in keyof T]?: Exclude<T[K], undefined> };

/** The entries that have a value. */
function defined<T extends object>(entries: T): Defined<T> {
  return Object.fromEntries(Object.entries(entries).filter(([, entry]) => entry !== undefined)) as Defined<T>;
}
