/** What an edit costs, counted and not timed: only what hangs on the edit is worked out and drawn again, however large the rest of the sheet is. */
import { describe, expect, test } from 'vitest';
import { createSheetGraph, type CompiledSheet } from '../../src/graph/index.ts';
import { createHistory, parseSheet, type Block } from '../../src/sheet/index.ts';
import { drawBlock } from '../../src/view/cell.ts';
import { observeDesk, type ObservedDesk } from '../../src/view/observed-desk.ts';
import { besideSheet, fedSheet, unrelatedSteps } from '../bench/fed-sheets.ts';
import { benchDesk } from '../bench-desk.ts';
import { shipped } from '../shipped.ts';

interface Counted {
  /** Nodes that were compiled anew. */
  readonly made: readonly string[];
  readonly evaluated: readonly string[];
  /** Blocks with a question that has another answer. */
  readonly drawn: readonly string[];
}

/** The cells that read one, themselves or through others, and that one. */
function readersOf(cellId: string, { nodes }: CompiledSheet): ReadonlySet<string> {
  const found = new Set([cellId]);
  for (let size = 0; size < found.size;) {
    size = found.size;
    for (const node of nodes) if (node.inputs.some((input) => found.has(input.cellId))) found.add(node.cellId);
  }
  return found;
}

async function countWork(text: string, cellId: string): Promise<Counted & { readonly readers: ReadonlySet<string> }> {
  const key = text.includes(`symbol: ${cellId}\nlabel: Length`) ? 'value' : 'readings';
  const history = createHistory(parseSheet(text));
  const graph = createSheetGraph(history.document);
  await graph.settled();
  const before = graph.compiled();
  const counts = new Map(before.nodes.map((node) => [node.cellId, graph.evaluations(node.cellId)]));
  const done = history.apply({ do: 'set key', cellId, key, value: '7.9 mm' });
  if (!done.ok) throw new Error(done.problem.what);
  graph.update(history.document);
  await graph.settled();
  const after = graph.compiled();
  const made = after.nodes.filter((node, i) => node !== before.nodes[i]).map((node) => node.cellId);
  const evaluated = after.nodes.flatMap((node) => (graph.evaluations(node.cellId) > (counts.get(node.cellId) ?? 0) ? [node.cellId] : []));
  const readers = readersOf(cellId, after);
  graph.dispose();

  const sheet = await benchDesk(text);
  const asked = new Map<string, { readonly block: Block; readonly asked: ObservedDesk }>(sheet.blocks().map((block) => {
    const observed = observeDesk(sheet.desk);
    drawBlock(block, observed.desk);
    return [block.id, { block, asked: observed }];
  }));
  await sheet.edit({ do: 'set key', cellId, key, value: '7.9 mm' });
  const drawn = sheet.blocks().flatMap((block) => {
    const known = asked.get(block.id);
    return known?.block === block && known.asked.isStillTrue() ? [] : [block.id];
  });
  sheet.dispose();
  return { made, evaluated, drawn, readers };
}

const FED = ['x', ...Array.from({ length: 10 }, (_, i) => `y_${i}`)];

describe('an edit of a given', () => {
  test.each([0, 40, 400])('works out and draws the steps that hang on it, beside %d that do not', async (unrelated) => {
    const { made, evaluated, drawn } = await countWork(besideSheet(unrelated), 'x');
    expect({ made, evaluated, drawn }).toEqual({ made: ['x'], evaluated: FED, drawn: FED });
  });

  test('reaches all steps of a chain, each once', async () => {
    const { made, evaluated, drawn } = await countWork(fedSheet(200), 'x');
    expect(made).toEqual(['x']);
    expect(evaluated).toHaveLength(201);
    expect(drawn).toHaveLength(201);
  });

  test('costs the example as much alone as with three hundred steps more', async () => {
    const example = shipped('rotating-bending');
    const alone = await countWork(example, 'd');
    const beside = await countWork(`${example}\n${unrelatedSteps(300)}`, 'd');
    expect(alone.made).toEqual(['d']);
    expect(alone.evaluated.filter((id) => !alone.readers.has(id))).toEqual([]);
    expect({ made: beside.made, evaluated: beside.evaluated, drawn: beside.drawn }).toEqual({ made: alone.made, evaluated: alone.evaluated, drawn: alone.drawn });
    // The stress and all that follows it are a part of the sheet only.
    expect(alone.drawn.length).toBeLessThan(parseSheet(example).blocks.length / 3);
  });
});
