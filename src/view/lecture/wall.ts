import { cellIn } from '../../sheet/index.ts';
import { nothing, type TemplateResult } from 'lit-html';
import { isSymbolHidden, numberSheet, presentSymbol, presentTitleBlock, symbolOf } from '../../report/index.ts';
import type { Desk } from '../desk.ts';
import { setEquation } from '../equations.ts';
import { movedMark, resultText, type Part } from '../parts.ts';
import { html } from '../template.ts';
import type { Chapter, LectureOrder, Station } from './order.ts';

type Go = (blockId: string) => void;

/** The sheet's own page: its title, and who works on what. */
export function titlePage(desk: Desk): TemplateResult {
  const { title, fields } = presentTitleBlock(desk.context().document);
  return html`<div class="lecture-title"><h1>${title}</h1>
    <dl>${fields.filter(({ value }) => value.trim() !== '').map(({ label, value }) => html`<div><dt>${label}</dt><dd>${value}</dd></div>`)}</dl></div>`;
}

/** Every step of the sheet as one line with its result, section by section; each is a way to it. */
export function chain({ stations, chapters }: LectureOrder, here: string, desk: Desk, go: Go): TemplateResult {
  const groups = inChapters(chapters, stations.filter(({ id }) => stepAt(id, desk) !== undefined));
  if (groups.length === 0) return html`<p class="lecture-none">There is no step on this sheet.</p>`;
  return html`<div class="lecture-chain">${groups.map(({ chapter, members }) => html`<section>
    <h2>${chapterWords(chapter)}</h2><ol>${members.map(({ id, name }) => html`<li>${link(id, name, here, desk, go)}</li>`)}</ol></section>`)}</div>`;
}

function link(id: string, name: string, here: string, desk: Desk, go: Go): Part {
  const symbol = stepAt(id, desk);
  if (symbol === undefined) return nothing;
  const context = desk.context();
  const number = numberSheet(context.document).equations.get(id) ?? '';
  const result = presentSymbol(symbol, context);
  const shown = isSymbolHidden(symbol, context)
    ? html`<span class="withheld">?</span>`
    : result?.kind === 'value' ? resultText(result) : html`<span class="range">${result?.kind === 'range' && result.word !== 'open' ? result.word : '–'}</span>`;
  return html`<button type="button" title=${name} aria-current=${id === here ? 'step' : nothing} @click=${() => go(id)}>
    <span class="number">(${number})</span> <span class="visually-hidden">${name}: </span><span class="equals"><span ${setEquation(`${symbolOf(symbol)} =`)}></span> ${shown}</span></button>${movedMark(desk.moved(symbol))}`;
}

function stepAt(id: string, desk: Desk): string | undefined {
  return cellIn(desk.block(id), 'step')?.symbol;
}

/** All sections, and the stations of the one at hand, to go to any of them. @param look opens another section */
export function overview({ stations, chapters }: LectureOrder, here: string, go: Go, look: Go): TemplateResult {
  return html`<div class="lecture-overview">${inChapters(chapters, stations).map(({ chapter, members: [first, ...members] }) => {
    const isOpen = first?.id === here || members.some(({ id }) => id === here);
    return html`<section>
    <h2>${first === undefined ? nothing : html`<button type="button" aria-current=${first.id === here ? 'step' : nothing} aria-expanded=${String(isOpen)}
      @click=${() => (isOpen ? go : look)(first.id)}>${chapterWords(chapter)}</button>`}</h2>${!isOpen || members.length === 0 ? nothing : html`<ol>${members.map(({ id, name }) => html`<li><button type="button" aria-current=${id === here ? 'step' : nothing}
      @click=${() => go(id)}>${name}</button></li>`)}</ol>`}</section>`;
  })}</div>`;
}

export function chapterWords({ number, name }: Chapter): string {
  return `${number} ${name}`.trim();
}

function inChapters(chapters: readonly Chapter[], stations: readonly Station[]) {
  return chapters.flatMap((chapter, i) => {
    const members = stations.filter((station) => station.chapter === i);
    return members.length === 0 ? [] : [{ chapter, members }];
  });
}
