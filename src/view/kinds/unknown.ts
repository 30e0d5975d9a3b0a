import { nothing } from 'lit-html';
import type { CellBlock, UnknownCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { partId, problemList, type LineParts } from '../parts.ts';
import { html } from '../template.ts';

/** What this version does not understand: kept, and shown as it is written. */
export function unknownParts({ id, problems: own }: UnknownCell, desk: Desk, { cellKind, source }: CellBlock): LineParts {
  const state = desk.context().states.cell(id);
  const problems = own.length > 0 ? own : (state?.problems ?? []);
  const line = html`<p class="label">${cellKind === '' ? 'A block' : `“${cellKind}”`} is not understood here and kept as it is.</p>
    <pre tabindex="0" aria-label="Its text">${source}</pre>
    ${problemList({ problems, warnings: state?.warnings ?? [] }, partId(id, 'problem'), desk.ui(id).refused)}`;
  return { line, margin: nothing };
}
