/**
 * Materials of the reader's own: entered once, an option in each sheet that uses them, with which they travel. What another sheet, a file or the
 * browser's storage says of one is data: it is none unless everything in it reads.
 */
import { parseMeasurement } from '../core/estimate/index.ts';
import { fail, ok, type Problem, type Result } from '../core/problem/index.ts';
import { ONE, parseUnit, sameDimension, type Unit } from '../core/units/index.ts';
import { cellsOf, type ChoiceCell, type ChoiceOption, type NewOption, type SheetDocument } from '../sheet/index.ts';

export const MATERIAL_KINDS = ['steel', 'aluminium'] as const;
export type MaterialKind = (typeof MATERIAL_KINDS)[number];

export interface OwnMaterial {
  readonly name: string;
  readonly kind: MaterialKind;
  /** Strength, yield strength, modulus and fatigue strength, as far as they are known, by symbol; each with its unit. */
  readonly values: ReadonlyMap<string, string>;
  /** As it was stated: `197 HB`. */
  readonly hardness: string;
  readonly source: string;
}

export interface MaterialValue {
  readonly symbol: string;
  readonly label: string;
  readonly unit: string;
}

/** What can be said of a material, under the symbols that the sheets have. */
export const MATERIAL_VALUES: readonly MaterialValue[] = [
  { symbol: 'S_ut', label: 'Tensile strength', unit: 'MPa' },
  { symbol: 'S_y', label: 'Yield strength', unit: 'MPa' },
  { symbol: 'E', label: 'Modulus of elasticity', unit: 'GPa' },
  { symbol: 'S_n', label: 'Fatigue strength of polished bars, rotating bending', unit: 'MPa' },
];

/** What an option is for whose steel has a known limit: then that limit counts, and no share of the strength. */
const KNOWN_LIMIT = 'steel of known limit';
export const LONGEST_NAME = 80;
const LONGEST_TEXT = 300;

/** A text for one of its values, with the unit written where only the number was typed. Problems: those of reading it, `material-not-positive`, `material-other-dimension`. */
export function readMaterialValue({ label, unit: unitText }: MaterialValue, typed: string): Result<string> {
  const unit = unitCalled(unitText);
  const text = typed.trim();
  const read = parseMeasurement(text, unit);
  if (!read.ok) return read;
  if (!sameDimension(read.value.unit.dimension, unit.dimension)) return fail(otherDimension(label, text, unitText));
  if (!read.value.readings.every((value) => Number.isFinite(value) && value > 0)) return fail(notPositive(label, text));
  // A bare number is another value in another unit.
  const inPascal = parseMeasurement(text, unitCalled('Pa'));
  const hasUnit = inPascal.ok && inPascal.value.readings[0] === read.value.readings[0];
  return ok(hasUnit ? text : withUnit(text, unitText));
}

/** Behind the number where a share of it follows: `655 MPa ± 2 %`. */
function withUnit(text: string, unit: string): string {
  const [, number, share] = /^(.*\S)\s*((?:±|\+\/?-).*%)$/u.exec(text) ?? [];
  return number === undefined || share === undefined ? `${text} ${unit}` : `${number} ${unit} ${share}`;
}

function unitCalled(text: string): Unit {
  const read = parseUnit(text);
  return read.ok ? read.value : ONE;
}

/** undefined where it is no material: no name, a kind or a value that does not read, a text beyond all measure. */
export function readMaterial(entries: ReadonlyMap<string, string>, source: string): OwnMaterial | undefined {
  const [name = '', kindText, hardness = ''] = ['name', 'kind', 'hardness'].map((key) => entries.get(key)?.trim());
  const kind = MATERIAL_KINDS.find((one) => one === kindText);
  const values = new Map<string, string>();
  for (const value of MATERIAL_VALUES) {
    const text = entries.get(value.symbol);
    const read = text === undefined ? undefined : readMaterialValue(value, text);
    if (read?.ok === false) return undefined;
    if (read !== undefined) values.set(value.symbol, read.value);
  }
  const isNone = name === '' || name.length > LONGEST_NAME || hardness.length > LONGEST_NAME || source.length > LONGEST_TEXT || !values.has('S_ut');
  return kind === undefined || isNone ? undefined : { name, kind, values, hardness, source: source.trim() };
}

/** The material that an option of a choice is; undefined for one of the sheet's own list. */
export function materialOf({ material, source = '' }: ChoiceOption): OwnMaterial | undefined {
  return material === undefined ? undefined : readMaterial(material, source);
}

