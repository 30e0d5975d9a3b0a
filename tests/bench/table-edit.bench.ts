/**
 * A table of specimens in Node, without the page: opened, one field of it edited (document, graph, fit, the rows on view and
 * their counts, and the text that is kept), and what a hundred edits hold in memory. Rows are invented. Times are the
 * processor's, so that other work on the machine counts little.
 */
import { createSheetGraph } from '../../src/graph/index.ts';
import { createRandom } from '../../src/core/numeric/index.ts';
import { presentTable, unitSystemOf, type PresentContext } from '../../src/report/index.ts';
import { createHistory, parseSheet, serialiseSheet, type SheetDocument, type TableCell } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';
import { measure, printTable, type Row } from './harness.ts';

const STRESSES = [300, 340, 380, 420, 460];
const END_OF_TEST = 1e7;
/** Rows that the page has in view at once. */
const ON_VIEW = 100;

function sheetOf(rows: number): string {
  const random = createRandom(20261129);
  const lines = Array.from({ length: rows }, (_, row) => {
    const stress = STRESSES[row % STRESSES.length] ?? 0;
    const life = Math.round(10 ** (5 - 12 * Math.log10(stress / 420) + 0.15 * random.normal()));
    return `  K${String(row).padStart(6, '0')},steel ${row % 2 === 0 ? 'K' : 'M'},${stress},${Math.min(life, END_OF_TEST)},${life > END_OF_TEST ? 'runout' : 'fracture'}\n`;
  });
  const sheet = shipped('sn-line');
  return sheet.replace(/( {2}specimen,group,S \[MPa\],N,outcome\n)(?: {2}.*\n)*/, `$1${lines.join('')}`);
}

function tableOf(document: SheetDocument): TableCell {
  const found = document.blocks.flatMap((block) => (block.kind === 'cell' && block.cell.kind === 'table' ? [block.cell] : []))[0];
  if (found === undefined) throw new Error('no table');
  return found;
}

/** What the page says of the table: heads, counts, groups and a window of rows. */
function look(document: SheetDocument, graph: ReturnType<typeof createSheetGraph>): number {
  const context: PresentContext = { document, states: graph.states(), system: unitSystemOf(document), reveal: true };
  const table = presentTable(tableOf(document), context);
  return table.rows(0, ON_VIEW).length + table.counts.length;
}

/** Milliseconds of the processor, the collector of garbage included. */
const clock = (): number => process.cpuUsage().user / 1000;

const megabytes = (): number => {
  globalThis.gc?.();
  globalThis.gc?.();
  return process.memoryUsage().heapUsed / 1e6;
};

for (const rows of [1000, 10_000, 100_000]) {
  const text = sheetOf(rows);
  const few = rows > 50_000;
  const table: Row[] = [];
  table.push(await measure('opening: text, values, fit, rows on view', async () => {
    const begun = clock();
    const document = parseSheet(text);
    const graph = createSheetGraph(document);
    await graph.settled();
    look(document, graph);
    graph.dispose();
    return clock() - begun;
  }, { warmUp: 2, runs: few ? 5 : 10, ...(few ? { target: 2000 } : {}) }));

  const history = createHistory(parseSheet(text));
  const graph = createSheetGraph(history.document);
  await graph.settled();
  const kept: number[] = [];
  const edit = async (run: number): Promise<number> => {
    history.settle();
    const begun = clock();
    const done = history.apply({ do: 'set table cell', cellId: 'specimens', row: (run * 97) % rows, column: 'N', text: String(150_000 + run) });
    if (!done.ok) throw new Error(done.problem.what);
    graph.update(history.document);
    await graph.settled();
    look(history.document, graph);
    const taken = clock() - begun;
    const before = clock();
    serialiseSheet(history.document);
    kept.push(clock() - before);
    return taken;
  };
  table.push(await measure('an edit of one field: document, values, fit, rows on view', edit, { warmUp: 5, runs: few ? 15 : 40, target: 50 }));
  table.push({ what: 'the text that is kept after it, put together', times: kept.slice(5) });
  const before = megabytes();
  for (let run = 0; run < 100; run++) await edit(1000 + run);
  const after = megabytes();
  printTable(`${rows} rows`, table);
  console.log(`Memory: ${before.toFixed(0)} MB; after a hundred edits, each a step to undo: ${(after - before).toFixed(1)} MB more`);
  graph.dispose();
}
