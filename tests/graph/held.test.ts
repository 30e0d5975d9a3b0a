/** A held state's results are those of the sheet with the held texts put in one by one, whatever happens to the sheet meanwhile. */
import { describe, expect, test } from 'vitest';
import { createSheetGraph, heldSheet, type SheetGraph } from '../../src/graph/index.ts';
import { applyEdit, enterText, inputsOf, parseSheet, type EditCommand, type HeldState, type SheetDocument } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';

const ROTATING = shipped('rotating-bending');

function entered(document: SheetDocument, texts: Readonly<Record<string, string>>): SheetDocument {
  return Object.entries(texts).reduce((before, [target, text]) => {
    const result = enterText(before, target, text);
    if (!result.ok) throw new Error(result.problem.what);
    return result.value;
  }, document);
}

function edited(document: SheetDocument, command: EditCommand): SheetDocument {
  const result = applyEdit(document, command);
  if (!result.ok) throw new Error(result.problem.what);
  return result.value;
}

function heldIn(document: SheetDocument): HeldState {
  const [held] = document.frontMatter.held;
  if (held === undefined) throw new Error('nothing is held');
  return held;
}

/** Every value of a document, by a graph of its own. */
async function valuesOf(document: SheetDocument): Promise<Record<string, unknown>> {
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  graph.dispose();
  return Object.fromEntries(states.symbols.map((symbol) => [symbol, told(states.symbol(symbol))]));
}

function told(state: ReturnType<ReturnType<SheetGraph['states']>['symbol']>): unknown {
  return state?.status === 'value' ? state.estimate.value : state?.status === 'range' ? state.word : state?.problem.code;
}

describe('a held state of the rotating-bending sheet', () => {
  test('is worked out as the sheet is with --set, after edits of blanks, formulas and choices too', async () => {
    const start = edited(entered(parseSheet(ROTATING), { d: '6.90 mm' }), {
      do: 'hold', state: { name: 'thin', inputs: new Map([...inputsOf(parseSheet(ROTATING)), ['d', '6.90 mm'], ['spans', 'adjusted']]) },
    });
    const edits: readonly ((document: SheetDocument) => SheetDocument)[] = [
      (document) => document,
      (document) => entered(document, { d: '7.2 mm' }),
      (document) => entered(document, { F: '250 N', load: 'weights' }),
      (document) => edited(document, { do: 'set key', cellId: 'sigma_a', key: 'formula', value: '2*M_s*c/I' }),
      (document) => edited(document, { do: 'delete', blockId: 'n' }),
    ];
    const graph = createSheetGraph(start);
    let document = start;
    for (const edit of edits) {
      document = edit(document);
      graph.update(document);
      const states = await graph.settled();
      const held = heldIn(document);
      const sheet = heldSheet(document, states, held);
      const known = Object.fromEntries([...held.inputs].filter(([target]) => document.blocks.some((block) => block.id === target)));
      expect(Object.fromEntries(sheet.states.symbols.map((symbol) => [symbol, told(sheet.states.symbol(symbol))]))).toEqual(await valuesOf(entered(document, known)));
      expect(sheet.problems.map(({ code }) => code)).toEqual(sheet.document.blocks.some(({ id }) => id === 'n') ? [] : ['enter-unknown']);
    }
    graph.dispose();
  });

  test('an edit of a blank that is held moves no result of it, and what is not held moves what reads it', async () => {
    const start = edited(parseSheet(ROTATING), { do: 'hold', state: { name: 'a', inputs: new Map([['d', '6.90 mm']]) } });
    const graph = createSheetGraph(start);
    const first = heldSheet(start, await graph.settled(), heldIn(start));
    const thicker = entered(start, { d: '9 mm' });
    graph.update(thicker);
    const second = heldSheet(thicker, await graph.settled(), heldIn(thicker));
    for (const symbol of first.states.symbols) expect(second.states.symbol(symbol), symbol).toBe(first.states.symbol(symbol));
    const heavier = entered(thicker, { F: '400 N' });
    graph.update(heavier);
    const third = heldSheet(heavier, await graph.settled(), heldIn(heavier));
    expect(third.states.symbol('sigma_a')).not.toBe(first.states.symbol('sigma_a'));
    expect(third.states.symbol('I')).toBe(first.states.symbol('I'));
    graph.dispose();
  });
});
