import { budget, roundByUncertainty } from '../../core/estimate/index.ts';
import { counterpart, fromSI, intervalFromSI, ONE } from '../../core/units/index.ts';
import type { SymbolState } from '../../graph/types.ts';
import { figures, decimalText, withUnit, unitText } from './number.ts';
import { symbolOf } from './symbol.ts';
import type { PresentContext, PresentedBudgetRow } from './types.ts';

/**
 * Where the uncertainty of a result comes from, the largest share first (JCGM 100:2008, 4.3 and 5.1); empty for a
 * result without value or without uncertainty. Inputs that are symbols of the sheet are shown in the unit they were typed in.
 */
export function presentBudget(state: SymbolState, context: PresentContext): readonly PresentedBudgetRow[] {
  if (state.status !== 'value') return [];
  const unit = counterpart(state.unit, context.system);
  const lines = budget(state.estimate);
  const isCorrelated = lines.some(({ covarianceShare }) => covarianceShare !== 0);
  return lines.map((line) => {
    const inputUnit = context.states.symbol(line.input.id)?.unit ?? ONE;
    const inputName = unitText(inputUnit);
    const resultName = unitText(unit);
    const u = intervalFromSI(line.standardUncertainty, inputUnit);
    const rounded = roundByUncertainty(fromSI(line.input.value, inputUnit), u);
    const sensitivity = (line.derivative * inputUnit.factor) / unit.factor;
    return {
      input: line.input.id,
      inputTex: symbolOf(line.input.id),
      value: withUnit(decimalText(rounded.number, rounded.exponent), inputName),
      uncertainty: withUnit(figures(u, 2), inputName),
      sensitivity: withUnit(figures(sensitivity, 3), perUnit(resultName, inputName)),
      contribution: withUnit(figures(intervalFromSI(Math.abs(line.contribution), unit), 2), resultName),
      share: percent(line.share),
      ...(isCorrelated ? { covarianceShare: percent(line.covarianceShare) } : {}),
      parts: { own: line.share, shared: line.covarianceShare },
    };
  });
}

/** To the whole percent above a hundred, where a covariance takes from the variance what is too much. */
function percent(fraction: number): string {
  return `${figures(100 * fraction, Math.abs(fraction) < 1 ? 2 : 3)} %`;
}

/** `MPa/mm`; a compound unit below the line is put in brackets. */
function perUnit(result: string, input: string): string {
  if (input === '') return result;
  return `${result === '' ? '1' : result}/${/[·/*]/.test(input) ? `(${input})` : input}`;
}
