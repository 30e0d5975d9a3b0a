import { nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import type { Distribution } from '../../core/estimate/index.ts';
import { composed } from '../../core/problem/index.ts';
import { symbolOf, wholeOf } from '../../report/index.ts';
import { cellsOf, type GivenCell } from '../../sheet/index.ts';
import { setCorrelation, setKey } from '../commands.ts';
import type { Desk } from '../desk.ts';
import { entered } from '../entered.ts';
import { setEquation } from '../equations.ts';
import { partId, type Part } from '../parts.ts';
import { html } from '../template.ts';

type MeasuredKey = 'instrument' | 'resolution' | 'limit' | 'distribution' | 'inexactness' | 'degrees_of_freedom' | 'together';

interface MeasuredField {
  readonly key: MeasuredKey;
  readonly of: (cell: GivenCell) => string | undefined;
  readonly words: string;
  readonly help: string;
  readonly options?: string;
}

const FIELDS: readonly MeasuredField[] = [
  { key: 'instrument', of: ({ instrument }) => instrument, words: 'Instrument', help: 'class and resolution, such as: steel rule, 0.5 mm', options: 'instrument-classes' },
  { key: 'resolution', of: ({ resolution }) => resolution, words: 'Resolution, if another', help: 'smallest step it shows' },
  { key: 'limit', of: ({ limit }) => limit, words: 'Limit of error, if another', help: 'such as 0.02 mm or 1 %' },
  { key: 'together', of: ({ together }) => together, words: 'Read in pairs with', help: 'the same name at each given that was read at the same time' },
];

/** Asked only where a limit is stated: most limits are taken as they stand. */
const KNOWN_FIELDS: readonly MeasuredField[] = [
  { key: 'inexactness', of: ({ inexactness }) => inexactness, words: 'The limit may be off by', help: 'a share of itself, such as 25 %' },
  { key: 'degrees_of_freedom', of: ({ degreesOfFreedom }) => degreesOfFreedom, words: 'Degrees of freedom of the limit', help: 'as a certificate states them' },
];

function statesLimit({ limit, distribution, inexactness, degreesOfFreedom, value = '' }: GivenCell): boolean {
  return (limit ?? distribution ?? inexactness ?? degreesOfFreedom) !== undefined || /\blimit\b/i.test(value);
}

/** What a limit of error may be taken as (JCGM 100, 4.3). */
const DISTRIBUTIONS: readonly Distribution[] = ['rectangular', 'triangular', 'normal', 'arcsine', 'curvilinear trapezoid'];

/** The fields in which it is said how a given was measured. */
export function measuredFields(cell: GivenCell, desk: Desk): TemplateResult {
  const set = (key: MeasuredKey, value: string): void => {
    desk.apply(setKey(cell.id, key, value.trim() === '' ? undefined : value), cell.id);
    desk.settle();
  };
  return html`<div class="fields">
    ${FIELDS.map((one) => field(cell, one, set))}
    <label class="field"><span>Distribution within the limit</span>
      <select .value=${live(cell.distribution ?? '')} @change=${(event: Event) => set('distribution', valueOf(event))}>
        <option value="" ?selected=${cell.distribution === undefined}>as usual for the instrument</option>
        ${DISTRIBUTIONS.map((name) => html`<option value=${name} ?selected=${cell.distribution === name}>${name}</option>`)}
      </select></label>
    ${statesLimit(cell) ? KNOWN_FIELDS.map((one) => field(cell, one, set)) : nothing}
    ${correlations(cell, desk)}
  </div>`;
}

function field(cell: GivenCell, { key, of, words, help, options }: MeasuredField, set: (key: MeasuredKey, value: string) => void): TemplateResult {
  const helpId = partId(cell.id, `help-${key}`);
  return html`<label class="field"><span>${words}</span>
    <input type="text" autocomplete="off" list=${options ?? nothing} aria-describedby=${helpId} .value=${entered(of(cell) ?? '')}
      @change=${(event: Event) => set(key, valueOf(event))}></label><p class="help" id=${helpId}>${help}</p>`;
}

/** Stated coefficients, one field each, which empties to take it out; and the way to state another. */
function correlations(cell: GivenCell, desk: Desk): Part {
  const stated = [...(cell.correlated ?? [])];
  const others = cellsOf(wholeOf(desk.context()).document, 'given').filter(({ symbol }) => symbol !== cell.symbol && cell.correlated?.has(symbol) !== true);
  const set = (symbol: string, text: string): void => {
    desk.apply(setCorrelation(cell.id, symbol, text.trim() === '' ? undefined : text), cell.id);
    desk.settle();
  };
  const add = (event: Event): void => {
    const symbol = valueOf(event);
    if (symbol === '') return;
    desk.afterUpdate(() => desk.element(cell.id)?.querySelector<HTMLInputElement>(`#${CSS.escape(coefficientId(cell, symbol))}`)?.select());
    set(symbol, '0');
  };
  const helpId = partId(cell.id, 'help-correlated');
  return html`${stated.map(([symbol, coefficient]) => html`<label class="field"><span>Correlation with <span ${setEquation(symbolOf(symbol))}></span></span>
      <input type="text" autocomplete="off" id=${coefficientId(cell, symbol)} aria-describedby=${helpId} .value=${entered(coefficient)}
        @change=${(event: Event) => set(symbol, valueOf(event))}></label>`)}
    ${others.length === 0 ? nothing : html`<label class="field"><span>${stated.length === 0 ? 'Correlated with' : 'and with'}</span>
      <select .value=${live('')} @change=${add}><option value="" selected>none stated</option>
        ${others.map(({ symbol, label }) => html`<option value=${symbol}>${label === undefined ? symbol : composed`${symbol}: ${label}`}</option>`)}</select></label>`}
    <p class="help" id=${helpId}>${stated.length === 0
      ? 'where both are off together, by a coefficient from −1 to 1'
      : 'the coefficient, from −1 to 1; an empty field takes it out'}</p>`;
}

function coefficientId(cell: GivenCell, symbol: string): string {
  return partId(cell.id, `correlated-${symbol}`);
}

function valueOf(event: Event): string {
  return event.target instanceof HTMLInputElement || event.target instanceof HTMLSelectElement ? event.target.value : '';
}
