import { nothing } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { ref } from 'lit-html/directives/ref.js';
import { BORDER_SHAPES, type BorderShape } from '../../core/mechanics/index.ts';
import type { Result } from '../../core/problem/index.ts';
import { photoTemplate, type PresentedPhoto } from '../../report/index.ts';
import { templateCell, type EditCommand, type PhotoCell } from '../../sheet/index.ts';
import { movedHand } from '../cells/shift.ts';
import type { Desk } from '../desk.ts';
import { hand, partId, templateParts, type LineParts, type Part } from '../parts.ts';
import { boardAt } from '../photo/board.ts';
import { pointsOf, scaleLength, setPicture, setPoints, setScaleLength, setShape, setTurned } from '../photo/mark-edit.ts';
import { MODES } from '../photo/photo-ui.ts';
import { takePicture, turnPicture } from '../photo/take-picture.ts';
import { html } from '../template.ts';

/** A picture to mark in, what is read from the marks, and what that suggests. */
export function photoParts(cell: PhotoCell, desk: Desk): LineParts {
  const { mode } = desk.ui(cell.id).photo;
  const template = photoTemplate(cell, desk.context(), {
    board: (photo) => hand(html`<div class="picture board" ${ref((element) => element instanceof HTMLElement && boardAt(element).show({ cell, photo, mode, desk }))}></div>`),
    tools: (photo) => hand(html`${photo.picture === undefined ? nothing : markingTools(cell, desk)}${bringIn(cell, photo, desk)}`),
    moved: (symbol) => movedHand(symbol, desk),
  });
  return templateParts(cell.id, template, desk.ui(cell.id).refused);
}

function markingTools(cell: PhotoCell, desk: Desk): Part {
  const { mode } = desk.ui(cell.id).photo;
  return html`<div class="marking-tools" role="group" aria-label="Mark in the picture">${MODES.map(({ key, button }) =>
      html`<button type="button" class="quiet" aria-pressed=${key === mode ? 'true' : 'false'} @click=${() => desk.changeUi(cell.id, (ui) => void (ui.photo.mode = key === mode ? undefined : key))}>${button}</button>`)}</div>
    ${markingHelp(cell, desk)}`;
}

function markingHelp(cell: PhotoCell, desk: Desk): Part {
  const { mode } = desk.ui(cell.id).photo;
  const words = MODES.find(({ key }) => key === mode);
  if (mode === undefined || words === undefined) return nothing;
  const points = pointsOf(cell, mode);
  const apply = (command: EditCommand, said: string): void => {
    desk.settle();
    if (desk.apply(command, cell.id)) desk.announce(said);
    desk.settle();
  };
  return html`<p class="how" id=${partId(cell.id, 'how')}>${words.how} Tap a place, or drag a point to move it. With the keyboard: arrows move a cross, Enter marks, Page Down takes the next point, Delete takes it out.</p>
    ${mode === 'scale' ? html`<p class="scale-length"><label>Length between the two points <input class="blank" type="text" autocomplete="off" placeholder="8 mm"
      .value=${scaleLength(cell)} @change=${(event: Event) => event.target instanceof HTMLInputElement && apply(setScaleLength(cell, event.target.value), 'Length set.')}></label></p>` : nothing}
    ${mode === 'outline' || mode === 'final' ? shapeChoice(cell, mode, apply) : nothing}
    <p class="marking-actions">${points.length === 0 ? nothing : html`<button type="button" class="quiet" @click=${() => apply(setPoints(cell, mode, points.slice(0, -1)), 'The last point is taken out.')}>Take the last point out</button>
      <button type="button" class="quiet" @click=${() => apply(setPoints(cell, mode, []), 'Begun anew.')}>Begin anew</button>`}</p>`;
}

const SHAPE_WORDS: Readonly<Record<BorderShape, string>> = { circle: 'a circle', ellipse: 'an ellipse', corners: 'straight from point to point' };

/** How the border goes between its points. */
function shapeChoice(cell: PhotoCell, mode: 'outline' | 'final', apply: (command: EditCommand, said: string) => void): Part {
  const chosen = mode === 'outline' ? cell.outlineShape : cell.finalShape;
  return html`<fieldset class="border-shape"><legend>Its border is</legend>${BORDER_SHAPES.map((shape) => html`<label><input type="radio" name=${partId(cell.id, `${mode}-shape`)}
    .checked=${live(shape === chosen)} @change=${() => apply(setShape(cell, mode, shape), `The border is ${SHAPE_WORDS[shape]}.`)}> ${SHAPE_WORDS[shape]}</label>`)}</fieldset>`;
}

/** One button for a file or the camera; the others once there is a picture. */
function bringIn(cell: PhotoCell, photo: PresentedPhoto, desk: Desk): Part {
  const { isReading } = desk.ui(cell.id).photo;
  const inputId = partId(cell.id, 'file');
  const take = async (input: HTMLInputElement): Promise<void> => {
    const file = input.files?.[0];
    if (file === undefined) return;
    await replace(cell, desk, takePicture(file), (text) => setPicture(cell, text), 'The picture is in the sheet.');
    input.value = '';
  };
  const turn = (to: 'right' | 'left'): void => {
    const { picture: stored } = photo;
    const image = desk.element(cell.id)?.querySelector('img');
    if (stored === undefined || !image) return;
    void replace(cell, desk, turnPicture(image, to), (text) => setTurned(cell, text, to, stored), `Turned to the ${to}, and the marks with it.`);
  };
  const another = (): void => {
    const source = templateCell('photo', desk.context().document);
    desk.apply({ do: 'insert', after: cell.id, source }, cell.id);
    desk.announce('A place for another picture is below.');
  };
  return html`<p class="picture-tools"><input type="file" class="visually-hidden" id=${inputId} accept="image/*" ?disabled=${isReading}
      @change=${(event: Event) => event.target instanceof HTMLInputElement && void take(event.target)}><label class="button" for=${inputId}>${
      isReading ? 'Reading …' : photo.picture === undefined ? 'Bring in a picture' : 'Another picture in its place'}</label>
    ${photo.picture === undefined ? html`<span class="how">A photograph of the fracture surface, taken square-on, with a rule in it and the light from one side. Place, time and all else that the camera writes beside the picture are left out.</span>`
    : html`<button type="button" class="quiet" @click=${() => turn('left')}>Turn left</button>
      <button type="button" class="quiet" @click=${() => turn('right')}>Turn right</button>
      <button type="button" class="quiet" @click=${another}>Another picture of this specimen</button>`}</p>`;
}

/** What stands in the sheet stays until there is something to stand in its place. */
async function replace(cell: PhotoCell, desk: Desk, reading: Promise<Result<string>>, command: (text: string) => EditCommand, said: string): Promise<void> {
  desk.changeUi(cell.id, (ui) => void (ui.photo.isReading = true));
  const taken = await reading;
  desk.changeUi(cell.id, (ui) => {
    ui.photo.isReading = false;
    ui.refused = taken.ok ? undefined : taken.problem;
  });
  desk.settle();
  if (taken.ok) desk.apply(command(taken.value), cell.id);
  desk.settle();
  desk.announce(taken.ok ? said : `${taken.problem.what} ${taken.problem.mend}`);
}
