import { nothing } from 'lit-html';
import { presentWatch, runningTests } from '../report/index.ts';
import type { Desk } from './desk.ts';
import type { Part } from './parts.ts';
import { elsewhereStrip } from './record/elsewhere.ts';
import { clockTold } from './record/clock-told.ts';
import { runningStrip } from './record/running-strip.ts';
import type { StripParts } from './record/strip-parts.ts';
import { html } from './template.ts';

/** At the foot of the window, wherever the page is scrolled to: what must not be missed, each with the way to it. @param draw draws it anew */
export function watchStrip(desk: Desk, parts: StripParts, draw: () => void): Part {
  const running = runningTests(desk.context().document);
  const watched = presentWatch(desk.context());
  const others = parts.elsewhere?.tests().length ?? 0;
  if (running.length + others + watched.length === 0) return nothing;
  return html`<div class="foot-strip watch-strip ${running.length + others === 0 ? '' : 'runs'}" role="region" aria-label="Not to be missed">${running[0] === undefined ? nothing : clockTold(running[0], parts.clock, desk, draw)}
    ${running.map((cell) => runningStrip(cell, desk, draw))}
    ${parts.elsewhere === undefined ? nothing : elsewhereStrip(parts.elsewhere, () => desk.session.now())}
    ${watched.length === 0 ? nothing : html`<ul>${watched.map(({ cellId, words }) => html`<li><button type="button" class="press"
      @click=${() => desk.go(cellId, '')}>${words}</button></li>`)}</ul>`}</div>`;
}
