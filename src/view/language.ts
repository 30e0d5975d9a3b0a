import { render, type TemplateResult } from 'lit-html';
import { keyed } from 'lit-html/directives/keyed.js';
import { FUNCTIONS } from '../core/formula/index.ts';
import { quoted } from '../report/index.ts';
import { entryWords, SECTIONS, type KeyEntry, type Section } from '../sheet/index.ts';
import { html, shown } from './template.ts';

/** The language of the sheet as help at its foot: what each kind of cell takes, and the functions of formulas. */
export function languageHelp(): TemplateResult {
  return html`<details class="keys language"><summary>Language of the sheet</summary>
    <p class="help">What stands in a line’s own text: its menu opens it.</p>
    ${SECTIONS.map((section) => opened(section.name, () => sectionTables(section)))}
    ${opened('functions of formulas', functionTable)}
  </details>`;
}

/** The same for one kind, beside the open text of a cell. */
export function languageOf(kind: string): TemplateResult | undefined {
  const section = SECTIONS.find(({ name }) => name === kind);
  return section && html`${keyed(kind, html`<div class="keys language">${opened(`What a ${kind} takes`, () => sectionTables(section))}</div>`)}`;
}

/** Drawn when it is opened first: all tables together are longer than most sheets. */
function opened(title: string, content: () => TemplateResult): TemplateResult {
  const draw = ({ currentTarget }: Event): void => {
    const place = currentTarget instanceof HTMLDetailsElement && currentTarget.open ? currentTarget.querySelector<HTMLElement>('.language-part') : null;
    if (place !== null) render(content(), place);
  };
  return html`<details @toggle=${draw}><summary>${title}</summary><div class="language-part"></div></details>`;
}

function sectionTables({ says, tables }: Section): TemplateResult {
  return html`<p>${says}</p>${tables.map((table, i) => html`<table>
    <caption>${shown(quoted(table.title))}${i > 0 && table.says !== '' ? html`. <span class="help">${shown(quoted(table.says))}</span>` : ''}</caption>
    <thead><tr><th scope="col">Key</th><th scope="col">What it says</th></tr></thead>
    <tbody>${Object.entries(table.keys).map(([key, entry]) => keyRow(key, entry))}</tbody></table>`)}`;
}

function keyRow(key: string, entry: KeyEntry): TemplateResult {
  const { takes, absent, wrong } = entryWords(entry);
  return html`<tr><th scope="row"><code>${key}</code></th><td>${entry.means}
    <p class="help">Takes ${shown(quoted(takes))} ${shown(quoted(absent))}${wrong === undefined ? '' : html` Told where it is wrong, as with ${shown(quoted(wrong))}`}</p></td></tr>`;
}

function functionTable(): TemplateResult {
  return html`<table><thead><tr><th scope="col">Function</th><th scope="col">What it gives</th></tr></thead>
    <tbody>${FUNCTIONS.map((one) => html`<tr><th scope="row"><code>${one.name}(${one.arguments})</code></th><td>${one.help}</td></tr>`)}</tbody></table>`;
}
