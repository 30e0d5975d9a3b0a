import { nothing } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { ref } from 'lit-html/directives/ref.js';
import { BORDER_SHAPES, type BorderShape } from '../../core/mechanics/index.ts';
import type { Result } from '../../core/problem/index.ts';
import { photoTemplate, type PresentedPhoto } from '../../report/index.ts';
import { templateCell, type EditCommand, type MarkKey, type PhotoCell } from '../../sheet/index.ts';
import { movedHand } from '../cells/shift.ts';
import type { Desk } from '../desk.ts';
import { hand, partId, templateParts, type LineParts, type Part } from '../parts.ts';
import { boardAt, STEP_OF_ENLARGING } from '../photo/board.ts';
import { addOtherHalf, pointsOf, scaleLength, setPicture, setPoints, setScaleLength, setShape, setTurned } from '../photo/mark-edit.ts';
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
    place: (cellId) => hand(html`<button type="button" class="quiet place" @click=${() => desk.go(cellId, '')}>Where it broke</button>`),
  });
  return templateParts(cell.id, template, desk.ui(cell.id).refused);
}

function markingTools(cell: PhotoCell, desk: Desk): Part {
  const { mode } = desk.ui(cell.id).photo;
  const mark = (next: MarkKey | undefined): void => desk.changeUi(cell.id, (ui) => void (ui.photo.mode = next));
  return html`${mode === undefined ? nothing : markingActions(cell, mode, mark, desk)}
    <div class="marking-tools" role="group" aria-label="Mark in the picture">${MODES.map(({ key, button }) =>
      html`<button type="button" class="quiet" aria-pressed=${key === mode ? 'true' : 'false'} @click=${() => mark(key === mode ? undefined : key)}>${button}</button>`)}</div>
    ${mode === undefined ? nothing : markingHelp(cell, mode, desk)}
    ${sizeButtons(cell, desk)}`;
}

/** Right below the picture, where the finger is: what comes next, once there is enough of this, and the ways back. */
function markingActions(cell: PhotoCell, mode: MarkKey, mark: (next: MarkKey | undefined) => void, desk: Desk): Part {
  const points = pointsOf(cell, mode);
  const next = points.length < ENOUGH[mode] ? undefined : MODES[MODES.findIndex(({ key }) => key === mode) + 1];
  const apply = applying(cell, desk);
  return html`<p class="marking-actions">${next === undefined ? nothing : html`<button type="button" class="press" @click=${() => mark(next.key)}>Next: ${next.button.toLowerCase()}</button>`}${
    points.length === 0 ? nothing : html`<button type="button" class="quiet" @click=${() => apply(setPoints(cell, mode, points.slice(0, -1)), 'The last point is taken out.')}>Take the last point out</button>
      <button type="button" class="quiet" @click=${() => apply(setPoints(cell, mode, []), 'Begun anew.')}>Begin anew</button>`}</p>`;
}

/** So many points, and the next mark may follow. */
const ENOUGH: Readonly<Record<MarkKey, number>> = { scale: 2, outline: 3, final: 3, origins: 1 };

type Apply = (command: EditCommand, said: string) => void;

function applying(cell: PhotoCell, desk: Desk): Apply {
  return (command, said) => {
    desk.settle();
    if (desk.apply(command, cell.id)) desk.announce(said);
    desk.settle();
  };
}

function markingHelp(cell: PhotoCell, mode: MarkKey, desk: Desk): Part {
  const apply = applying(cell, desk);
  return html`<p class="how" id=${partId(cell.id, 'how')}>${MODES.find(({ key }) => key === mode)?.how} Tap a place; a point that was tapped can be dragged, and a finger held still shows the place enlarged. Two fingers enlarge the picture, or the wheel with Ctrl. With the keyboard: arrows move a cross, Enter marks, Page Down takes the next point, Delete takes it out, plus and minus enlarge.</p>
    ${mode === 'scale' ? html`<p class="scale-length"><label>Length between the two points <input class="blank" type="text" autocomplete="off" placeholder="8 mm"
      .value=${scaleLength(cell)} @change=${(event: Event) => event.target instanceof HTMLInputElement && apply(setScaleLength(cell, event.target.value), 'Length set.')}></label></p>` : nothing}
    ${mode === 'outline' || mode === 'final' ? shapeChoice(cell, mode, apply) : nothing}`;
}

/** For who has neither two fingers nor a wheel. */
function sizeButtons(cell: PhotoCell, desk: Desk): Part {
  const board = (): ReturnType<typeof boardAt> | undefined => {
    const element = desk.element(cell.id)?.querySelector('.board');
    return element instanceof HTMLElement ? boardAt(element) : undefined;
  };
  return html`<p class="picture-size" role="group" aria-label="How large the picture is"><button type="button" class="quiet" @click=${() => board()?.enlarge(STEP_OF_ENLARGING)}>Larger</button>
    <button type="button" class="quiet" @click=${() => board()?.enlarge(1 / STEP_OF_ENLARGING)}>Smaller</button>
    <button type="button" class="quiet" @click=${() => board()?.whole()}>Whole picture</button></p>`;
}

const SHAPE_WORDS: Readonly<Record<BorderShape, string>> = { circle: 'a circle', ellipse: 'an ellipse', corners: 'straight from point to point' };

/** How the border goes between its points. */
function shapeChoice(cell: PhotoCell, mode: 'outline' | 'final', apply: Apply): Part {
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
    // What comes next is to mark it, which begins by itself.
    if (await replace(cell, desk, takePicture(file), (text) => setPicture(cell, text), 'The picture is in the sheet. Mark points around the rim of the section.')) {
      desk.changeUi(cell.id, (ui) => void (ui.photo.mode = 'outline'));
    }
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
  const otherHalf = (): void => {
    desk.settle();
    // A name of its own, which goes on being its name whatever is put above it.
    desk.apply({ do: 'set key', cellId: cell.id, key: 'id', value: cell.id }, cell.id);
    if (desk.apply(addOtherHalf(cell), cell.id)) desk.announce('A place for the picture of the other half is below.');
    desk.settle();
  };
  return html`<p class="picture-tools"><input type="file" class="visually-hidden" id=${inputId} accept="image/*" ?disabled=${isReading}
      @change=${(event: Event) => event.target instanceof HTMLInputElement && void take(event.target)}><label class="button" for=${inputId}>${
      isReading ? 'Reading …' : photo.picture === undefined ? 'Bring in a picture' : 'Another picture in its place'}</label>
    ${photo.picture === undefined ? html`<span class="how">A photograph of the fracture surface, taken square-on, with a rule in it and the light from one side. Place, time and all else that the camera writes beside the picture are left out.</span>`
    : html`<button type="button" class="quiet" @click=${() => turn('left')}>Turn left</button>
      <button type="button" class="quiet" @click=${() => turn('right')}>Turn right</button>
      ${cell.halfOf === undefined ? html`<button type="button" class="quiet" @click=${otherHalf}>The other half beside it</button>` : nothing}
      <button type="button" class="quiet" @click=${another}>Another picture of this specimen</button>`}</p>`;
}

/** What stands in the sheet stays until there is something to stand in its place. @returns whether there is */
async function replace(cell: PhotoCell, desk: Desk, reading: Promise<Result<string>>, command: (text: string) => EditCommand, said: string): Promise<boolean> {
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
  return taken.ok;
}
