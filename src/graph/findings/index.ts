/**
 * What a fit finds besides a line: one module for each form, in one list.
 *
 * A form says what can be asked of it and what it publishes, and finds it: `form.ts`. Its plain data are among
 * `Findings`; its words are in `src/report/present/findings/`, by the same name.
 */
import type { FindsWord } from '../../sheet/index.ts';
import type { FindingsForm } from './form.ts';
import { comparisonForm } from './comparison.ts';
import { limitsForm } from './limits.ts';
import { livesForm } from './lives.ts';
import { planForm } from './plan.ts';
import { staircaseForm } from './staircase.ts';
import { weightsForm } from './weights.ts';

export const FINDINGS_FORMS: Readonly<Record<Exclude<FindsWord, 'line'>, FindingsForm>> = {
  limits: limitsForm,
  lives: livesForm,
  comparison: comparisonForm,
  staircase: staircaseForm,
  plan: planForm,
  weights: weightsForm,
};
export type { Ask, FindingsForm, FormReading, Found, PublishedValue } from './form.ts';
export type { Findings } from './types.ts';
