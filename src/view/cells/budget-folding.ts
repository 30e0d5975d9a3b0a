import type { Folding, PresentedBudget, PresentedBudgetRow } from '../../report/index.ts';
import type { Desk } from '../desk.ts';
import { html } from '../template.ts';

/** Components unfold under their input, in the figure of a budget too. */
export function foldingOf({ symbol }: PresentedBudget, blockId: string, desk: Desk): Folding {
  // Of a given itself its components are all there is to be told.
  return (row) => (row.input === symbol || row.components.length === 0 ? { isOpen: true } : unfolding(row, `${symbol} ${row.input}`, blockId, desk));
}

function unfolding({ components, words }: PresentedBudgetRow, key: string, blockId: string, desk: Desk): ReturnType<Folding> {
  const isOpen = desk.ui(blockId).budget.unfolded.has(key);
  const toggle = (): void => desk.changeUi(blockId, ({ budget: { unfolded } }) => void (isOpen ? unfolded.delete(key) : unfolded.add(key)));
  const press = html`<button type="button" class="quiet unfold" aria-expanded=${String(isOpen)} @click=${toggle}>${components.length} parts<span class="visually-hidden"> of ${words}</span></button>`;
  return { isOpen, press: { hand: press } };
}
