import { cellsOf } from './cells-of.ts';
import { isKnownKind, type KnownKind } from './keys.ts';
import { definedSymbols, freshId, freshSymbol } from './symbols.ts';
import type { FindsWord, SheetDocument } from './types.ts';

/** What a new table of specimens is called, and a new fit reads. */
const SPECIMENS = 'specimens';

/** What a new plan reads where the document has no table of planned tests. */
const OWNED: readonly string[] = [
  'id: OWNED', 'label: Weights that are owned', 'note: The rows are invented. Put your own in their place.', 'columns:',
  '  - key: m', '    label: Mass', '    type: quantity', '    unit: kg', '  - key: u_m', '    label: Its standard uncertainty', '    type: quantity', '    unit: kg', '    optional: true',
  '  - key: n', '    label: How many alike', '    type: count', '    unit: "1"', '    optional: true', 'rows: |', '  m [kg],u_m [kg],n', '  2,0.001,2', '  1,0.0005,1',
];

const PLANNED = [
  'id: PLANNED', 'label: Levels planned', 'columns:', '  - key: S', '    label: Stress amplitude', '    type: quantity', '    unit: MPa', '  - key: count',
  '    label: Specimens', '    type: count', '    unit: "1"', '    default: "1"', 'rows: |', '  S [MPa],count', '  420,3', '  360,3', '  300,3',
];

/** A kind of cell, or something else that a fit can find. */
export type TemplateName = KnownKind | Exclude<FindsWord, 'line'>;

const BODIES: Readonly<Record<TemplateName, readonly string[]>> = {
  given: ['symbol: SYMBOL', 'label: New quantity', 'value:', 'unit: mm'],
  choice: [
    'label: New choice',
    'chosen: first',
    'options:',
    '  - key: first',
    '    label: First option',
    '  - key: second',
    '    label: Second option',
  ],
  step: ['symbol: SYMBOL', 'label: New step', 'formula: 1'],
  check: ['label: New check', 'condition: 1 > 0', 'holds: It holds.', 'otherwise: Say here what to do.'],
  table: [
    'id: TABLE',
    'label: New table of specimens',
    'note: The rows are invented. Put your own in their place, or bring in a file.',
    'columns:',
    '  - key: specimen',
    '    label: Specimen',
    '  - key: S',
    '    label: Stress amplitude',
    '    type: quantity',
    '    unit: MPa',
    '  - key: N',
    '    label: Life',
    '    type: count',
    '    unit: cycles',
    '  - key: outcome',
    '    label: Outcome',
    '    type: option',
    '    options: fracture, runout, suspended, invalid',
    '    default: fracture',
    'rows: |',
    '  specimen,S [MPa],N,outcome',
    '  invented 1,420,61000,fracture',
    '  invented 2,420,94000,fracture',
    '  invented 3,380,210000,fracture',
    '  invented 4,380,178000,fracture',
    '  invented 5,340,640000,fracture',
    '  invented 6,340,905000,fracture',
    '  invented 7,300,10000000,runout',
  ],
  fit: ['label: New fit', 'table: FITTED'],
  limits: [
    'label: What the line allows to be promised', 'finds: limits', 'of: LINE', 'asks:', '  stress: 350 MPa', '  life: 1e6 cycles', '  next: 10', '  share: 90 %', '  confidence: 95 %',
  ],
  lives: ['label: Lives at one stress', 'finds: lives', 'table: FITTED', 'asks:', '  stress: 420 MPa', '  distribution: lognormal', '  share: 90 %', '  confidence: 95 %'],
  comparison: ['label: One line, or one for each group?', 'finds: comparison', 'table: FITTED', 'asks:', '  stress: 350 MPa', '  life: 1e6 cycles'],
  staircase: ['label: New staircase', 'finds: staircase', 'table: FITTED', 'asks:', '  step: 20 MPa', '  life: 1e7 cycles', '  share: 90 %', '  confidence: 95 %'],
  plan: [
    'label: What the planned tests will give', 'finds: plan', 'table: PLANNED', 'of: LINE', 'asks:', '  life: 1e7 cycles', '  speed: 3000 rev/min', '  machines: 1', '  stress: 350 MPa',
    '  confidence: 95 %',
  ],
  weights: [
    'label: Which weights, and where', 'finds: weights', 'table: OWNED', 'asks:', '  load: 300 N', '  arm: 60 mm', '  from: 90 mm', '  to: 450 mm', '  near: 0.2 %',
  ],
  figure: ['label: New figure', 'drawing: free-body'],
  checklist: ['label: New checklist', 'items:', '  - First item'],
  record: ['label: The test'],
  photo: ['label: Picture of the fracture surface', 'outline_shape: circle', 'final_shape: ellipse'],
  question: ['label: New question'],
  remark: ['heading: New remark', 'text:'],
  aside: ['label: New part', 'holds: Say here what it contains.'],
  end: [],
};

/**
 * Source of a new cell, free of problems of its own, with a symbol that the document does not have yet. A plan brings its table
 * with it where there is none.
 */
export function templateCell(name: TemplateName, document: SheetDocument): string {
  const planned = tableWith(['S', 'count'], document);
  const owned = tableWith(['m', 'u_m'], document);
  const names: Readonly<Record<string, string>> = {
    SYMBOL: definedSymbols(document).has('x_1') ? freshSymbol('x_1', document) : 'x_1',
    TABLE: freeId(SPECIMENS, document),
    FITTED: tableWith(['S', 'N'], document) ?? SPECIMENS,
    PLANNED: planned ?? freeId('planned', document),
    OWNED: owned ?? freeId('owned', document),
    LINE: firstLine(document) ?? 'line',
  };
  const cell = (kind: KnownKind, lines: readonly string[]): string =>
    ['```' + kind, ...lines.map((line) => line.replace(/\b[A-Z]{4,}$/, (word) => names[word] ?? word)), '```', ''].join('\n');
  const own = cell(isKnownKind(name) ? name : 'fit', BODIES[name]);
  if (name === 'aside') return `${own}\nWrite here.\n\n${cell('end', BODIES.end)}`;
  const table = name === 'plan' && planned === undefined ? PLANNED : name === 'weights' && owned === undefined ? OWNED : undefined;
  return table === undefined ? own : `${cell('table', table)}\n${own}`;
}

function freeId(id: string, document: SheetDocument): string {
  return document.blocks.some((block) => block.id === id) ? freshId(id, document) : id;
}

/** The first table with columns of these keys. */
function tableWith(keys: readonly string[], document: SheetDocument): string | undefined {
  return cellsOf(document, 'table').find(({ columns }) => keys.every((key) => columns.some((column) => column.key === key)))?.id;
}

function firstLine(document: SheetDocument): string | undefined {
  return cellsOf(document, 'fit').find(({ finds }) => finds === 'line')?.id;
}
