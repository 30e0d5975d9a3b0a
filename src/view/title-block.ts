import { cellsOf } from '../sheet/index.ts';
import { nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { isOwnWorking, presentAttention, presentSlipsOn, presentTitleBlock, slipListProblems } from '../report/index.ts';
import type { PresentContext, PresentedAttention } from '../report/index.ts';
import type { UnitSystem } from '../core/units/types.ts';
import { slipBand } from './cells/slip.ts';
import { trialBand } from './cells/trial.ts';
import { referenceBand } from './cells/shift.ts';
import type { Desk } from './desk.ts';
import { focusNextBlank } from './focus.ts';
import { problemLine, type Part } from './parts.ts';
import { html } from './template.ts';

/** The head of the sheet as a form, its switches, and what wants attention before anything else. */
export function titleBlock(desk: Desk): TemplateResult {
  const context = desk.context();
  const { title, fields } = presentTitleBlock(context.document);
  const set = (key: string) => (event: Event) => {
    if (!(event.target instanceof HTMLTextAreaElement)) return;
    desk.apply({ do: 'set front matter', key, value: event.target.value.replace(/[\r\n]+/g, ' ') });
  };
  const settle = (): void => desk.settle();
  const problems = [...context.document.problems, ...context.document.frontMatter.problems, ...slipListProblems(context.document)];
  return html`<h1 class="visually-hidden">${title}</h1>
    <textarea class="title-blank" rows="1" aria-label="Title of the sheet" autocomplete="off" .value=${live(title)} @input=${set('title')} @blur=${settle}
      @keydown=${onOneLine}></textarea>
    <div class="title-fields">${fields.map(({ key, label, value }) => html`<label><span>${label}</span>
      <textarea class="blank" rows="1" autocomplete="off" .value=${live(value)} @input=${set(key)} @blur=${settle} @keydown=${onOneLine}></textarea></label>`)}</div>
    ${trialBand(desk)}
    ${slipBand(presentSlipsOn(context), desk)}
    ${referenceBand(desk)}
    ${switches(desk, context)}
    ${problems.length === 0 ? nothing : html`<div class="sheet-problems">${problems.map((problem) => problemLine(problem))}</div>`}
    ${attention(presentAttention(context), desk)}`;
}

/** Long entries run on below; a line break is not part of one, and Enter goes to the next. */
function onOneLine(event: KeyboardEvent): void {
  if (event.key !== 'Enter' || event.isComposing || !(event.target instanceof HTMLElement)) return;
  event.preventDefault();
  focusNextBlank(event.target);
}

const SYSTEMS: readonly UnitSystem[] = ['SI', 'US customary'];

function switches(desk: Desk, { document }: PresentContext): TemplateResult {
  const { session } = desk;
  const system = session.system();
  const ownWorking = isOwnWorking(document);
  return html`<div class="switches">
    <fieldset class="units"><legend>Results in</legend>${SYSTEMS.map((name) => html`<label><input type="radio" name="unit-system" value=${name}
      .checked=${live(system === name)} @change=${() => session.setSystem(name)}><span>${name}</span></label>`)}</fieldset>
    <label class="switch"><input type="checkbox" .checked=${live(ownWorking)}
      @change=${() => desk.apply({ do: 'set front matter', key: 'own_working', value: ownWorking ? 'false' : 'true' })}><span>hide results until I have worked them out</span></label>
    <span class="history">${undoButton(desk)}<button
      type="button" class="plain" ?disabled=${!session.canRedo()} @click=${() => desk.step('redo')}>redo</button></span>
  </div>`;
}

/** Where something can be said of why there is nothing to undo, a press says it: what can't be pressed can't be asked by touch or keys. */
function undoButton({ session, nothingToUndo, step }: Desk): TemplateResult {
  const hasNothing = !session.canUndo();
  return html`<button type="button" class="plain" ?disabled=${hasNothing && nothingToUndo === undefined} aria-disabled=${hasNothing && nothingToUndo !== undefined ? 'true' : nothing}
      title=${(hasNothing ? nothingToUndo : undefined) ?? nothing} @click=${() => step('undo')}>undo</button>`;
}

/** What is still open, not in order or does not hold. */
function attention({ openItems, items, problems, failedChecks }: PresentedAttention, desk: Desk): Part {
  const list = firstOpenList(desk);
  const lines = [
    openItems === 0 ? nothing : html`<li>${openItems} of ${items} checklist items are open${list === undefined ? '' : html`<span class="way">: ${placeLink(list, 'go to the first', desk)}</span>`}.</li>`,
    places('Does not hold:', failedChecks, desk),
    places('To be mended:', problems, desk),
  ];
  return lines.every((line) => line === nothing) ? nothing : html`<ul class="attention">${lines}</ul>`;
}

function places(words: string, list: PresentedAttention['problems'], desk: Desk): Part {
  if (list.length === 0) return nothing;
  return html`<li>${words} ${list.map(({ cellId, label }, i) => html`${i === 0 ? '' : '; '}${placeLink(cellId, label, desk)}`)}.</li>`;
}

function placeLink(cellId: string, words: string, desk: Desk): TemplateResult {
  return html`<button type="button" class="quiet place" @click=${() => desk.go(cellId, '')}>${words}</button>`;
}

function firstOpenList(desk: Desk): string | undefined {
  return cellsOf(desk.context().document, 'checklist').find(({ items }) => items.some(({ done }) => done === undefined))?.id;
}
