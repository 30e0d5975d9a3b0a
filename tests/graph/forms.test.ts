/** What the graph knows of each kind of cell, asked of its form directly. */
import { describe, expect, it } from 'vitest';
import { coherentUnit, parseUnit, type Dimension } from '../../src/core/units/index.ts';
import { FORMS, formOf } from '../../src/graph/forms.ts';
import { createSheetGraph } from '../../src/graph/index.ts';
import { collectNames } from '../../src/graph/names.ts';
import { compileSheet } from '../../src/graph/compile.ts';
import { reckon } from '../../src/graph/reckon.ts';
import { KNOWN_KINDS, parseSheet, type Cell, type CellBlock, type HeldState } from '../../src/sheet/index.ts';
import { fenced, given, step } from '../report/sheet-at.ts';

const TABLE = fenced('table', 'id: rows', 'columns:', '  - key: S', '    type: quantity', '    unit: MPa', '  - key: N', '    type: count', '    unit: cycles',
  'symbols:', '  max S: S_most', '  count: n_rows', 'rows: |', '  S,N', '  400,1e5', '  300,1e6');
const KINDS: Readonly<Record<Cell['kind'], string>> = {
  given: given('d', '6 mm', 'mm'),
  choice: fenced('choice', 'id: how', 'chosen: a', 'options:', '  - key: a', '    label: A', '    sets:', '      d: 7 mm'),
  step: step('A', 'd^2', 'mm^2'),
  check: fenced('check', 'id: sound', 'condition: d > 1*unit(mm)', 'holds: yes', 'otherwise: no'),
  table: TABLE,
  fit: fenced('fit', 'id: line', 'table: rows', 'symbols:', '  A: A_line', '  S_low: S_low', '  N_high: N_high'),
  figure: fenced('figure', 'id: drawing', 'drawing: budget', 'of: A'),
  checklist: fenced('checklist', 'id: list', 'items:', '  - text: look'),
  photo: fenced('photo', 'id: picture', 'symbols:', '  share: share', '  area: area'),
  question: fenced('question', 'id: asked', 'label: In d', 'formula: d^2'),
  remark: fenced('remark', 'id: words', 'heading: Words', 'text: none'),
  record: fenced('record', 'id: test', 'watches:', '  life: A', 'symbols:', '  life: life_then', '  cycles: n_test', '  hours: t_test'),
  aside: fenced('aside', 'id: part', 'label: More', 'holds: "{=d}"'),
  end: fenced('end'),
  unknown: fenced('something', 'id: new'),
};
const SHEET = parseSheet(Object.values(KINDS).join('\n'));

const NAMES = collectNames(SHEET, []);

function dimensionOf(unit: string): Dimension {
  const read = parseUnit(unit);
  if (!read.ok) throw new Error(read.problem.what);
  return read.value.dimension;
}

function unitIn(dimension: Dimension | undefined): string {
  return dimension === undefined ? 'none' : coherentUnit(dimension).name;
}

function firstOf(kind: Cell['kind']): CellBlock {
  const block = SHEET.blocks.find((one): one is CellBlock => one.kind === 'cell' && one.cell.kind === kind);
  if (block === undefined) throw new Error(`no ${kind}`);
  return block;
}

