import { rememberedTexts } from '../../src/core/remembered/index.ts';
import { createSheetGraph } from '../../src/graph/index.ts';
import { unitSystemOf, type WholeContext } from '../../src/report/index.ts';
import type { UnitSystem } from '../../src/core/units/index.ts';
import { parseSheet, type Cell, type SheetDocument } from '../../src/sheet/index.ts';

const evaluatedTexts = rememberedTexts(60, (text) => contextOfDocument(parseSheet(text)));

/** A document's text evaluated, ready to be presented: never changed, and so once for all the tests that ask for it. */
export async function contextOf(text: string, system?: UnitSystem): Promise<WholeContext> {
  const context = await evaluatedTexts(text);
  return system === undefined || system === context.system ? context : { ...context, system };
}

/** The same of a document; in its own system of units where no other is asked for. */
export async function contextOfDocument(document: SheetDocument, system: UnitSystem = unitSystemOf(document)): Promise<WholeContext> {
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  graph.dispose();
  return { document, states, system };
}

/** The cell of that id and kind; throws where the test's own document lacks it. */
export function cellOf<K extends Cell['kind']>(context: WholeContext, kind: K, id: string): Extract<Cell, { kind: K }> {
  for (const block of context.document.blocks) {
    if (block.kind === 'cell' && block.id === id && block.cell.kind === kind) return block.cell as Extract<Cell, { kind: K }>;
  }
  throw new Error(`no ${kind} ${id} in the test's document`);
}

/** One fenced cell from its kind and the lines of its body. */
export function fenced(kind: string, ...body: readonly string[]): string {
  return ['```' + kind, ...body, '```', ''].join('\n');
}

export function given(symbol: string, value: string, unit: string, ...more: readonly string[]): string {
  return fenced('given', `symbol: ${symbol}`, `value: "${value}"`, `unit: "${unit}"`, 'possible: any', ...more);
}

export function step(symbol: string, formula: string, unit: string, ...more: readonly string[]): string {
  return fenced('step', `symbol: ${symbol}`, `formula: "${formula}"`, `unit: "${unit}"`, ...more);
}
