import type { PhotoCell } from '../../sheet/types.ts';
import type { Form } from '../form.ts';
import { besideGiven, givesEntry, givesLine } from '../gives.ts';
import { html, trusted, type Hand, type Insertion, type Markup } from '../markup.ts';
import { cellAnchor, cellMarkup, note, notesBeside, type CellTemplate } from '../parts.ts';
import { presentPhoto } from '../present/photo.ts';
import type { PresentedPhoto } from '../present/photo-types.ts';
import type { PresentContext } from '../present/types.ts';
import { photoMarks } from '../photo-marks.ts';
import { OPEN_PARTS } from '../report-part.ts';
import { factList } from '../small-table.ts';

export const photoForm: Form<PhotoCell> = {
  template: (cell, context) => photoTemplate(cell, context),
  report: (cell, context, { block }) => {
    const { picture, label, note: words, problems } = presentPhoto(cell, context);
    if (picture === undefined && problems.length === 0) return { open: { under: OPEN_PARTS, name: label }, notes: { name: label, texts: [words] } };
    return { here: cellMarkup(block.id, 'photo', photoTemplate(cell, context, 'report')) };
  },
};

interface PhotoHands {
  /** The picture as something to mark in. */
  readonly board: (photo: PresentedPhoto) => Hand;
  /** What is marked, and where pictures come from. */
  readonly tools: (photo: PresentedPhoto) => Hand;
  readonly moved: (symbol: string) => Insertion;
  /** The way to where the place of fracture is written down. */
  readonly place: (cellId: string) => Hand;
}

/** A picture with its marks over it, and what is read from them. */
export function photoTemplate(cell: PhotoCell, context: PresentContext, place?: PhotoHands | 'report'): CellTemplate {
  const isReport = place === 'report';
  const hands = place === 'report' ? undefined : place;
  const photo = presentPhoto(cell, context);
  const isThere = photo.picture !== undefined;
  return {
    notes: photo,
    state: isThere ? 'done' : 'open',
    line: html`${isThere ? halves(cell, photo, hands) : html`<p class="label">${photo.label}</p>`}
${hands?.tools(photo) ?? (!isThere && html`<p class="empty">No picture yet.</p>`)}
${isThere && html`${photo.gives.map((given) => (isReport ? givesEntry : givesLine)(given, cell.id, context))}
${factList(photo.facts)}
${photo.place !== undefined && html`<p class="broke-at">${photo.place.sentence} ${hands?.place(photo.place.cellId)}</p>`}
${photo.says.length > 0 && html`<ul class="says">${photo.says.map((sentence) => html`<li>${sentence}</li>`)}</ul><p class="untold">${photo.untold}</p>`}`}`,
    margin: [...(isReport ? [] : photo.gives.map((given) => besideGiven(given, context, hands?.moved(given.symbol)))), notesBeside(note(photo.note))],
  };
}

/** On the page the other half stands beside this one; in a report, which holds each picture once, above. */
function halves(cell: PhotoCell, photo: PresentedPhoto, hands: PhotoHands | undefined): Markup {
  const own = pictureFigure(cell, photo, hands?.board(photo));
  const { other } = photo;
  if (other === undefined || hands === undefined) return own;
  const { picture, marks, alternative, label } = other;
  return html`<div class="halves">${own}<figure>${marked(`${cell.id}-other`, picture, marks, alternative)}
<figcaption>${label}</figcaption></figure></div>`;
}

function pictureFigure(cell: PhotoCell, { picture, marks, alternative, label }: PresentedPhoto, board: Hand | undefined): Markup {
  return html`<figure>${board ?? marked(cell.id, picture, marks, alternative)}
${label !== '' && html`<figcaption>${label}</figcaption>`}</figure>`;
}

function marked(id: string, picture: PresentedPhoto['picture'], marks: PresentedPhoto['marks'], alternative: string): Markup | undefined {
  if (picture === undefined || marks === undefined) return undefined;
  return html`<div class="picture"><img src="${picture.address}" width="${picture.width}" height="${picture.height}" alt="${alternative}">${
    trusted(photoMarks({ ...marks, idPrefix: cellAnchor(id).replace(/[^A-Za-z0-9-]/g, '-') }))}</div>`;
}
