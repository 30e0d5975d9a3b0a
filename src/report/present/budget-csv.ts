import { budget } from '../../core/estimate/index.ts';
import { counterpart, fromSI, intervalFromSI } from '../../core/units/index.ts';
import { writeRecord } from '../../sheet/index.ts';
import { typeOf, unitOfInput, wordsOfInput } from './budget.ts';
import { isMovedBySlips, presentSlipsOn, SLIPS_HEAD } from './slips.ts';
import type { PresentContext } from './types.ts';

/** Figures that a spreadsheet goes on with: more than are shown, fewer than a double's noise. */
const FIGURES = 10;

/** A budget as delimited text, one line an input; undefined where the symbol has no value. */
export function budgetCsv(symbol: string, context: PresentContext): string | undefined {
  const state = context.states.symbol(symbol);
  if (state?.status !== 'value') return undefined;
  const unit = counterpart(state.unit, context.system);
  const slips = isMovedBySlips(symbol, context) ? presentSlipsOn(context).map(({ id }) => id).join(' ') : undefined;
  const heads = [
    'input', 'name', 'value', 'unit', 'standard uncertainty', 'type', 'distribution', 'degrees of freedom',
    `change of ${symbol} [${unit.name}] per unit of the input`, `contribution [${unit.name}]`, 'share of the variance', 'share by correlation',
  ];
  const lines = budget(state.estimate).map((line): readonly string[] => {
    const { input } = line;
    const inputUnit = unitOfInput(input, context);
    return [
      input.id, wordsOfInput(input, context), figure(fromSI(input.value, inputUnit)), inputUnit.name,
      figure(intervalFromSI(line.standardUncertainty, inputUnit)), input.components.length === 0 ? 'exact' : typeOf(input),
      [...new Set(input.components.map(({ distribution }) => distribution))].join(' and '), figure(line.degreesOfFreedom),
      figure((line.derivative * inputUnit.factor) / unit.factor), figure(intervalFromSI(line.contribution, unit)), figure(line.share), figure(line.covarianceShare),
    ];
  });
  const marked = (fields: readonly string[], mark: string): readonly string[] => (slips === undefined ? fields : [mark, ...fields]);
  const records = [marked(heads, SLIPS_HEAD), ...lines.map((line) => marked(line, slips ?? ''))];
  return records.map((record) => `${writeRecord(record, ',')}\r\n`).join('');
}

function figure(value: number): string {
  return Number.isFinite(value) ? String(Number(value.toPrecision(FIGURES))) : '';
}
