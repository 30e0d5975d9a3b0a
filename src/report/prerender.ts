import documentText from '../../worksheets/rotating-bending.md?raw';
import { createSheetGraph } from '../graph/index.ts';
import { parseSheet } from '../sheet/index.ts';
import { plainEquations } from './plain-equations.ts';
import { presentTitleBlock, unitSystemOf } from './present/title-block.ts';
import { renderReport } from './render.ts';

interface Prerendered {
  readonly bodyHtml: string;
  readonly documentText: string;
  readonly title: string;
}

/** The start sheet as the shipped page holds it before its script has started; called by the build, in Node. */
export async function prerender(): Promise<Prerendered> {
  const document = parseSheet(documentText);
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  const bodyHtml = plainEquations(renderReport({ document, states, system: unitSystemOf(document) }));
  graph.dispose();
  return {
    bodyHtml,
    documentText,
    title: presentTitleBlock(document).title,
  };
}