describe('a form for each kind', () => {
  it('is there for every kind that a document can hold, and for what is not known', () => {
    expect(Object.keys(FORMS).toSorted()).toEqual([...KNOWN_KINDS, 'unknown'].toSorted());
  });

  it.each<[Cell['kind'], Readonly<Record<string, string>>]>([
    ['given', { d: 'm' }],
    ['choice', {}],
    ['step', { A: 'm^2' }],
    ['check', {}],
    ['table', { S_most: 'Pa', n_rows: '1' }],
    ['fit', { A_line: '1', S_low: 'Pa', N_high: '1' }],
    ['figure', {}],
    ['checklist', {}],
    ['photo', { share: '1', area: 'm^2' }],
    ['remark', {}],
    ['record', { life_then: 'm^2', n_test: '1', t_test: 's' }],
    ['aside', {}],
    ['end', {}],
    ['unknown', {}],
  ])('%s: the symbols it defines, with the units of their dimensions', (kind, expected) => {
    const { cell } = firstOf(kind);
    const form = formOf(cell);
    const known = new Map([['d', dimensionOf('mm')], ['A', dimensionOf('mm^2')]]);
    const units = form.symbols(cell).map((symbol) => [symbol, unitIn(form.dimension?.(cell, symbol, NAMES, known))]);
    expect(Object.fromEntries(units)).toEqual(expected);
  });

  it('says what a symbol is read from', () => {
    const reads = (kind: Cell['kind'], symbol: string) => formOf(firstOf(kind).cell).reads?.(firstOf(kind).cell, symbol, NAMES);
    expect([reads('step', 'A'), reads('given', 'd'), reads('record', 'life_then'), reads('record', 'n_test'), reads('photo', 'area')])
      .toEqual([['d'], [], ['A'], [], []]);
  });

  it('puts options, fillings, tables, fits and pictures among the names', () => {
    expect([...NAMES.fillings].map(([symbol, { text, choice }]) => [symbol, text, choice.id])).toEqual([['d', '7 mm', 'how']]);
    expect([[...NAMES.chosen.keys()], [...NAMES.tables.keys()], [...NAMES.fits.keys()], [...NAMES.photos.keys()].length]).toEqual([['how'], ['rows'], ['line'], 1]);
  });

  it('tells what a held state puts into a cell, and what is kept of it when a test is started', () => {
    const held = { name: '', inputs: new Map(), rows: new Map([['rows', '']]), problems: [] } as unknown as HeldState;
    const all = Object.keys(FORMS) as readonly Cell['kind'][];
    expect(all.filter((kind) => formOf(firstOf(kind).cell).isHeld?.(firstOf(kind).cell, held))).toEqual(['given', 'choice', 'table']);
    expect(all.flatMap((kind) => [formOf(firstOf(kind).cell).atStart?.(firstOf(kind).cell, () => '') ?? []]).filter((kept) => kept.length > 0))
      .toEqual([['d', '6 mm'], ['choice how', 'a']]);
  });

  it('makes a node that says what it reads, and defines no more than the form tells', () => {
    const { nodes } = compileSheet(SHEET);
    const inputsOf = (id: string) => nodes.find(({ cellId }) => cellId === id)?.inputs.map(({ cellId }) => cellId);
    expect([inputsOf('A'), inputsOf('sound'), inputsOf('line'), inputsOf('drawing'), inputsOf('test')]).toEqual([['d'], ['d'], ['rows'], ['A'], ['A']]);
    for (const kind of Object.keys(FORMS) as readonly Cell['kind'][]) {
      const { id, cell } = firstOf(kind);
      expect(nodes.find(({ cellId }) => cellId === id)?.symbols).toEqual(formOf(cell).symbols(cell));
    }
  });
});

describe('a node that throws by a fault of ours', () => {
  it('says so at its cell, and what reads it waits: live and worked out apart alike', async () => {
    const document = parseSheet([KINDS.given, TABLE, step('twice', '2*S_most', 'MPa')].join('\n'));
    const blocks = document.blocks.map((block) => (block.id === 'rows' && block.kind === 'cell'
      ? { ...block, cell: Object.defineProperty({ ...block.cell }, 'rows', { get: () => { throw new RangeError('beyond the stack'); } }) } : block));
    const graph = createSheetGraph({ ...document, blocks });
    const live = await graph.settled();
    for (const states of [live, reckon(graph.compiled(), [])]) {
      expect(states.cell('rows')?.problems).toMatchObject([{ code: 'fault', cell: 'rows' }]);
      expect(states.symbol('twice')).toMatchObject({ status: 'problem', problem: { code: 'input-missing' }, origin: 'S_most' });
      expect(states.symbol('d')).toMatchObject({ status: 'value' });
    }
    graph.dispose();
  });
});
