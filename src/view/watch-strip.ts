import { nothing } from 'lit-html';
import { presentWatch } from '../report/index.ts';
import type { Desk } from './desk.ts';
import type { Part } from './parts.ts';
import { html } from './template.ts';

/** At the foot of the window, wherever the page is scrolled to: what must not be missed, each with the way to it. */
export function watchStrip(desk: Desk): Part {
  const watched = presentWatch(desk.context());
  if (watched.length === 0) return nothing;
  return html`<div class="foot-strip watch-strip" role="region" aria-label="Not to be missed"><ul>${watched.map(({ cellId, words }) => html`<li><button
    type="button" class="press" @click=${() => desk.go(cellId, '')}>${words}</button></li>`)}</ul></div>`;
}
