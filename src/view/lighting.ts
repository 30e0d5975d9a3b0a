import { nothing, type TemplateResult } from 'lit-html';
import { CHANGES, isSymbolHidden, plainFigures, presentElasticities, symbolOf, USUAL_CHANGE, type PresentContext, type PresentedElasticities } from '../report/index.ts';
import { drawnSymbol } from '../figures/drawings/index.ts';
import type { CellState } from '../graph/index.ts';
import type { Desk } from './desk.ts';
import { setEquation } from './equations.ts';
import { raised, type Part } from './parts.ts';
import { html } from './template.ts';

/** What one percent does, lit up along the chain from one chosen symbol. */
export interface Lighting {
  /** As it is now; undefined while nothing is chosen. */
  now(): PresentedElasticities | undefined;
  /** Chooses a symbol, or ends it. */
  choose(symbol: string | undefined): void;
  /** Which change is worked out beside the slopes, as a share. */
  change(share: number): void;
  /** Takes the state of the sheet as it is after an edit. */
  follow(context: PresentContext): void;
}

export function createLighting(context: PresentContext): Lighting {
  let chosen: string | undefined;
  let latest = context;
  let change = USUAL_CHANGE;
  let lit: PresentedElasticities | undefined;
  const work = (): void => void (lit = chosen === undefined ? undefined : presentElasticities(chosen, latest, change));
  return {
    now: () => lit,
    choose: (symbol) => {
      chosen = symbol;
      work();
      // Nothing to light up is nothing chosen; once chosen it comes back when its value does.
      if (lit === undefined) chosen = undefined;
    },
    change: (share) => {
      change = share;
      work();
    },
    follow: (next) => {
      latest = next;
      work();
    },
  };
}

/** What a line of the sheet can ask of it. */
export function lightOf(now: Lighting['now']): Pick<Desk, 'isLit' | 'litAt' | 'litNames'> {
  return {
    isLit: () => now() !== undefined,
    litAt: (symbol) => (now()?.symbol === symbol ? 'chosen' : now()?.marks.get(symbol)),
    litNames: () => [now()].flatMap((lit) => (lit === undefined ? [] : [lit.symbol, ...lit.marks.keys()])),
  };
}

/** Symbols that a cell gives the sheet. */
export function symbolsOfState(state: CellState | undefined): readonly string[] {
  return [...(state?.symbol === undefined ? [] : [state.symbol]), ...(state?.results?.keys() ?? [])];
}

/** Classes of a cell: the chosen one, one that is lit, or neither. */
export function lightState(blockId: string, desk: Desk): string {
  if (!desk.isLit()) return '';
  const marks = symbolsOfState(desk.context().states.cell(blockId)).map((symbol) => desk.litAt(symbol));
  if (marks.includes('chosen')) return 'lit chosen';
  return marks.some((mark) => mark !== undefined) ? 'lit' : '';
}

/** In a drawing, which recedes with its line: the names that are lit keep their ink, the chosen one is underlined. */
export function lightNames(drawing: Element, desk: Desk): void {
  const [chosen, ...others] = desk.litNames().map(drawnSymbol);
  if (chosen === undefined) return;
  const names = new Set(others);
  for (const text of drawing.querySelectorAll('text:not(.note)')) {
    const name = drawnName(text);
    if (name === undefined) continue;
    text.classList.toggle('lit', name === chosen || names.has(name));
    text.classList.toggle('chosen', name === chosen);
  }
}

/** The symbol whose name the letters of a drawing begin with, as `drawnSymbol` writes it. */
export function drawnName(text: Element): string | undefined {
  const letter = text.querySelector('.symbol');
  if (letter === null) return undefined;
  const below = letter.nextElementSibling?.classList.contains('subscript') === true ? letter.nextElementSibling.textContent : '';
  return `${letter.textContent}_${below}`;
}

/** In the margin of a line: per 1 % of the one so much on the other, and what 1 % really does where that is something else. */
export function lightLines(blockId: string, desk: Desk): Part {
  if (!desk.isLit()) return nothing;
  const symbols = symbolsOfState(desk.context().states.cell(blockId));
  return html`${symbols.map((symbol) => {
    const mark = desk.litAt(symbol);
    if (mark === undefined) return nothing;
    if (mark === 'chosen') return html`<p class="one-percent">slopes at this point, about <span ${setEquation(symbolOf(symbol))}></span></p>`;
    return html`<p class="one-percent ${mark.side}"><span class="cause">slope at this point, per 1 % of <span ${setEquation(mark.ofTex)}></span>:</span> ${mark.percent === undefined
      ? html`<span class="why">${mark.why}</span>`
      : html`<span class="percent">${raised(mark.percent)}</span> on <span ${setEquation(mark.onTex)}></span>${mark.effects === undefined ? nothing : html` <span class="effects">${mark.effects}</span>`}`}</p>`;
  })}`;
}

/** The button that lights up what one percent of a symbol does; nothing where it has no value or is still asked. */
export function lightButton(symbol: string, name: string, desk: Desk, words = 'elasticities'): Part {
  const context = desk.context();
  if (context.states.symbol(symbol)?.status !== 'value' || isSymbolHidden(symbol, context)) return nothing;
  const isOn = desk.litAt(symbol) === 'chosen';
  return html`<button type="button" class="quiet light" aria-pressed=${String(isOn)} title="How the lines of its chain move with it: the slope at this point, and what a change does"
    @click=${() => desk.light(isOn ? undefined : symbol)}>${words}<span class="visually-hidden"> of ${name}</span></button>`;
}

/** What stands at the foot of the window while something is lit: what it is, and the way to end it. */
export function lightStrip(lit: PresentedElasticities | undefined, desk: Desk): TemplateResult | typeof nothing {
  if (lit === undefined) return nothing;
  const blockId = desk.context().states.definedBy(lit.symbol) ?? '';
  return html`<div class="foot-strip light-strip" role="region" aria-label="Elasticities">
    <p>Slopes at this point: <button type="button" class="symbol-link" @click=${() => desk.go(blockId, '')}><span ${setEquation(lit.symbolTex)}></span><span class="visually-hidden"> ${lit.words}: go there</span></button>
      <span class="words">${lit.words}</span></p>
    <label class="change">a change of ± <select @change=${(event: Event) => event.target instanceof HTMLSelectElement && desk.lightChange(Number(event.target.value))}>
      ${CHANGES.map((share) => html`<option value=${share} ?selected=${share === lit.change}>${plainFigures(100 * share, 2)} %</option>`)}</select></label>
    <button type="button" class="press" @click=${() => desk.light(undefined)}>End <kbd>Esc</kbd></button></div>`;
}
