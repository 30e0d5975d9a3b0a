import '../figures/at-once/index.ts';
import './typesetter-at-once.ts';
import { createSheetGraph } from '../graph/index.ts';
import { parseSheet } from '../sheet/index.ts';
import { embedDocument } from './embedded.ts';
import { LIFELESS } from './page.ts';
import { presentTitleBlock, unitSystemOf } from './present/title-block.ts';
import { renderToLive } from './render.ts';

/** A sheet as HTML, its text as every file that leaves the page embeds it, and its title as plain text. */
interface Prerendered {
  readonly bodyHtml: string;
  readonly template: string;
  readonly title: string;
  /** What comes to light where the page's script does not take it away. */
  readonly lifeless: string;
}

/** The start sheet as the shipped page holds it before its script has started; called by the build, in Node. */
export async function prerender(documentText: string): Promise<Prerendered> {
  const document = parseSheet(documentText);
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  const bodyHtml = renderToLive({ document, states, system: unitSystemOf(document) });
  graph.dispose();
  return {
    bodyHtml,
    template: embedDocument(documentText),
    title: presentTitleBlock(document).title,
    lifeless: LIFELESS,
  };
}
