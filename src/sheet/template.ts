import type { KnownKind } from './keys.ts';
import { definedSymbols, freshId, freshSymbol } from './symbols.ts';
import type { SheetDocument } from './types.ts';

/** What a new table of specimens is called, and a new fit reads. */
const SPECIMENS = 'specimens';

const BODIES: Readonly<Record<KnownKind, readonly string[]>> = {
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
  figure: ['label: New figure', 'drawing: free-body'],
  checklist: ['label: New checklist', 'items:', '  - First item'],
  record: ['label: The test'],
  photo: ['label: Picture of the fracture surface'],
  remark: ['heading: New remark', 'text:'],
};

/** Source of a new cell of a kind, free of problems of its own, with a symbol that the document does not have yet. */
export function templateCell(kind: KnownKind, document: SheetDocument): string {
  const symbol = definedSymbols(document).has('x_1') ? freshSymbol('x_1', document) : 'x_1';
  const table = document.blocks.some(({ id }) => id === SPECIMENS) ? freshId(SPECIMENS, document) : SPECIMENS;
  const fitted = tableToFit(document) ?? SPECIMENS;
  const lines = BODIES[kind].map((line) => line.replace('SYMBOL', symbol).replace('TABLE', table).replace('FITTED', fitted));
  return ['```' + kind, ...lines, '```', ''].join('\n');
}

/** The first table with stresses and lives. */
function tableToFit({ blocks }: SheetDocument): string | undefined {
  const tables = blocks.flatMap((block) => (block.kind === 'cell' && block.cell.kind === 'table' ? [block.cell] : []));
  return tables.find(({ columns }) => ['S', 'N'].every((key) => columns.some((column) => column.key === key)))?.id;
}
