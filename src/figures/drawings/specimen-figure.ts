import { diameterAt, nominalBendingStress, profileReach, solidRound, type Profile } from '../../core/mechanics/index.ts';
import type { FigureValue, MovablePlace, Run, ValueText } from './types.ts';

/** What a value means in the drawing of the stress along a specimen. */
export type SpecimenRole =
  | 'diameter' | 'grip' | 'radius' | 'flat' | 'moment' | 'shear' | 'amplitude' | 'test' | 'fracture' | 'stress';

export const SPECIMEN_ROLES: readonly SpecimenRole[] = [
  'diameter', 'grip', 'radius', 'flat', 'moment', 'shear', 'amplitude', 'test', 'fracture', 'stress',
];

export type SpecimenValues = Partial<Readonly<Record<SpecimenRole, FigureValue>>>;

export interface StressPoint {
  /** Metres from the waist, towards the right support. */
  readonly position: number;
  /** Nominal stress amplitude, Pa. */
  readonly stress: number;
}

/** The stress along a specimen, ready to be drawn; lengths in metres from the waist. */
export interface SpecimenFigure {
  readonly profile?: Profile;
  /** Least and nominal values for the words. */
  readonly diameter?: FigureValue;
  readonly grip?: FigureValue;
  /** Where the profile reaches the grip. */
  readonly reach: number;
  /** Length of the test section, centred on the waist. */
  readonly test?: number;
  readonly fracture?: { readonly at: number; readonly stress: FigureValue };
  /** Stress at a place, where the moment is known and may be seen. */
  readonly stressAt?: (position: number) => number;
  readonly withheld: boolean;
  readonly movable: readonly MovablePlace[];
  readonly notes: readonly (readonly Run[])[];
  readonly lengthText: ValueText;
  readonly stressText: ValueText;
}

/** Proportions beyond these can't be drawn. */
const DRAWABLE = { smallest: 1e-9, largest: 1e6 };

function known(value: FigureValue | undefined): number | undefined {
  return value?.si === undefined || value.hidden || !Number.isFinite(value.si) ? undefined : value.si;
}

/** The figure from the sheet's values: the moment changes along the specimen by the shear, as between two load points. */
export function specimenFigureFrom(values: SpecimenValues, texts: { readonly lengthText: ValueText; readonly stressText: ValueText }): SpecimenFigure {
  const profile = profileOf(values);
  const [moment, shear, at] = [known(values.moment), known(values.shear) ?? 0, known(values.fracture)];
  const withheld = values.moment?.hidden === true || values.amplitude?.hidden === true;
  const test = known(values.test);
  const seen = profile !== undefined && moment !== undefined && !withheld && Math.abs(moment) < 1e9 && Math.abs(shear) < 1e9;
  // Arcs or test section, and as much of the grips as they are thick.
  const half = profile === undefined ? Infinity : Math.max(profileReach(profile), Math.abs(test ?? 0) / 2) + profile.grip;
  const inReach = (length: number): boolean => profile !== undefined && Math.abs(length) < 50 * profile.grip;
  return {
    ...(profile === undefined ? {} : { profile }),
    ...(values.diameter === undefined ? {} : { diameter: values.diameter }),
    ...(values.grip === undefined ? {} : { grip: values.grip }),
    reach: profile === undefined ? 0 : profileReach(profile),
    ...(test === undefined || test <= 0 || !inReach(test) ? {} : { test }),
    ...(at === undefined || values.stress === undefined || !inReach(at) ? {} : { fracture: { at, stress: values.stress } }),
    ...(seen ? { stressAt: (x: number) => nominalBendingStress(moment + shear * x, solidRound(diameterAt(profile, x))) } : {}),
    withheld,
    movable: movableFracture(values.fracture, at, half, texts.lengthText),
    notes: profile === undefined ? [['The drawing needs a least diameter, a radius and a grip diameter that is not smaller.']] : [],
    ...texts,
  };
}

function profileOf(values: SpecimenValues): Profile | undefined {
  const [diameter, grip, radius] = [known(values.diameter), known(values.grip), known(values.radius)];
  const flat = values.flat === undefined ? 0 : known(values.flat);
  if (diameter === undefined || grip === undefined || radius === undefined || flat === undefined) return undefined;
  const drawable = [diameter, radius].every((length) => length > DRAWABLE.smallest && length < DRAWABLE.largest)
    && grip >= diameter && grip < 100 * diameter && flat >= 0 && flat < 100 * diameter && radius < 1e4 * diameter;
  return drawable ? { diameter, grip, radius, flat } : undefined;
}

function movableFracture(value: FigureValue | undefined, at: number | undefined, half: number, lengthText: ValueText): MovablePlace[] {
  if (value?.given === undefined || at === undefined) return [];
  const side = at === 0 ? 'at the waist' : `${lengthText(Math.abs(at))} to the ${at > 0 ? 'right' : 'left'} of the waist`;
  return [{ name: 'fracture', position: at, label: `Fracture, ${side}`, moves: [{ symbol: value.given, sign: 1 }], reach: { from: -half, to: half } }];
}

const ARC_STEPS = 16;

/** Places at which the curves are drawn, the ends of the cylindrical part and of the arcs among them. */
export function placesAlong({ profile, reach }: SpecimenFigure, half: number): readonly number[] {
  const steps = 120;
  const even = Array.from({ length: steps + 1 }, (_, step) => half * ((2 * step) / steps - 1));
  const flat = profile?.flat ?? 0;
  // Evenly in angle over each arc, so that a small one is round, too.
  const radius = profile?.radius ?? 1;
  const opening = Math.asin(Math.min(1, (reach - flat) / radius));
  const arc = Array.from({ length: ARC_STEPS + 1 }, (_, step) => flat + radius * Math.sin((opening * step) / ARC_STEPS));
  const bends = [0, ...arc, ...arc.map((place) => -place)].filter((place) => Math.abs(place) <= half);
  return [...new Set([...even, ...bends])].sort((a, b) => a - b);
}

/** The greatest stress in magnitude along the stretch, nearest to the waist where several places reach it. */
export function greatestStress(figure: SpecimenFigure, half: number): StressPoint | undefined {
  const { stressAt } = figure;
  if (stressAt === undefined) return undefined;
  const points = placesAlong(figure, half).map((position) => ({ position, stress: stressAt(position) }));
  return points.reduce<StressPoint | undefined>((best, point) => {
    if (best === undefined) return point;
    const gain = Math.abs(point.stress) / Math.abs(best.stress) - 1;
    return gain > 1e-9 || (Math.abs(gain) <= 1e-9 && Math.abs(point.position) < Math.abs(best.position)) ? point : best;
  }, undefined);
}
