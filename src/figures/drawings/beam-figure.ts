import { movablePlaces } from './movable.ts';
import type { BeamRole, Geometry, Roles, RoleValues } from './roles.ts';
import type { BeamFigure, FigureDimension, FigureLoad, FigureValue, Run, ValueText } from './types.ts';

/** The symbol that stands for a role where the sheet names none. */
const USUAL_SYMBOLS: Readonly<Record<BeamRole, string>> = {
  span: 'L', s1: 's_1', s2: 's_2', s3: 's_3', F1: 'F_1', F2: 'F_2', RA: 'R_A', RB: 'R_B',
  section: 'x_s', shear: 'V_s', moment: 'M_s', diameter: 'd',
};

export interface FigureTexts {
  readonly lengthText: ValueText;
  /** For shear forces that have no symbol of their own in the sheet. */
  readonly shearText: ValueText;
  readonly momentText: ValueText;
}

/** Stands in for spans that are missing: recognisable, and said to be not to scale. */
const SCHEMATIC = { toScale: false, closes: true, span: 1, leftLoad: 0.22, rightLoad: 0.78, chainEnd: 1 } as const;

/**
 * The figure of a shaft on two supports with two load points, from the sheet's values.
 * @param values by role; the part-spans s1, s2, s3 run left to right, `section` counts from the left support. A role may be left out:
 * `section` with `shear` and `moment`, or `diameter`, are then not drawn; the others are said to be missing.
 */
export function beamFigureFrom(values: RoleValues, texts: FigureTexts): BeamFigure {
  const roles = complete(values);
  const geometry = geometryOf(roles, values.section !== undefined);
  const loads: FigureLoad[] = [
    { position: geometry.leftLoad, force: roles.F1 },
    { position: geometry.rightLoad, force: roles.F2 },
  ];
  return {
    toScale: geometry.toScale,
    closes: geometry.closes,
    span: geometry.span,
    loads,
    reactions: { left: roles.RA, right: roles.RB },
    dimensions: dimensionsOf(roles, geometry),
    ...(geometry.section === undefined
      ? {} : { section: { position: geometry.section, shear: roles.shear, moment: roles.moment } }),
    ...(values.diameter === undefined ? {} : { diameter: roles.diameter }),
    movable: geometry.toScale ? movablePlaces(roles, geometry, texts.lengthText) : [],
    notes: notesOf(values, roles, geometry, texts.lengthText),
    missing: (['span', 's1', 's2', 'F1', 'F2', 'RA', 'RB'] as const)
      .filter((role) => roles[role].si === undefined && !roles[role].hidden).map((role) => roles[role].symbol),
    ...texts,
  };
}

/** Every role filled; what is no finite number counts as missing. */
function complete(values: RoleValues): Roles {
  const fill = (role: BeamRole): FigureValue => {
    const value = values[role];
    if (!value) return { si: undefined, text: '', symbol: USUAL_SYMBOLS[role], hidden: false };
    return value.si === undefined || Number.isFinite(value.si) ? value : { ...value, si: undefined };
  };
  return {
    span: fill('span'), s1: fill('s1'), s2: fill('s2'), s3: fill('s3'), F1: fill('F1'), F2: fill('F2'),
    RA: fill('RA'), RB: fill('RB'), section: fill('section'), shear: fill('shear'), moment: fill('moment'),
    diameter: fill('diameter'),
  };
}

/** A length that may show in the scale of the drawing. */
function known(value: FigureValue): number | undefined {
  return value.hidden ? undefined : value.si;
}

function geometryOf(roles: Roles, withSection: boolean): Geometry {
  const [s1, s2, s3, section] = [known(roles.s1), known(roles.s2), known(roles.s3), known(roles.section)];
  const span = known(roles.span) ?? (s1 !== undefined && s2 !== undefined && s3 !== undefined ? s1 + s2 + s3 : undefined);
  const ofSection = withSection ? section : undefined;
  const schematic = { ...SCHEMATIC, section: withSection ? 0.5 : undefined };
  if (s1 === undefined || s2 === undefined || span === undefined) return schematic;
  const rightLoad = s1 + s2;
  const chainEnd = s3 === undefined ? span : rightLoad + s3;
  const drawable = span > 1e-100 && span < 1e100 && [s1, rightLoad, chainEnd, ofSection ?? 0].every(Number.isFinite);
  return drawable ? { toScale: true, span, leftLoad: s1, rightLoad, chainEnd, closes: isClosed(roles, span, chainEnd), section: ofSection } : schematic;
}

/** As the sheet asks of the closure: zero within twice its uncertainty, and for the last bits of the arithmetic. */
function isClosed({ span, s1, s2, s3 }: Roles, length: number, chainEnd: number): boolean {
  const variance = [span, s1, s2, s3].reduce((sum, { uncertainty = 0 }) => sum + (Number.isFinite(uncertainty) ? uncertainty ** 2 : 0), 0);
  return Math.abs(chainEnd - length) <= 2 * Math.sqrt(variance) + 1e-9 * length;
}

function dimensionsOf(roles: Roles, at: Geometry): FigureDimension[] {
  const section: FigureDimension[] = at.section === undefined
    ? [] : [{ line: 'section', from: 0, to: at.section, value: roles.section }];
  return [
    ...section,
    { line: 'chain', from: 0, to: at.leftLoad, value: roles.s1 },
    { line: 'chain', from: at.leftLoad, to: at.rightLoad, value: roles.s2 },
    { line: 'chain', from: at.rightLoad, to: at.chainEnd, value: roles.s3 },
    { line: 'overall', from: 0, to: at.span, value: roles.span },
  ];
}

function notesOf(values: RoleValues, roles: Roles, at: Geometry, lengthText: ValueText): (readonly Run[])[] {
  const notes: (readonly Run[])[] = [];
  const drawn = (Object.keys(roles) as BeamRole[]).filter((role) => role in values || !['section', 'shear', 'moment', 'diameter'].includes(role));
  const absent = drawn.filter((role) => roles[role].si === undefined && !roles[role].hidden);
  if (absent.length > 0) {
    const list = absent.flatMap((role, index): Run[] => [index === 0 ? '' : ', ', { symbol: roles[role].symbol }]);
    notes.push([at.toScale ? 'No value yet for ' : 'Not to scale. No value yet for ', ...list, '.']);
  } else if (!at.toScale) {
    notes.push(['Not to scale: ', { symbol: roles.span.symbol }, ' has to be a length above zero, and the other lengths of its size.']);
  }
  if (!at.toScale) return notes;
  if (!at.closes) {
    const off = at.chainEnd - at.span;
    notes.push([`The part-spans add up to ${lengthText(Math.abs(off))} ${off > 0 ? 'more' : 'less'} than `, { symbol: roles.span.names ?? roles.span.symbol }, '.']);
  }
  const outside = (position: number) => position < 0 || position > at.span;
  if (outside(at.leftLoad)) notes.push(['The left load point stands outside the supports.']);
  if (outside(at.rightLoad)) notes.push(['The right load point stands outside the supports.']);
  if (at.rightLoad < at.leftLoad) notes.push(['The load points have changed places: ', { symbol: roles.s2.symbol }, ' is below zero.']);
  if (at.section !== undefined && outside(at.section)) notes.push(['The section lies outside the supports.']);
  return notes;
}
