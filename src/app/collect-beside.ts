import { nothing, type TemplateResult } from 'lit-html';
import { composed } from '../core/problem/index.ts';
import { nameOf, VERDICT_WORDS, type ReturnedSheet } from '../returns/index.ts';
import { html } from '../view/index.ts';
import type { CollectActions } from './collect-types.ts';

/** One returned sheet as words and figures beside the table: what it says, and its text. It is not opened, and nothing in it is run. */
export function besideTable(sheet: ReturnedSheet, actions: CollectActions): TemplateResult {
  const { head, files, isAltered, answers, values, checks, tests, remarks, troubles } = sheet;
  const failing = checks.filter(({ holds }) => holds === false);
  return html`<section class="collect-beside" aria-label=${composed`The sheet of ${nameOf(sheet)}`}>
    <h2 tabindex="-1">${nameOf(sheet)}</h2>
    <p class="help">${[head.operators, head.specimen, head.machine, head.date, head.variant === '' ? '' : `numbers ${head.variant}`, files.join(', ')].filter((part) => part !== '').map((part, i) => html`${i === 0 ? '' : ' · '}${part}`)}</p>
    ${isAltered ? html`<p class="refused">Its sheet was altered after it was taken away: it is not the one whose fingerprint the file states.</p>` : nothing}
    <p><button type="button" @click=${() => actions.openAsSheet(sheet.id)}>Bring it in as a sheet</button> <button type="button" @click=${() => actions.lay(undefined)}>Close</button></p>
    ${answers.length === 0 ? nothing : html`<h3>Own results</h3><ul class="collect-list">${answers.map(({ symbol, label, isQuestion, typed, earlier, verdict, sentence, comesOf, right }) => html`<li>
      <span class="collect-what">${isQuestion ? label : html`${label}, ${symbol}`}</span> <span>${typed === '' ? VERDICT_WORDS[verdict] : html`<span class="collect-typed">${typed}</span>, ${VERDICT_WORDS[verdict]}`}</span>
      <span class="help">${[earlier.length === 0 ? '' : `Tried before: ${earlier.join('; ')}.`, sentence, comesOf.length === 0 ? '' : `Comes of: ${comesOf.join('; or ')}.`, right === '' ? '' : `The sheet has ${right}.`].filter((part) => part !== '').map((part) => html`${part} `)}</span></li>`)}</ul>`}
    ${values.length === 0 ? nothing : html`<h3>Entered</h3><ul class="collect-list">${values.map(({ symbol, label, typed, text }) => html`<li><span class="collect-what">${label}, ${symbol}</span> <span>${text}</span> <span class="help">typed: ${typed}</span></li>`)}</ul>`}
    ${failing.length === 0 ? nothing : html`<h3>Checks that do not hold</h3><ul class="collect-list">${failing.map(({ label, message }) => html`<li><span class="collect-what">${label}</span> <span>${message}</span></li>`)}</ul>`}
    ${tests.length === 0 ? nothing : html`<h3>Test</h3><ul class="collect-list">${tests.map(({ label, phase, outcome, row }) => html`<li><span class="collect-what">${label}</span> <span>${[phase, outcome, row === undefined ? '' : `${row.get('N')?.text ?? ''} cycles`].filter((part) => part !== '').join(', ')}</span></li>`)}</ul>`}
    ${remarks.map(({ heading, text }) => html`<h3>${heading}</h3><p class="collect-written">${text}</p>`)}
    ${troubles.length === 0 ? nothing : html`<h3>Wrong in it</h3><ul class="collect-list">${troubles.slice(0, MOST_TROUBLES).map((trouble) => html`<li>${trouble}</li>`)}</ul>`}
    <details><summary>The sheet’s text</summary><pre>${sheet.text}</pre></details>
  </section>`;
}

const MOST_TROUBLES = 20;
