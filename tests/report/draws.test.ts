import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { createSheetGraph, drawRequest, startDrawing, type DrawnResult } from '../../src/graph/index.ts';
import { renderReport, unitSystemOf, type PresentContext } from '../../src/report/index.ts';
import { parseSheet } from '../../src/sheet/index.ts';

async function drawnLife(change: (text: string) => string = (text) => text): Promise<{ readonly context: PresentContext; readonly drawn: DrawnResult }> {
  const document = parseSheet(change(readFileSync('worksheets/rotating-bending.md', 'utf8')));
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  const drawing = startDrawing(drawRequest(graph.plan(), states, 'N_f', { seed: 5, digits: 2, count: 20_000 }));
  graph.dispose();
  while (drawing.advance());
  return { context: { document, states, system: unitSystemOf(document) }, drawn: drawing.result() };
}

describe('draws in the report', () => {
  it('stand below their result with picture, numbers and verdict; others have none', async () => {
    const { context, drawn } = await drawnLife();
    const report = renderReport(context, new Map([['N_f', drawn]]));
    expect(report.match(/class="draws"/g)).toHaveLength(1);
    const life = /<section class="[^"]*" id="cell-N_f">[\s\S]*?<\/section>/.exec(report)?.[0] ?? '';
    expect(life).toMatch(/first-order interval/);
    expect(life).toMatch(/20\u202f000 draws, seed 5\. So many were asked for\./);
    expect(life.match(/<svg/g)).toHaveLength(2);
    expect(renderReport(context)).not.toContain('class="draws"');
  });

  it('say nothing of a result that is still asked of the reader', async () => {
    const { context, drawn } = await drawnLife((text) => text.replace(/own_working: false/, 'own_working: true'));
    expect(context.document.frontMatter.entries.get('own_working')).toBe('true');
    expect(renderReport(context, new Map([['N_f', drawn]]))).not.toContain('class="draws"');
  });
});
