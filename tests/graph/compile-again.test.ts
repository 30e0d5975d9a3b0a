import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileSheet } from '../../src/graph/compile.ts';
import { reckon } from '../../src/graph/reckon.ts';
import { slipsOn } from '../../src/graph/slips/slips-on.ts';
import type { CompiledSheet } from '../../src/graph/compiled-types.ts';
import { applyEdit, cellsOf, parseSheet, type EditCommand, type SheetDocument } from '../../src/sheet/index.ts';
import { OF_EVERYTHING } from '../sheet-of-everything.ts';
import { shipped, shortSheet } from '../shipped.ts';
import { fedSheet } from '../bench/fed-sheets.ts';

const cell = (kind: string, body: string): string => `\`\`\`${kind}\n${body}\n\`\`\`\n`;

/** Givens that hang together, a choice that waits for a blank, a slip, a step that reads them. */
const TIED = cell('given', 'symbol: a\nunit: mm\nreadings: 1, 2, 3 mm\ntogether: pair') + cell('given', 'symbol: b\nunit: mm\nreadings: 2, 3, 4 mm\ntogether: pair')
  + cell('given', 'symbol: c\nunit: mm\nvalue: 5 mm\ncorrelated:\n  g: 0.5') + cell('given', 'symbol: g\nunit: mm\nvalue: 7 ± 1 mm') + cell('given', 'symbol: e\nunit: mm\nvalue: ""\npossible: ">= 0"')
  + cell('choice', 'id: how\nlabel: How\nchosen: exact\noptions:\n  - key: exact\n    label: Exact\n    needs: e\n    meanwhile: plain\n    sets:\n      s: a*e\n  - key: plain\n    label: Plain\n    sets:\n      s: a*b')
  + cell('step', 'symbol: s\nby: how') + cell('step', 'symbol: t\nformula: s + a*g') + cell('check', 'condition: t > 0*unit(mm^2)\nholds: fine {=t}\notherwise: no');

/** The document compiled anew, whatever was compiled before. */
function anew(document: SheetDocument): CompiledSheet {
  return compileSheet(document, slipsOn(document).on);
}

function seen({ nodes, order, definers }: CompiledSheet): unknown {
  return { nodes: nodes.map(({ cellId, symbols, inputs, signature }) => ({ cellId, symbols, inputs, signature })), order, definers };
}

/** All values of a sheet, written out. */
function statesIn(compiled: CompiledSheet): string {
  const states = reckon(compiled, []);
  return JSON.stringify(compiled.nodes.map(({ cellId }) => states.cell(cellId)), (_key, value: unknown) => (value instanceof Map ? [...value] : value));
}

const texts = fc.constantFrom('', '7 mm', '7.5, 7.6 mm', '3 kN', 'what', '-1', '1e3', '12 ± 1 mm', '0', '7.1, 7.2, 7.3 mm', 'a*2', 'pair');
const keys = fc.constantFrom('value', 'readings', 'trial', 'unit', 'label', 'note', 'together', 'correlated', 'formula', 'answer', 'plausible', 'slips', 'symbol', 'instrument');

function edited(document: SheetDocument, command: EditCommand): SheetDocument {
  const done = applyEdit(document, command);
  return done.ok ? done.value : document;
}

describe('a document compiled after an edit', () => {
  it.each([['tied', TIED], ['of everything', OF_EVERYTHING], ['short', shortSheet()]])('is what it is compiled anew (%s)', (_name, text) => {
    const first = parseSheet(text);
    const cells = [...cellsOf(first, 'given'), ...cellsOf(first, 'step')];
    const edit = fc.record({ at: fc.nat(cells.length - 1), key: keys, value: texts });
    fc.assert(fc.property(fc.array(edit, { minLength: 1, maxLength: 6 }), (edits) => {
      let document = first;
      compileSheet(document);
      for (const { at, key, value } of edits) {
        document = edited(document, { do: 'set key', cellId: cells[at]?.id ?? '', key, value: value === '' && key !== 'value' ? undefined : value });
        const again = compileSheet(document);
        expect(seen(again)).toEqual(seen(anew(document)));
        expect(statesIn(again)).toBe(statesIn(anew(document)));
      }
    }), { numRuns: text === TIED ? 60 : 15 });
  });

  it.each([['a chain', fedSheet(300), 'x'], ['the example', shipped('rotating-bending'), 'd']])('makes one node anew for another number, however many there are (%s)', (_name, text, cellId) => {
    const before = parseSheet(text);
    const after = edited(before, { do: 'set key', cellId, key: 'readings', value: '11.5, 11.6 mm' });
    expect(after).not.toBe(before);
    const [first, second] = [compileSheet(before), compileSheet(after)];
    expect(second.nodes.filter((node, i) => node !== first.nodes[i]).map((node) => node.cellId)).toEqual([cellId]);
  });

  it('sees that an option comes into force with the blank that it needs', () => {
    const before = parseSheet(TIED);
    compileSheet(before);
    const after = edited(before, { do: 'set key', cellId: 'e', key: 'value', value: '2 mm' });
    expect(seen(compileSheet(after))).toEqual(seen(anew(after)));
    expect(compileSheet(after).nodes.find(({ cellId }) => cellId === 's')?.inputs.map((input) => input.cellId)).toEqual(['a', 'e']);
  });
});
