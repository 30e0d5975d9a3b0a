import { nothing } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { presentRequirements, type PresentedBudget, type PresentedRequirement } from '../../report/index.ts';
import type { Desk } from '../desk.ts';
import { setEquation } from '../equations.ts';
import { partId, problemLine, raised, type Part } from '../parts.ts';
import { html } from '../template.ts';

/** A blank for the uncertainty that a result should have, and what each input would have to become for that. */
export function whatItTakes({ symbol, symbolTex, total, rows }: PresentedBudget, blockId: string, desk: Desk): Part {
  const wanted = desk.ui(blockId).budget.wanted.get(symbol) ?? '';
  const [id, helpId, answerId] = ['wanted', 'wanted-help', 'wanted-answer'].map((part) => partId(blockId, `${part}-${symbol}`));
  const type = (event: Event): void => {
    if (!(event.target instanceof HTMLInputElement)) return;
    const typed = event.target.value;
    desk.changeUi(blockId, ({ budget }) => void budget.wanted.set(symbol, typed));
  };
  const tell = (): void => {
    const said = desk.element(blockId)?.querySelector(`#${CSS.escape(answerId ?? '')} .summary`);
    if (said) desk.announce(said.textContent.trim());
  };
  return html`<div class="what-it-takes">
    <p class="form"><label for=${id ?? nothing}>What would it take? Wanted <span ${setEquation(`u(${symbolTex})`)}></span></label>
      <input class="blank" id=${id ?? nothing} type="text" autocomplete="off" autocapitalize="off" spellcheck="false" enterkeyhint="done"
        aria-describedby=${`${helpId} ${answerId}`} .value=${live(wanted)} @input=${type} @change=${tell}></p>
    <p class="help" id=${helpId ?? nothing}>A standard uncertainty with its unit, or a percentage of the value. Now it is ${raised(total.uncertainty)}${total.relative === undefined ? '' : `, ${total.relative}`}.</p>
    <div id=${answerId ?? nothing}>${wanted.trim() === '' ? nothing : answer(symbol, wanted, rows.length, desk)}</div></div>`;
}

function answer(symbol: string, wanted: string, inputs: number, desk: Desk): Part {
  const told = presentRequirements(symbol, wanted, desk.context());
  if (told === undefined) return nothing;
  if (!told.ok) return html`<div class="summary">${problemLine(told.problem)}</div>`;
  const { wanted: read, isMet, together, rows } = told.value;
  const able = rows.filter(({ can }) => can).length;
  return html`<p class="summary">${raised(read)} ${summary(isMet, able, inputs, together)}</p>
    <ul>${rows.map((row) => html`<li class=${row.can ? 'can' : 'cannot'}>${nameOf(row)} ${raised(row.sentence)}</li>`)}</ul>`;
}

function summary(isMet: boolean, able: number, inputs: number, together: string): string {
  if (isMet) return 'The result is that certain already. Each input alone could be worse by this much, with the others as they are:';
  if (able > 0) return 'One input alone would have to be this certain, with the others as they are:';
  return inputs === 1 ? '' : `No input can do it alone. All of them together would have to be ${together} times as uncertain as they are.`;
}

function nameOf({ inputs }: PresentedRequirement): Part {
  return html`${inputs.map(({ inputTex, words }, i) => html`${i === 0 ? '' : i === inputs.length - 1 ? ' and ' : ', '}<span ${setEquation(inputTex)}></span><span class="visually-hidden"> ${words}</span>`)}`;
}
