import { createSheetGraph, type SheetStates } from '../../../src/graph/index.ts';
import { enterText, parseSheet, type GivenCell, type SheetDocument } from '../../../src/sheet/index.ts';
import { shipped } from '../../shipped.ts';

export interface Evaluated {
  readonly document: SheetDocument;
  readonly states: SheetStates;
}

/** A document evaluated by a graph of its own, after values were entered as the headless command enters them. */
export async function evaluated(document: SheetDocument, entered: Readonly<Record<string, string>> = {}): Promise<Evaluated> {
  let edited = document;
  for (const [target, text] of Object.entries(entered)) {
    const next = enterText(edited, target, text);
    if (!next.ok) throw new Error(next.problem.what);
    edited = next.value;
  }
  const graph = createSheetGraph(edited);
  const states = await graph.settled();
  graph.dispose();
  return { document: edited, states };
}

export function worksheet(name: string): SheetDocument {
  return parseSheet(shipped(name));
}

export function givenNamed(document: SheetDocument, symbol: string): GivenCell {
  for (const block of document.blocks) if (block.kind === 'cell' && block.cell.kind === 'given' && block.cell.symbol === symbol) return block.cell;
  throw new Error(`no given ${symbol}`);
}

/** SI; NaN where it has none. */
export function valueOf(states: Pick<SheetStates, 'symbol'>, symbol: string): number {
  const state = states.symbol(symbol);
  return state?.status === 'value' ? state.estimate.value : Number.NaN;
}
