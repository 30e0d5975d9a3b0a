import { nothing } from 'lit-html';
import { rowsShown, type Look, type SheetSymbols } from '../../graph/index.ts';
import { definingCell, presentTable, type PresentContext, type PresentedTable, asked, wholeOf, type WholeContext } from '../../report/index.ts';
import type { TableCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { entered } from '../entered.ts';
import { partId, problemLine, type Part } from '../parts.ts';
import { html } from '../template.ts';
import type { PickedRows, TableUi } from './table-ui.ts';

/** A table as the page looks at it: `rowCount` and `rows` are of the rows shown, in the order in which they are. */
export interface TableLook {
  readonly table: PresentedTable;
  /** Whether only some rows are shown, or all in another order: nothing can then be added, for nobody would see where. */
  readonly isPicked: boolean;
  readonly all: number;
  readonly picked?: PickedRows;
  /** Number in the document of a row shown; of the blank row, that of the next new one. */
  readonly rowOf: (shown: number) => number;
  /** Where a row of the document is shown; undefined where it is not. */
  readonly shownAt: (row: number) => number | undefined;
}

export function lookAt(cell: TableCell, desk: Desk): TableLook {
  const table = presentTable(cell, desk.context());
  const record = desk.ui(cell.id);
  const picked = pickedRows(cell, record.table, desk.context());
  if (picked !== record.table.picked) record.table = { ...record.table, picked };
  if (picked === undefined) {
    return { table, isPicked: false, all: table.rowCount, rowOf: (shown) => shown, shownAt: (row) => row };
  }
  const { rows } = picked;
  return {
    table: { ...table, rowCount: rows.length, rows: (start, end) => rows.slice(Math.max(0, start), end).flatMap((row) => table.rows(row, row + 1)) },
    isPicked: true,
    all: table.rowCount,
    picked,
    rowOf: (shown) => rows[shown] ?? table.rowCount,
    shownAt: (row) => {
      const at = rows.indexOf(row);
      return at < 0 ? undefined : at;
    },
  };
}

function pickedRows(cell: TableCell, ui: TableUi, context: PresentContext): PickedRows | undefined {
  const state = context.states.cell(cell.id)?.table;
  const { look, picked } = ui;
  if (state === undefined || (look.by === undefined && look.only.trim() === '')) return undefined;
  if (picked?.look === look && picked.rowCount === state.rowCount) return picked;
  return { look, rowCount: state.rowCount, ...rowsShown(state, look, symbolsOf(wholeOf(context))) };
}

function symbolsOf({ states }: WholeContext): SheetSymbols {
  const unitOf = (name: string) => {
    const state = states.symbol(name);
    return state?.status === 'value' ? state : undefined;
  };
  return {
    dimensionOf: (name) => unitOf(name)?.unit.dimension,
    value: (name) => unitOf(name)?.estimate.value ?? Number.NaN,
    standardUncertainty: () => Number.NaN,
    names: states.symbols,
  };
}

/** What the reader can pick, count and add, below the rows. */
export interface LookHand {
  readonly look: (look: Look) => void;
  readonly unfold: () => void;
  readonly count: (where: string) => void;
  readonly addColumn: (key: string, formula: string) => boolean;
  readonly keepOrder: () => void;
}

/** Which rows are shown, said plainly, with the way back. */
export function pickedLine({ picked, all }: TableLook, ui: TableUi, hand: LookHand): Part {
  if (picked === undefined) return nothing;
  const { by, only } = ui.look;
  const words = [
    `Shown: ${picked.rows.length === all ? `all ${all}` : `${picked.rows.length} of ${all}`} rows`,
    ...(only.trim() === '' || picked.problem !== undefined ? [] : [`with ${only.trim()}`]),
    ...(by === undefined ? [] : [`${by.column} ${by.direction}`]),
  ].join(', ');
  return html`<p class="picked"><span role="status">${words}. This is for looking only: what is counted and fitted stays the same.</span>
    <button type="button" class="quiet" @click=${() => hand.look({ only: '' })}>show all as they lie</button>
    ${by === undefined ? nothing : html`<button type="button" class="quiet" @click=${hand.keepOrder}>keep the rows in this order</button>`}</p>
    ${picked.problem === undefined ? nothing : problemLine(picked.problem)}`;
}

/** Blanks that pick rows to look at, state which are counted, and add a column; folded until they are asked for. */
export function lookLine(cell: TableCell, table: PresentedTable, ui: TableUi, desk: Desk, hand: LookHand): Part {
  const id = (part: string): string => partId(cell.id, part);
  const valueOf = ({ currentTarget }: Event): string => (currentTarget instanceof HTMLInputElement ? currentTarget.value : '');
  const stop = (event: KeyboardEvent): void => {
    if (event.key !== 'Enter' || event.isComposing || !(event.currentTarget instanceof HTMLInputElement)) return;
    event.preventDefault();
    event.currentTarget.blur();
    event.currentTarget.focus();
  };
  const add = (event: Event): void => {
    event.preventDefault();
    const [key, formula] = [...(event.currentTarget as HTMLFormElement).querySelectorAll('input')];
    if (key === undefined || formula === undefined || !hand.addColumn(key.value.trim(), formula.value.trim())) return;
    key.value = '';
    formula.value = '';
  };
  return html`<div class="look"><button type="button" class="quiet" aria-expanded=${ui.isOpen} aria-controls=${id('look')} @click=${hand.unfold}>pick rows, add a column</button>
    <div id=${id('look')} ?hidden=${!ui.isOpen}>
      <p><label for=${id('only')}>Show only rows with</label> <input class="blank" id=${id('only')} autocomplete="off" autocapitalize="off" spellcheck="false"
        placeholder="S > 300*unit(MPa), or words" .value=${entered(ui.look.only)} @keydown=${stop}
        @change=${(event: Event) => hand.look({ ...ui.look, only: valueOf(event) })}> <span class="help">to look at; the fit does not change</span></p>
      <p><label for=${id('where')}>Count only rows where</label> <input class="blank" id=${id('where')} autocomplete="off" autocapitalize="off" spellcheck="false"
        placeholder="a condition" .value=${entered(table.where ?? '')} @keydown=${stop}
        @change=${(event: Event) => hand.count(valueOf(event))}> <span class="help">others stay in the table and out of its fits</span></p>
      <form @submit=${add}><label for=${id('key')}>Add a column</label> <input class="blank short" id=${id('key')} autocomplete="off" autocapitalize="off" spellcheck="false" placeholder="lg_N">
        <label for=${id('formula')}>computed by</label> <input class="blank" id=${id('formula')} autocomplete="off" autocapitalize="off" spellcheck="false" placeholder="log10(N)">
        <button type="submit" class="quiet">add</button> <span class="help">${symbolsWords(cell, desk)}</span></form>
    </div></div>`;
}

/** What a formula of a column may read: the columns of numbers, and the sheet's symbols. */
function symbolsWords({ columns }: TableCell, desk: Desk): string {
  const keys = columns.filter(({ type }) => type === 'quantity' || type === 'count' || type === 'derived').map(({ key }) => key);
  const first = asked(desk.context(), firstBut, keys.join());
  return `reads ${keys.join(', ')}${first === undefined ? '' : `, and symbols of the sheet such as ${first}`}`;
}

/** The first symbol of the sheet that none of these columns is called by. */
function firstBut(whole: WholeContext, keys: string): string | undefined {
  const taken = keys.split(',');
  return whole.states.symbols.find((symbol) => definingCell(symbol, whole) !== undefined && !taken.includes(symbol));
}
