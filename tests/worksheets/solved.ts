import { standardUncertainty } from '../../src/core/estimate/index.ts';
import { createSheetGraph, type SheetStates } from '../../src/graph/index.ts';
import { enterText, parseSheet, type SheetDocument } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';

export const sheetText = shipped('rotating-bending');

/** A sheet with texts entered in its blanks and choices. */
export function withTexts(text: string, settings: Readonly<Record<string, string>>): SheetDocument {
  let document = parseSheet(text);
  for (const [target, value] of Object.entries(settings)) {
    const entered = enterText(document, target, value);
    if (!entered.ok) throw new Error(entered.problem.what);
    document = entered.value;
  }
  return document;
}

/** A sheet, the rotating-bending one unless said, with texts entered in its blanks and choices, settled. */
export async function solved(settings: Readonly<Record<string, string>>, text = sheetText): Promise<SheetStates> {
  const graph = createSheetGraph(withTexts(text, settings));
  const states = await graph.settled();
  graph.dispose();
  return states;
}

export function numberOf(states: SheetStates, symbol: string): number {
  const state = states.symbol(symbol);
  if (state?.status !== 'value') throw new Error(`${symbol} has no value: ${JSON.stringify(state)}`);
  return state.estimate.value;
}

export function uncertaintyOf(states: SheetStates, symbol: string): number {
  const state = states.symbol(symbol);
  return state?.status === 'value' ? standardUncertainty(state.estimate) : Number.NaN;
}

/** Whether a check holds; undefined where that can't be told. */
export function holds(states: SheetStates, id: string): boolean | undefined {
  const check = states.cell(id)?.check;
  if (check === undefined) throw new Error(`no check ${id}`);
  return check.holds;
}
