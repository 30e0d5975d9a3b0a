/** Names that are offered in a cell's own text: what the language has at that place, and what the sheet has by name. */
import { describe, expect, it } from 'vitest';
import { offersAt, type SheetNames } from '../../src/view/completing/offers.ts';

const NAMES: SheetNames = {
  symbols: [{ text: 'sigma_a', detail: 'Stress amplitude' }, { text: 's_1', detail: 'Left support to left load' }, { text: 'd', detail: 'Diameter' }, { text: 'S_ut', detail: 'Tensile strength' }],
  instruments: [{ text: 'steel rule', detail: '' }, { text: 'micrometer', detail: '' }],
  units: [{ text: 'mm', detail: '' }, { text: 'MPa', detail: '' }],
  ids: (kind) => [{ text: `a-${kind}`, detail: '' }],
};

/** `|` marks the caret. */
const offered = (kind: string, text: string, atOnce = false): readonly string[] => offersAt(text.replace('|', ''), text.indexOf('|'), kind, NAMES, atOnce)?.list.map((offer) => offer.text) ?? [];

describe('names that are offered', () => {
  it.each([
    ['keys that are not there yet', 'given', 'symbol: d\nin|', ['instrument: ', 'inexactness: ']],
    ['keys of an option', 'choice', 'options:\n  - key: a\n    so|', ['source: ']],
    ['keys of a column behind its dash', 'table', 'columns:\n  - k|', ['key: ']],
    ['keys of a slip', 'step', 'slips:\n  radius:\n    fo|', ['formula: ']],
    ['what can be asked, by what is found', 'fit', 'finds: staircase\nasks:\n  sma|', ['smallest_step: ']],
    ['parts of the drawing', 'figure', 'drawing: free-body\nvalues:\n  sp|', ['span: ']],
    ['symbols and functions in a formula', 'step', 'formula: 2*s|', ['sigma_a', 's_1', 'S_ut', 'sqrt(', 'student(', 'student_quantile(', 'student_density(', 'sin(']],
    ['symbols by what they are called', 'step', 'formula: tens|', ['S_ut']],
    ['symbols that a choice sets', 'choice', 'options:\n  - key: a\n    sets:\n      S_|', ['S_ut', 's_1']],
    ['and the formulas it sets', 'choice', 'options:\n  - key: a\n    sets:\n      x: sig|', ['sigma_a']],
    ['units in a formula', 'check', 'condition: d < 5*unit(m|', ['mm', 'MPa']],
    ['units of the line', 'given', 'unit: m|', ['mm', 'MPa']],
    ['instruments', 'given', 'instrument: ste|', ['steel rule']],
    ['words that a key takes', 'record', 'outcome: fr|', ['fracture']],
    ['ids of cells', 'fit', 'table: a|', ['a-table']],
    ['symbols in the text of a note', 'step', 'note: it is {=sig|', ['sigma_a']],
    ['symbols that are concerned, one behind the other', 'check', 'concerns: d, si|', ['sigma_a']],
  ])('%s', (_what, kind, text, names) => {
    expect(offered(kind, text)).toEqual(names);
  });

  it.each([
    ['words of a label', 'given', 'label: the si|'],
    ['the symbol that a cell has', 'given', 'symbol: sig|'],
    ['what is typed in full', 'step', 'formula: sigma_a|'],
    ['a number', 'step', 'formula: 3|'],
    ['nothing typed yet', 'step', 'formula: 2*|'],
    ['a kind that is unknown', 'wiring', 'fo|'],
  ])('none for %s', (_what, kind, text) => {
    expect(offered(kind, text)).toEqual([]);
  });

  it('all of them where they are asked for', () => {
    expect(offered('step', 'symbol: x\n|', true).slice(0, 3)).toEqual(['id: ', 'label: ', 'formula: ']);
    expect(offered('check', 'condition: |', true).slice(0, 2)).toEqual(['sigma_a', 's_1']);
  });

  it('say what part of the text they take the place of', () => {
    expect(offersAt('formula: 2*sig + d', 14, 'step', NAMES)).toMatchObject({ start: 11, end: 14 });
  });
});
