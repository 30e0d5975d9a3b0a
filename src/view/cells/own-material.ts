import { nothing } from 'lit-html';
import { composed, problemSentence } from '../../core/problem/index.ts';
import {
  differencesOf, isCalled, isOfferedAt, kindLike, kindsAt, labelAt, LONGEST_NAME, MATERIAL_KINDS, MATERIAL_VALUES, materialOf, optionFor, readMaterialValue,
  type MaterialKind, type OwnMaterial,
} from '../../graph/index.ts';
import { definingCell } from '../../report/index.ts';
import { cellIn, type ChoiceCell, type EditCommand, type GivenCell } from '../../sheet/index.ts';
import { setGiven } from '../commands.ts';
import type { Desk } from '../desk.ts';
import { partId, type Part } from '../parts.ts';
import { blanksOf, givenText } from '../readings.ts';
import { html } from '../template.ts';
import { freshKey, quantityText } from './own-option.ts';

const KIND_WORDS: Readonly<Record<MaterialKind, string>> = { steel: 'steel', aluminium: 'wrought aluminium alloy' };
const HELP: Readonly<Record<string, string>> = {
  S_ut: 'such as 655 MPa ± 2 %',
  S_n: 'the endurance limit of a steel, where it is known; of aluminium at 5·10⁸ cycles',
  hardness: 'such as 197 HB',
  source: 'certificate, test or handbook',
};

/** The material of one's own that is chosen and where it is kept, and the form in which another is entered; nothing where the choice chooses no material. */
export function ownMaterial(cell: ChoiceCell, desk: Desk): Part {
  if (kindsAt(cell).length === 0) return nothing;
  const open = desk.ui(cell.id).open.has('own option');
  const formId = partId(cell.id, 'own-material');
  return html`<div class="own-option">${keptWhere(cell, desk)}
    <button type="button" class="quiet unfold-own" aria-expanded=${String(open)} aria-controls=${open ? formId : nothing} @click=${() => (open ? close(cell, desk) : unfold(cell, desk))}>enter a material of your own</button>
    ${open ? form(cell, desk, formId) : nothing}</div>`;
}

/** Materials that this browser keeps and that can be taken here, under what they are called in the list. */
export function offeredMaterials(cell: ChoiceCell, desk: Desk): readonly { readonly value: string; readonly label: string; readonly material: OwnMaterial }[] {
  if (desk.materials === undefined || kindsAt(cell).length === 0) return [];
  return desk.materials.all().filter((material) => isOfferedAt(cell, material)).map((material) => {
    const keys = new Set(cell.options.map(({ key }) => key));
    let value = `browser: ${material.name}`;
    while (keys.has(value)) value += ' ';
    return { value, label: labelAt(cell, material), material };
  });
}

/** Puts a material into the list of this sheet, with which it travels from now on, and chooses it. */
export function chooseMaterial(material: OwnMaterial, cell: ChoiceCell, desk: Desk, typed: readonly GivenCell[] = []): boolean {
  const option = optionFor(material, cell, desk.session.document());
  if (option === undefined) return false;
  const key = freshKey(material.name, cell);
  const commands: EditCommand[] = [
    { do: 'add option', cellId: cell.id, option: { key, ...option } },
    { do: 'choose', cellId: cell.id, option: key },
    ...typed.map((given) => setGiven(given, { value: undefined, readings: undefined })),
  ];
  desk.settle();
  if (!desk.apply({ do: 'together', commands }, cell.id)) return false;
  desk.settle();
  return true;
}