export function entriesOf({ name, kind, values, hardness }: OwnMaterial): ReadonlyMap<string, string> {
  return new Map([['name', name], ['kind', kind], ...values, ...(hardness === '' ? [] : [['hardness', hardness] as const])]);
}

/** Kinds of which a material of one's own can be entered at a choice, or taken; none where it chooses no material. */
export function kindsAt({ options }: ChoiceCell): readonly MaterialKind[] {
  return MATERIAL_KINDS.filter((kind) => options.some(({ own }) => own?.includes(kind) === true));
}

/** The option from which one of this kind is made here. */
function patternFor({ options }: ChoiceCell, { kind, values }: OwnMaterial): ChoiceOption | undefined {
  const wanted = kind === 'steel' && values.has('S_n') ? KNOWN_LIMIT : kind;
  return options.find(({ own }) => own?.includes(wanted) === true);
}

/** Whether one that is kept elsewhere can be taken at a choice, where it is not among the options already. */
export function isOfferedAt(choice: ChoiceCell, material: OwnMaterial): boolean {
  const isHere = (option: ChoiceOption): boolean => {
    const here = materialOf(option);
    return here !== undefined && isCalled(material.name, here) && differencesOf(material, here).length === 0;
  };
  return patternFor(choice, material) !== undefined && !choice.options.some(isHere);
}

/** The material as an option of a choice, with what of it that sheet reads; undefined where it fits no option there. */
export function optionFor(material: OwnMaterial, choice: ChoiceCell, document: SheetDocument): Omit<NewOption, 'key'> | undefined {
  const pattern = patternFor(choice, material);
  if (pattern === undefined) return undefined;
  const read = new Set(cellsOf(document, 'given').map(({ symbol }) => symbol));
  const note = [material.hardness === '' ? '' : `Hardness ${material.hardness}.`, pattern.note ?? ''].filter((part) => part !== '').join(' ');
  return {
    label: labelAt(choice, material),
    sets: new Map([...pattern.sets, ...[...material.values].filter(([symbol]) => read.has(symbol))]),
    source: material.source,
    ...(note === '' ? {} : { note }),
    material: entriesOf(material),
  };
}

/** What it is called in the list, where another one of its name may stand already. */
export function labelAt({ options }: ChoiceCell, { name }: OwnMaterial): string {
  return options.some(({ label }) => label === name) ? `${name}, as this browser keeps it` : name;
}

/** The kind that an option of the list belongs to, by what it sets beside values. */
export function kindLike({ options }: ChoiceCell, option: ChoiceOption | undefined): MaterialKind | undefined {
  const own = option === undefined ? undefined : materialOf(option)?.kind;
  const isLike = (pattern: ChoiceOption): boolean => pattern === option || [...pattern.sets].every(([symbol, text]) => option?.sets.get(symbol) === text);
  return own ?? MATERIAL_KINDS.find((kind) => options.some((pattern) => pattern.own?.includes(kind) === true && isLike(pattern)));
}

export function isCalled(name: string, { name: other }: OwnMaterial): boolean {
  return name.trim().toLowerCase() === other.trim().toLowerCase();
}

/** Where two materials say something else, and what; '' where one says nothing of it. */
export function differencesOf(a: OwnMaterial, b: OwnMaterial): readonly { readonly label: string; readonly here: string; readonly there: string }[] {
  const said = (material: OwnMaterial): ReadonlyMap<string, string> => new Map([...entriesOf(material), ['source', material.source]]);
  const [one, other] = [said(a), said(b)];
  return [...new Set([...one.keys(), ...other.keys()])].filter((key) => key !== 'name').flatMap((key) => {
    const [here, there] = [one.get(key) ?? '', other.get(key) ?? ''];
    const label = MATERIAL_VALUES.find(({ symbol }) => symbol === key)?.label.toLowerCase() ?? key;
    return here === there ? [] : [{ label, here, there }];
  });
}

function otherDimension(label: string, text: string, unit: string): Problem {
  return { code: 'material-other-dimension', what: `${label} can't be “${text}”.`, mend: `Write it in ${unit}, or in another unit of that kind.` };
}

function notPositive(label: string, text: string): Problem {
  return { code: 'material-not-positive', what: `${label} can't be “${text}”: it is no number above zero.`, mend: 'Write what the certificate or the test says, or leave it empty.' };
}
