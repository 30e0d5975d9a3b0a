import type { KnownKind } from './keys.ts';
import { definedSymbols, freshSymbol } from './symbols.ts';
import type { SheetDocument } from './types.ts';

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
    'label: New table',
    'columns:',
    '  - key: specimen',
    '    label: Specimen',
    '  - key: x',
    '    label: Number',
    '    type: quantity',
    '    unit: 1',
    'rows: |',
    '  specimen,x',
  ],
  fit: ['label: New fit', 'table: specimens'],
  figure: ['label: New figure', 'drawing: free-body'],
  checklist: ['label: New checklist', 'items:', '  - First item'],
  record: ['label: The test'],
  photo: ['label: Picture of the fracture surface'],
  remark: ['heading: New remark', 'text:'],
};

/** Source of a new cell of a kind, free of problems of its own, with a symbol that the document does not have yet. */
export function templateCell(kind: KnownKind, document: SheetDocument): string {
  const symbol = definedSymbols(document).has('x_1') ? freshSymbol('x_1', document) : 'x_1';
  const lines = BODIES[kind].map((line) => line.replace('SYMBOL', symbol));
  return ['```' + kind, ...lines, '```', ''].join('\n');
}
