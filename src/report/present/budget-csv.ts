import { budget } from '../../core/estimate/index.ts';
import { counterpart, fromSI, intervalFromSI } from '../../core/units/index.ts';
import { writeOutgoing } from '../../sheet/index.ts';
import { typeOf, unitOfInput, wordsOfInput } from './budget.ts';
import { isMovedBySlips, presentSlipsOn, SLIPS_HEAD } from './slips.ts';
import { presentTrials, restsOnTrial, TRIALS_HEAD } from './trials.ts';
import type { EvaluationType, PresentContext } from './types.ts';

/** Figures that a spreadsheet goes on with: more than are shown, fewer than a double's noise. */
const FIGURES = 10;

/** One input of a budget in figures: its own in the unit that it was typed in, what it contributes in that of the result. */
export interface BudgetFigures {
  readonly input: string;
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly u: number;
  readonly type: EvaluationType | 'exact';
  readonly distribution: string;
  /** Infinite where the uncertainty is exactly known. */
  readonly degreesOfFreedom: number;
  /** Change of the result per change of the input, in units of both. */
  readonly sensitivity: number;
  readonly contribution: number;
  readonly share: number;
  readonly shareByCorrelation: number;
}

/** The budget of a symbol, the largest share first; undefined where it has no value. */
export function budgetFigures(symbol: string, context: PresentContext): readonly BudgetFigures[] | undefined {
  const state = context.states.symbol(symbol);
  if (state?.status !== 'value') return undefined;
  const unit = counterpart(state.unit, context.system);
  return budget(state.estimate).map((line): BudgetFigures => {
    const { input } = line;
    const inputUnit = unitOfInput(input, context);
    return {
      input: input.id,
      name: wordsOfInput(input, context),
      value: fromSI(input.value, inputUnit),
      unit: inputUnit.name,
      u: intervalFromSI(line.standardUncertainty, inputUnit),
      type: input.components.length === 0 ? 'exact' : typeOf(input),
      distribution: [...new Set(input.components.map(({ distribution }) => distribution))].join(' and '),
      degreesOfFreedom: line.degreesOfFreedom,
      sensitivity: (line.derivative * inputUnit.factor) / unit.factor,
      contribution: intervalFromSI(line.contribution, unit),
      share: line.share,
      shareByCorrelation: line.covarianceShare,
    };
  });
}

/** A budget as delimited text, one line an input; undefined where the symbol has no value. */
export function budgetCsv(symbol: string, context: PresentContext): string | undefined {
  const state = context.states.symbol(symbol);
  const lines = budgetFigures(symbol, context);
  if (state?.unit === undefined || lines === undefined) return undefined;
  const unit = counterpart(state.unit, context.system).name;
  const marks = [
    ...(restsOnTrial(context.states.definedBy(symbol) ?? '', context) ? [{ head: TRIALS_HEAD, text: presentTrials(context).map((trial) => `${trial.symbol} = ${trial.typed}`).join('; ') }] : []),
    ...(isMovedBySlips(symbol, context) ? [{ head: SLIPS_HEAD, text: presentSlipsOn(context).map(({ id }) => id).join(' ') }] : []),
  ];
  const heads = [
    'input', 'name', 'value', 'unit', 'standard uncertainty', 'type', 'distribution', 'degrees of freedom',
    `change of ${symbol} [${unit}] per unit of the input`, `contribution [${unit}]`, 'share of the variance', 'share by correlation',
  ];
  const fields = (line: BudgetFigures): readonly string[] => [
    line.input, line.name, figure(line.value), line.unit, figure(line.u), line.type, line.distribution, figure(line.degreesOfFreedom),
    figure(line.sensitivity), figure(line.contribution), figure(line.share), figure(line.shareByCorrelation),
  ];
  const records = [[...marks.map(({ head }) => head), ...heads], ...lines.map((line) => [...marks.map(({ text }) => text), ...fields(line)])];
  return records.map((record) => `${writeOutgoing(record, ',')}\r\n`).join('');
}

function figure(value: number): string {
  return Number.isFinite(value) ? String(Number(value.toPrecision(FIGURES))) : '';
}
