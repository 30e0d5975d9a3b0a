import { cellsOf, trialText } from '../sheet/index.ts';
import type { ChoiceCell, ChoiceOption, GivenCell, SheetDocument, StepCell } from '../sheet/types.ts';
import { symbolsOf } from './formulas.ts';

/** What a choice sets at present: the chosen option, or the one that stands in for it as long as blanks that it needs are empty. */
export interface OptionInForce {
  readonly option: ChoiceOption;
  /** The empty blanks that the chosen option needs, where another stands in for it. */
  readonly waitsFor: readonly string[];
}

/** undefined where nothing is chosen, or no option of that key is there. */
export function optionInForce(choice: ChoiceCell, document: SheetDocument): OptionInForce | undefined {
  const chosen = optionCalled(choice, choice.chosen);
  if (chosen?.needs === undefined || chosen.meanwhile === undefined) return chosen && { option: chosen, waitsFor: [] };
  const meanwhile = optionCalled(choice, chosen.meanwhile);
  const waitsFor = emptyBlanks(chosen.needs, document);
  return meanwhile === undefined || waitsFor.length === 0 ? { option: chosen, waitsFor: [] } : { option: meanwhile, waitsFor };
}

function optionCalled({ options }: ChoiceCell, wanted: string): ChoiceOption | undefined {
  return options.find(({ key }) => key === wanted);
}

/** The blanks behind some symbols that are empty and that no choice fills; a step stands for what its formula reads. */
function emptyBlanks(symbols: readonly string[], document: SheetDocument): readonly string[] {
  const givens = new Map(cellsOf(document, 'given').map((given) => [given.symbol, given]));
  const steps = new Map(cellsOf(document, 'step').map((step) => [step.symbol, step]));
  const choices = cellsOf(document, 'choice').map((choice) => optionCalled(choice, choice.chosen)?.sets);
  const set = (symbol: string): string | undefined => choices.find((sets) => sets?.has(symbol) === true)?.get(symbol);
  const empty = new Set<string>();
  const met = new Set<string>();
  const look = (symbol: string): void => {
    if (met.has(symbol)) return;
    met.add(symbol);
    const [given, step] = [givens.get(symbol), steps.get(symbol)];
    if (given !== undefined && isEmptyGiven(given) && set(symbol) === undefined) empty.add(symbol);
    if (step !== undefined) symbolsOf(formulaOf(step, set)).forEach(look);
  };
  symbols.forEach(look);
  return [...empty];
}

/** A blank with nothing in it, not even a trial value. */
export function isEmptyGiven(given: GivenCell): boolean {
  return (given.readings ?? given.value ?? '').trim() === '' && trialText(given) === undefined;
}

function formulaOf({ symbol, formula }: StepCell, set: (symbol: string) => string | undefined): string {
  return formula ?? set(symbol) ?? '';
}
