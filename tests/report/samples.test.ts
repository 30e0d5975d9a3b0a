import { describe, expect, it } from 'vitest';
import { createSheetGraph, samplingRequest, startSampling, type SampledResult } from '../../src/graph/index.ts';
import { presentSamples, renderSheet, unitSystemOf, type PresentContext } from '../../src/report/index.ts';
import { parseSheet } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';

async function sampledLife(change: (text: string) => string = (text) => text): Promise<{ readonly context: PresentContext; readonly sampled: SampledResult }> {
  const document = parseSheet(change(shipped('rotating-bending')));
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  const sampling = startSampling(samplingRequest(graph.compiled(), states, 'N_f', { seed: 5, digits: 2, count: 20_000 }));
  graph.dispose();
  while (sampling.advance());
  return { context: { document, states, system: unitSystemOf(document) }, sampled: sampling.result() };
}

describe('draws in the report', () => {
  it('stand below their result with picture, numbers and verdict; others have none', async () => {
    const { context, sampled } = await sampledLife();
    const report = renderSheet(context, new Map([['N_f', sampled]]));
    expect(report.match(/class="draws"/g)).toHaveLength(1);
    const life = /<section class="[^"]*" id="cell-N_f">[\s\S]*?<\/section>/.exec(report)?.[0] ?? '';
    expect(life).toMatch(/first-order interval/);
    expect(life).toMatch(/20\u202f000 draws, seed 5\. So many were asked for\./);
    expect(life.match(/<svg/g)).toHaveLength(2);
    expect(renderSheet(context)).not.toContain('class="draws"');
  });

  it('say nothing of a result that is still asked of the reader', async () => {
    const { context, sampled } = await sampledLife((text) => text.replace(/own_working: false/, 'own_working: true'));
    expect(context.document.frontMatter.entries.get('own_working')).toBe('true');
    expect(renderSheet(context, new Map([['N_f', sampled]]))).not.toContain('class="draws"');
  });
});

describe('draws at the edge of what a number can hold', () => {
  it('have an interval and no mean, where their sum runs over', async () => {
    const text = ['```given', 'symbol: x', 'value: "295 ± 3.3"', 'unit: "1"', '```', '', '```step', 'symbol: N', 'formula: 10^x', 'unit: "1"', '```', ''].join('\n');
    const document = parseSheet(text);
    const graph = createSheetGraph(document);
    const states = await graph.settled();
    const sampling = startSampling(samplingRequest(graph.compiled(), states, 'N', { seed: 5, digits: 2, count: 50_000 }));
    graph.dispose();
    while (sampling.advance());
    const state = states.symbol('N');
    const presented = state === undefined ? undefined : presentSamples(sampling.result(), state, { document, states, system: unitSystemOf(document) });
    expect(presented?.rows[0]?.sampled).toBe('none');
    // 10^(295 ± 1.96·3.3): 3.4·10²⁸⁸ to 29·10³⁰⁰, by the quantiles of x; 50 000 samples tell the ends to some tenth.

    expect(presented?.rows[2]?.sampled).toMatch(/^0\.0·10³⁰⁰ to (?:2[4-9]|3[0-5])\.\d·10³⁰⁰$/u);
    expect(presented?.verdict.holds).not.toBe(true);
  });
});
