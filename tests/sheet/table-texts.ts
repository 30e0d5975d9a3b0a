import { parseSheet } from '../../src/sheet/index.ts';
import type { SheetDocument, TableCell } from '../../src/sheet/index.ts';
import { cellOf } from './texts.ts';

export const COLUMNS = `columns:
  - key: specimen
    label: Specimen
    type: text
  - key: group
    label: Group
  - key: S
    label: Stress amplitude
    type: quantity
    unit: MPa
  - key: N
    label: Life
    type: count
    unit: cycles
  - key: outcome
    label: Outcome
    type: option
    options: fracture, runout, suspended, invalid
  - key: valid
    type: yes-no
  - key: note
    type: text
`;

/** A sheet with one table `specimens`; `rows` are the lines of its text. */
export function tableSheet(rows: string, columns = COLUMNS): SheetDocument {
  const lines = rows.replace(/\n$/, '').split('\n').map((line) => (line === '' ? '' : `  ${line}`));
  return parseSheet(`Prose.\n\n\`\`\`table\nid: specimens\nlabel: Specimens of the class\n${columns}rows: |\n${lines.join('\n')}\n\`\`\`\n\nMore.\n`);
}

export function tableOf(document: SheetDocument): TableCell {
  const { cell } = cellOf(document, 'specimens');
  if (cell.kind !== 'table') throw new Error(`a ${cell.kind}, no table`);
  return cell;
}
