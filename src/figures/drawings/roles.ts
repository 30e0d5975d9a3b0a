import type { FigureValue } from './types.ts';

/** What a value means in the drawing of a shaft with two load points. */
export type BeamRole =
  | 'span' | 's1' | 's2' | 's3' | 'F1' | 'F2' | 'RA' | 'RB' | 'section' | 'shear' | 'moment' | 'diameter';

export type RoleValues = Partial<Readonly<Record<BeamRole, FigureValue>>>;
export type Roles = Readonly<Record<BeamRole, FigureValue>>;

/** Where things stand, metres from the left support. */
export interface Geometry {
  readonly toScale: boolean;
  readonly span: number;
  readonly leftLoad: number;
  readonly rightLoad: number;
  /** Where the last part-span ends: at the right support, but for the closure of measured spans. */
  readonly chainEnd: number;
  /** Whether the part-spans end at the right support, within their uncertainty. */
  readonly closes: boolean;
  readonly section: number | undefined;
}
