import type { TemplateResult } from 'lit-html';
import { html } from '../view/index.ts';
import { foldByEscape, saysId } from './folding.ts';
import type { HeadActions, PanelName } from './head-state.ts';

/** What each word of the head does, in a sentence. */
const SAYS = {
  sheets: ['Sheets', 'The sheets kept in this browser, their earlier states, and what another sheet can start from.'],
  takeaways: ['Take away', 'This sheet as a report to hand in, as a working file to go on with elsewhere, as text or drawings, or printed; and for a class as a file for each team.'],
  'bring in': ['Bring in', 'Reads the sheet out of a file as data. Use it for files that come back to you: a working file that is opened runs as a program.'],
  hold: ['Hold', 'Holds the sheet as it stands under a name: later changes, or another sheet, are then compared with it.'],
  slips: ['Slips', 'Common mistakes to switch on one by one: the sheet shows what each does to the results.'],
  lecture: ['Lecture', 'The sheet step by step in large letters, for the wall (F8); Escape ends it.'],
  words: ['What these do', 'What each of these words does, in a sentence.'],
} as const;

/** A control of the head with what it does below it, seen with the pointer or the focus and heard with its name. */
export function explained(name: keyof typeof SAYS, control: TemplateResult): TemplateResult {
  return html`<span class="word word-${name.replace(' ', '-')}">${control}<span class="word-says" role="tooltip" id=${saysId(name)}>${SAYS[name][1]}</span></span>`;
}

/** All of them at once, for fingers, which do not hover. */
export function wordsTemplate(): TemplateResult {
  return html`<dl class="head-words">${Object.values(SAYS).slice(0, -1).map(([word, says]) => html`<div><dt>${word}</dt><dd>${says}</dd></div>`)}</dl>`;
}

/** What the page is, told at the example that it is delivered with. */
export function firstWords(actions: HeadActions): TemplateResult {
  return html`<p class="first-words">A sheet for the bending-fatigue laboratory: from the spans you measure to the stress at the thinnest section and the life to expect. Here with an invented example.
    <button type="button" @click=${startBlank(actions)}>Start my own blank sheet</button>
    <button type="button" title="Goes to the blank that moves the results most: change it and watch them" @click=${actions.takeALook}>Take a look</button></p>`;
}

/** The button goes with the example: who came with the keyboard stands before the way to the first blank. */
function startBlank(actions: HeadActions): (event: Event) => void {
  return ({ currentTarget }) => {
    const button = currentTarget as HTMLElement;
    if (button.matches(':focus-visible')) button.closest('.head')?.querySelector<HTMLElement>('.past-head')?.focus();
    actions.start({ sheet: 'rotating', hasExample: false });
  };
}

/** Escape folds up what is unfolded, and takes away what stands below a word until another one is come to. */
export function hearDeskKey(unfolded: PanelName | undefined, actions: HeadActions): (event: KeyboardEvent) => void {
  const fold = foldByEscape(unfolded, actions);
  return (event) => {
    if (event.key === 'Escape' && event.currentTarget instanceof HTMLElement) event.currentTarget.dataset['quiet'] = '';
    fold(event);
  };
}

export function sayAgain({ currentTarget }: Event): void {
  if (currentTarget instanceof HTMLElement) delete currentTarget.dataset['quiet'];
}
