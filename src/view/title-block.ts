import { nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { headParts, presentTitleBlock, type HeadHands, type PresentContext } from '../report/index.ts';
import { isOwnWorking, isTeamFile, REFERENCE } from '../sheet/index.ts';
import type { UnitSystem } from '../core/units/types.ts';
import { askedPanel } from './asked-panel.ts';
import { allOff, offButton } from './cells/slip.ts';
import { allBackButton, backButton } from './cells/trial.ts';
import type { Desk } from './desk.ts';
import { focusNextBlank } from './focus.ts';
import { html, shown } from './template.ts';

/** The head of the sheet as a form, its switches, and what wants attention before anything else. */
export function titleBlock(desk: Desk): TemplateResult {
  const context = desk.context();
  const { title, fields } = presentTitleBlock(context.document);
  const set = (key: string) => (event: Event) => {
    if (!(event.target instanceof HTMLTextAreaElement)) return;
    desk.apply({ do: 'set front matter', key, value: event.target.value.replace(/[\r\n]+/g, ' ') });
  };
  const settle = (): void => desk.settle();
  const { bands, origins, problems, attention } = headParts(context, handsOf(desk));
  return html`<h1 class="visually-hidden">${title}</h1>
    <div class="title-room" data-text=${title}><textarea class="title-blank" rows="1" aria-label="Title of the sheet" autocomplete="off" .value=${live(title)} @input=${set('title')} @blur=${settle}
      @keydown=${onOneLine}></textarea></div>
    <div class="title-fields">${fields.map(({ key, label, value, isInvented }) => html`<label data-text=${value}><span>${label}${isInvented ? html` <i class="origin">invented</i>` : nothing}</span>
      <textarea class="blank" rows="1" autocomplete="off" .value=${live(value)} @input=${set(key)} @blur=${settle} @keydown=${onOneLine}></textarea></label>`)}</div>
    ${bands.map(shown)}
    ${shown(origins)}
    ${switches(desk, context)}
    ${askedPanel(desk)}
    ${shown(problems)}
    ${shown(attention)}`;
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
    ${ownWorking && isTeamFile(document) ? nothing : html`<label class="switch"><input type="checkbox" .checked=${live(ownWorking)}
      @change=${() => desk.apply({ do: 'set front matter', key: 'own_working', value: ownWorking ? 'false' : 'true' })}><span>hide results until I have worked them out</span></label>`}
  </div>`;
}

/** The presses of what stands at the head. */
function handsOf(desk: Desk): HeadHands {
  return {
    place: (cellId, words) => ({ hand: placeLink(cellId, words, desk) }),
    putBack: (trials, isAll) => ({ hand: isAll ? allBackButton(trials, desk) : trials.map((trial) => backButton(trial, desk)) }),
    slipOff: (slip) => ({ hand: offButton(slip, desk) }),
    allSlipsOff: () => ({ hand: html`<button type="button" class="plain" @click=${() => allOff(desk)}>Switch all off</button>` }),
    stopComparing: () => ({ hand: html`<button type="button" class="quiet" @click=${() => stopComparing(desk)}>stop comparing</button>` }),
  };
}

function placeLink(cellId: string, words: string, desk: Desk): TemplateResult {
  return html`<button type="button" class="quiet place" @click=${() => desk.go(cellId, '')}>${words}</button>`;
}

function stopComparing(desk: Desk): void {
  desk.afterUpdate(() => requestAnimationFrame(() => document.querySelector<HTMLElement>('.title-blank')?.focus()));
  if (desk.apply({ do: 'set front matter', key: REFERENCE, value: undefined })) desk.announce('Compared with nothing any more.');
  desk.settle();
}
