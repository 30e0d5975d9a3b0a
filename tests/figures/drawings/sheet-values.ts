import { beamFigureFrom, type BeamFigure, type BeamRole, type FigureValue } from '../../../src/figures/drawings/index.ts';

/** The measured quantities of a rotating-bending set-up, SI. */
export interface SetUp {
  readonly L: number;
  readonly s1: number;
  readonly s2: number;
  readonly s3: number;
  readonly F1: number;
  readonly F2: number;
  readonly xs: number;
  readonly d: number;
}

/** Invented: a four-point set-up whose spans close exactly. */
export const SYMMETRIC: SetUp = { L: 0.45, s1: 0.1, s2: 0.25, s3: 0.1, F1: 200, F2: 200, xs: 0.225, d: 6.31e-3 };
export const UNEQUAL: SetUp = { ...SYMMETRIC, s1: 0.08, s2: 0.2, s3: 0.17, F1: 300, F2: 120, xs: 0.2 };

export const mm = (si: number) => `${(si * 1e3).toFixed(1)} mm`;
export const newtons = (si: number) => `${si.toFixed(1)} N`;
export const newtonMetres = (si: number) => `${si.toFixed(2)} N·m`;

const GIVENS: ReadonlySet<BeamRole> = new Set(['span', 's1', 's2', 's3', 'section', 'diameter']);

/** The values as a sheet with the formulas of the statics textbook would hand them over. */
export function sheetValues(
  { L, s1, s2, s3, F1, F2, xs, d }: SetUp, hidden: readonly BeamRole[] = [],
): Record<BeamRole, FigureValue> {
  const RA = (F1 * (s2 + s3) + F2 * s3) / L;
  const RB = (F1 * s1 + F2 * (s1 + s2)) / L;
  const shear = RA - (xs >= s1 ? F1 : 0) - (xs >= s1 + s2 ? F2 : 0);
  const moment = RA * xs - F1 * Math.max(0, xs - s1) - F2 * Math.max(0, xs - s1 - s2);
  const value = (role: BeamRole, si: number, symbol: string, text: (si: number) => string): FigureValue => ({
    si, text: text(si), symbol, hidden: hidden.includes(role), ...(GIVENS.has(role) ? { given: symbol } : {}),
  });
  return {
    span: value('span', L, 'L', mm), s1: value('s1', s1, 's_1', mm), s2: value('s2', s2, 's_2', mm), s3: value('s3', s3, 's_3', mm),
    F1: value('F1', F1, 'F_1', newtons), F2: value('F2', F2, 'F_2', newtons),
    RA: value('RA', RA, 'R_A', newtons), RB: value('RB', RB, 'R_B', newtons),
    section: value('section', xs, 'x_s', mm), shear: value('shear', shear, 'V_s', newtons),
    moment: value('moment', moment, 'M_s', newtonMetres), diameter: value('diameter', d, 'd', mm),
  };
}

export const TEXTS = { lengthText: mm, shearText: newtons, momentText: newtonMetres };

export function figureOf(setUp: SetUp, hidden: readonly BeamRole[] = []): BeamFigure {
  return beamFigureFrom(sheetValues(setUp, hidden), TEXTS);
}
