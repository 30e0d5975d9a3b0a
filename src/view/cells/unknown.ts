import type { CellBlock } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { partId, problemList, type Part } from '../parts.ts';
import { html } from '../template.ts';

/** What this version does not understand: kept, and shown as it is written. */
export function unknownParts(block: CellBlock, desk: Desk): Part {
  const state = desk.context().states.cell(block.id);
  const problems = block.cell.problems.length > 0 ? block.cell.problems : (state?.problems ?? []);
  return html`<p class="label">${block.cellKind === '' ? 'A block' : `“${block.cellKind}”`} is not understood here and kept as it is.</p>
    <pre tabindex="0" aria-label="Its text">${block.source}</pre>
    ${problemList({ problems, warnings: state?.warnings ?? [] }, partId(block.id, 'problem'), desk.ui(block.id).refused)}`;
}
