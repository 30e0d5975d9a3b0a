import { describe, expect, it } from 'vitest';
import { createSheetGraph } from '../../src/graph/index.ts';
import { presentSymbol } from '../../src/report/index.ts';
import { enterText, parseSheet, serialiseSheet } from '../../src/sheet/index.ts';

const TEXT = `---
title: After the test
---
\`\`\`given
symbol: N_obs
label: Cycles at fracture
unit: cycles
optional: true
\`\`\`

\`\`\`step
symbol: x
formula: 2*N_obs
unit: cycles
\`\`\`

\`\`\`check
id: long
condition: x > 10
holds: It lasted.
otherwise: It did not.
\`\`\`
`;

async function settled(entered?: string) {
  let document = parseSheet(TEXT);
  if (entered !== undefined) {
    const result = enterText(document, 'N_obs', entered);
    if (!result.ok) throw new Error(result.problem.what);
    document = result.value;
  }
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  graph.dispose();
  return { document, states, system: 'SI' as const };
}

describe('an optional given', () => {
  it('may stay empty: nothing is in error, and what reads it says what it waits for', async () => {
    const context = await settled();
    const { document, states } = context;
    expect(document.blocks.flatMap(({ id }) => states.cell(id)?.problems ?? [])).toEqual([]);
    expect(states.symbol('N_obs')).toMatchObject({ status: 'range', word: 'open', waitsFor: ['N_obs'] });
    expect(states.symbol('x')).toMatchObject({ status: 'range', word: 'open', waitsFor: ['N_obs'] });
    expect(presentSymbol('x', context)).toMatchObject({ kind: 'range', text: 'waits for N_obs' });
    expect(states.cell('long')?.check).toEqual({ holds: undefined, message: 'Waits for N_obs.' });
  });

  it('counts like any other once it is filled in, and troubles like any other where it is wrong', async () => {
    const { states } = await settled('6');
    expect(states.symbol('x')).toMatchObject({ status: 'value', estimate: { value: 12 } });
    expect(states.cell('long')?.check?.holds).toBe(true);
    expect((await settled('6 mm')).states.symbol('x')).toMatchObject({ status: 'problem' });
    expect((await settled('-6')).states.symbol('N_obs')).toMatchObject({ status: 'problem', problem: { code: 'not-possible' } });
  });

  it('is told where its key is neither true nor false, and its text is kept', () => {
    const text = TEXT.replace('optional: true', 'optional: perhaps');
    const document = parseSheet(text);
    expect(serialiseSheet(document)).toBe(text);
    const block = document.blocks.find((one) => one.id === 'N_obs');
    expect(block?.kind === 'cell' ? block.cell.problems.map(({ code }) => code) : []).toEqual(['not-true-or-false']);
  });
});