/** Whether the chosen material, where it is one's own, is in this browser too; and where the browser keeps another one of its name, what differs. */
function keptWhere(cell: ChoiceCell, desk: Desk): Part {
  const chosen = cell.options.find(({ key }) => key === cell.chosen);
  const own = chosen === undefined ? undefined : materialOf(chosen);
  if (own === undefined) return nothing;
  const told = desk.ui(cell.id).materialTold.get('');
  const trouble = told === undefined ? nothing : html`<p class="problem" role="alert">${told}</p>`;
  const { materials } = desk;
  if (materials === undefined) return html`<p class="help">A material of your own, kept with this sheet.</p>`;
  const there = materials.all().find((one) => isCalled(own.name, one));
  const press = (words: string, done: string, work: () => boolean): Part => html`<button type="button" class="quiet" @click=${() => carryOut(work, done, cell, desk)}>${words}</button>`;
  if (there === undefined) {
    return html`<p class="help kept-where">A material of your own, kept with this sheet and not in this browser.
      ${press('keep it for all sheets', composed`${own.name} is kept in this browser.`, () => materials.keep(own))}</p>${trouble}`;
  }
  const differences = differencesOf(own, there);
  if (differences.length === 0) {
    return html`<p class="help kept-where">A material of your own, kept with this sheet and in this browser.
      ${press('take it out of the browser', composed`${own.name} is kept with this sheet only.`, () => materials.drop(own.name))}</p>${trouble}`;
  }
  const said = (text: string): string => (text === '' ? 'nothing' : text);
  return html`<p class="changed">This browser keeps another ${composed`“${there.name}”`}:
      ${differences.map(({ label, here, there: other }, i) => html`${i === 0 ? '' : '; '}${label} ${said(other)} there, ${said(here)} here`)}. Neither was changed.</p>
    <p class="help kept-where">${isOfferedAt(cell, there) ? press('use the browser’s here', composed`${there.name} as this browser keeps it is chosen.`, () => chooseMaterial(there, cell, desk)) : nothing}
      ${press('keep this one in the browser instead', composed`${own.name} is kept in this browser as it is here.`, () => materials.keep(own, true))}</p>${trouble}`;
}

function carryOut(work: () => boolean, done: string, cell: ChoiceCell, desk: Desk): void {
  const isDone = work();
  desk.changeUi(cell.id, (ui) => void (ui.materialTold = isDone ? new Map() : new Map([['', 'This browser did not keep it: it refused, or its list of materials is full.']])));
  if (isDone) desk.announce(done);
  desk.element(cell.id)?.querySelector<HTMLElement>('.unfold-own')?.focus();
}

/** What the form begins with: what is typed over the chosen material with what else it says, or nothing. */
interface Beginning {
  readonly kind: MaterialKind;
  readonly values: ReadonlyMap<string, string>;
}

function beginning(cell: ChoiceCell, desk: Desk): Beginning {
  const chosen = cell.options.find(({ key }) => key === cell.chosen);
  const kinds = kindsAt(cell);
  const kind = kindLike(cell, chosen) ?? kinds[0] ?? MATERIAL_KINDS[0];
  const typed = typedValues(desk);
  if (typed.length === 0) return { kind, values: new Map() };
  const known = MATERIAL_VALUES.flatMap(({ symbol }) => {
    const text = chosen?.sets.get(symbol);
    return text === undefined ? [] : [[symbol, text] as const];
  });
  return { kind, values: new Map([...known, ...typed.map((given) => [given.symbol, quantityText(given, desk)] as const)]) };
}

/** Values of a material that are typed in this sheet. */
function typedValues(desk: Desk): readonly GivenCell[] {
  return MATERIAL_VALUES.flatMap(({ symbol }) => {
    const given = cellIn(definingCell(symbol, desk.context()), 'given');
    return given !== undefined && blanksOf(givenText(given)).length > 0 ? [given] : [];
  });
}

