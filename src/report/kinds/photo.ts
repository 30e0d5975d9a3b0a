import type { PhotoCell } from '../../sheet/types.ts';
import type { Form } from '../form.ts';
import { html, math, trusted, type Markup } from '../markup.ts';
import { cellAnchor, note, type CellTemplate } from '../parts.ts';
import { presentPhoto } from '../present/photo.ts';
import type { PresentContext, PresentedPhoto } from '../present/types.ts';
import { photoMarks } from '../photo-marks.ts';

export const photoForm: Form<PhotoCell> = { template: photoTemplate };

/** A picture with its marks over it, and what is read from them. */
function photoTemplate(cell: PhotoCell, context: PresentContext): CellTemplate {
  const photo = presentPhoto(cell, context);
  return {
    notes: photo,
    state: photo.picture === undefined ? 'open' : 'done',
    line: html`${pictureFigure(cell, photo)}
${photo.gives.map(givenResult)}
${photo.facts.length > 0 && html`<dl class="facts">${photo.facts.map(({ name, text }) => html`<div><dt>${name}</dt><dd>${text}</dd></div>`)}</dl>`}
${photo.says.length > 0 && html`<ul class="says">${photo.says.map((sentence) => html`<li>${sentence}</li>`)}</ul><p class="untold">${photo.untold}</p>`}`,
    margin: [note(photo.note)],
  };
}

function pictureFigure(cell: PhotoCell, { picture, marks, alternative, label }: PresentedPhoto): Markup {
  if (picture === undefined || marks === undefined) return html`<p class="label">${label}</p><p class="empty">No picture yet.</p>`;
  const idPrefix = `${cellAnchor(cell.id).replace(/[^A-Za-z0-9-]/g, '-')}`;
  return html`<figure><div class="picture"><img src="${picture.address}" width="${picture.width}" height="${picture.height}" alt="${alternative}">${trusted(photoMarks({ ...marks, idPrefix }))}</div>
${label !== '' && html`<figcaption>${label}</figcaption>`}</figure>`;
}

function givenResult({ prefixTex, result, hidden }: PresentedPhoto['gives'][number]): Markup {
  if (hidden) return html`<div class="result">${math(prefixTex)} <span class="withheld">after your own working</span></div>`;
  switch (result.kind) {
    case 'value': return html`<div class="result">${math(prefixTex)} <span class="double-underlined">${math(result.tex)}</span></div>`;
    case 'range': return html`<div class="result">${math(prefixTex)} <span class="range">${result.text}</span></div>`;
    case 'problem': return html``;
  }
}
