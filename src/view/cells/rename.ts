import { nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { composed, problemSentence } from '../../core/problem/index.ts';
import { symbolsGiven, type CellBlock } from '../../sheet/index.ts';
import type { CellUi, Desk } from '../desk.ts';
import { partId } from '../parts.ts';
import { html } from '../template.ts';

type Renaming = NonNullable<CellUi['renaming']>;

/** Another name for a symbol of the cell, in every formula, drawing and text that has it: one step to undo. */
export function renameForm(block: CellBlock, renaming: Renaming, desk: Desk): TemplateResult {
  const symbols = [...new Set(symbolsGiven(block.cell).filter((symbol) => symbol !== ''))];
  const [id, toldId] = [partId(block.id, 'rename'), partId(block.id, 'rename-told')];
  const change = (next: Partial<typeof renaming>): void => desk.changeUi(block.id, (ui) => void (ui.renaming = { symbol: renaming.symbol, typed: renaming.typed, ...next }));
  const close = (at: string): void => {
    desk.changeUi(at, (ui) => void (ui.renaming = undefined));
    desk.element(at)?.focus();
  };
  const submit = (event: Event): void => {
    event.preventDefault();
    rename(block.id, renaming, desk, close);
  };
  const press = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || event.isComposing) return;
    event.preventDefault();
    event.stopPropagation();
    close(block.id);
  };
  return html`<form class="rename" @submit=${submit} @keydown=${press}>
    ${symbols.length < 2 ? nothing : html`<label>Symbol <select .value=${live(renaming.symbol)}
      @change=${({ target }: Event) => target instanceof HTMLSelectElement && change({ symbol: target.value, typed: target.value })}>${symbols.map((symbol) => html`<option value=${symbol} .selected=${symbol === renaming.symbol}>${symbol}</option>`)}</select></label>`}
    <label for=${id}>New name of <code>${renaming.symbol}</code>, everywhere on this sheet</label>
    <input id=${id} type="text" autocomplete="off" autocapitalize="off" spellcheck="false" .value=${live(renaming.typed)} aria-describedby=${toldId} aria-invalid=${renaming.told === undefined ? 'false' : 'true'}
      @input=${({ target }: Event) => target instanceof HTMLInputElement && change({ typed: target.value })}>
    <button type="submit">Rename</button> <button type="button" class="plain" @click=${() => close(block.id)}>Leave it</button>
    <p id=${toldId} class="help">${renaming.told === undefined ? 'Formulas, conditions, drawings, what is asked and values in text follow; words that only look like it stay. One step to undo.' : problemSentence(renaming.told)}</p>
  </form>`;
}

function rename(blockId: string, { symbol, typed }: { readonly symbol: string; readonly typed: string }, desk: Desk, close: (at: string) => void): void {
  const to = typed.trim();
  const place = desk.context().document.blocks.findIndex(({ id }) => id === blockId);
  desk.settle();
  if (to === symbol) return close(blockId);
  if (!desk.apply({ do: 'rename symbol', from: symbol, to }, blockId)) {
    // Said in the form, beside what was typed.
    desk.changeUi(blockId, (ui) => {
      ui.renaming = { symbol, typed, ...(ui.refused === undefined ? {} : { told: ui.refused }) };
      ui.refused = undefined;
    });
    return;
  }
  // The line may be known by its symbol.
  const at = desk.session.document().blocks[place]?.id ?? blockId;
  desk.afterUpdate(() => {
    close(at);
    desk.announce(composed`${symbol} is called ${to} everywhere.`);
  });
}