function form(cell: ChoiceCell, desk: Desk, id: string): Part {
  const { kind, values } = beginning(cell, desk);
  const told = desk.ui(cell.id).materialTold;
  const enter = (event: Event): void => {
    event.preventDefault();
    if (event.target instanceof HTMLFormElement) keep(new FormData(event.target), cell, desk);
  };
  const leave = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape') return;
    event.preventDefault();
    close(cell, desk);
  };
  const field = (name: string, label: string, begins = '', unit = ''): Part => {
    const [fieldId, said, help] = [`${id}-${name}`, told.get(name), HELP[name] ?? ''];
    return html`<label class="field" for=${fieldId}><span>${label}${unit === '' ? nothing : html` <span class="unit">in ${unit}</span>`}</span>
      <input type="text" id=${fieldId} name=${name} value=${begins} autocomplete="off" autocapitalize="off" spellcheck="false" maxlength=${name === 'source' ? 300 : LONGEST_NAME}
        aria-invalid=${said === undefined ? nothing : 'true'} aria-describedby=${said === undefined ? (help === '' ? nothing : `${fieldId}-help`) : `${fieldId}-told`}></label>
      ${said === undefined ? (help === '' ? nothing : html`<p class="help" id="${`${fieldId}-help`}">${help}</p>`) : html`<p class="help problem" id="${`${fieldId}-told`}">${said}</p>`}`;
  };
  return html`<form class="measured" id=${id} novalidate aria-label="A material of your own" @submit=${enter} @keydown=${leave}><div class="fields">
      ${field('name', 'Name')}
      <label class="field" for=${`${id}-kind`}><span>Kind</span><select id=${`${id}-kind`} name="kind">${kindsAt(cell).map((one) => html`<option value=${one} ?selected=${one === kind}>${KIND_WORDS[one]}</option>`)}</select></label>
      ${MATERIAL_VALUES.map(({ symbol, label, unit }) => field(symbol, label, values.get(symbol) ?? '', unit))}
      ${field('hardness', 'Hardness')}${field('source', 'Source')}
    </div><p class="take-actions"><button type="submit" class="plain">keep and choose it</button> <button type="button" class="plain" @click=${() => close(cell, desk)}>close</button></p></form>`;
}

/** Nothing that is typed is lost where something of it does not read: it stays in its field, with what is said of it. */
function keep(data: FormData, cell: ChoiceCell, desk: Desk): void {
  const text = (name: string): string => {
    const entry = data.get(name);
    return typeof entry === 'string' ? entry.trim() : '';
  };
  const told = new Map<string, string>();
  const values = new Map<string, string>();
  for (const value of MATERIAL_VALUES) {
    if (text(value.symbol) === '') continue;
    const read = readMaterialValue(value, text(value.symbol));
    if (read.ok) values.set(value.symbol, read.value);
    else told.set(value.symbol, problemSentence(read.problem));
  }
  const kind = MATERIAL_KINDS.find((one) => one === text('kind')) ?? MATERIAL_KINDS[0];
  const material: OwnMaterial = { name: text('name'), kind, values, hardness: text('hardness'), source: text('source') };
  const nameTold = nameTrouble(material, cell, desk);
  if (nameTold !== '') told.set('name', nameTold);
  if (text('S_ut') === '') told.set('S_ut', 'It is empty: a material needs its tensile strength.');
  if (material.source === '') told.set('source', 'It is empty: say where the values come from.');
  desk.changeUi(cell.id, (ui) => void (ui.materialTold = told));
  if (told.size > 0) return void desk.element(cell.id)?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus();
  if (!chooseMaterial(material, cell, desk, typedValues(desk))) return;
  const isKept = desk.materials?.keep(material) ?? false;
  close(cell, desk);
  desk.announce(composed`${material.name} is kept with this sheet${isKept ? ' and in this browser' : ''}, and chosen.`);
}

/** One name means one material, in this sheet and in this browser: nothing is written over. */
function nameTrouble(material: OwnMaterial, { options }: ChoiceCell, { materials }: Desk): string {
  const { name } = material;
  if (name === '') return 'It is empty: give it a name under which you will know it.';
  if (options.some(({ label }) => label.trim().toLowerCase() === name.toLowerCase())) return 'This sheet has a material of that name. Give this one another name.';
  const there = materials?.all().find((one) => isCalled(name, one));
  return there !== undefined && differencesOf(material, there).length > 0 ? 'This browser keeps a material of that name with other values. Give this one another name, or choose that one from the list.' : '';
}

function unfold(cell: ChoiceCell, desk: Desk): void {
  desk.changeUi(cell.id, (ui) => {
    ui.open.add('own option');
    ui.materialTold = new Map();
  });
  desk.element(cell.id)?.querySelector<HTMLInputElement>('.own-option input')?.focus();
}

function close(cell: ChoiceCell, desk: Desk): void {
  desk.changeUi(cell.id, (ui) => {
    ui.open.delete('own option');
    ui.materialTold = new Map();
  });
  desk.element(cell.id)?.querySelector<HTMLElement>('.unfold-own')?.focus();
}
