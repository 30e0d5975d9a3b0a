/** Weights alike: how many of them are there. Mass in kg, or weight in N where gravity is 1. */
export interface OwnedWeight {
  readonly mass: number;
  readonly count: number;
}

/** A lever whose load is (mass·gravity·place + rest)/arm + hanging. */
export interface LeverToSet {
  readonly wanted: number;
  readonly arm: number;
  /** Moment of everything but the weight that is chosen. */
  readonly rest: number;
  /** What hangs at the specimen without any lever. */
  readonly hanging: number;
  readonly gravity: number;
  /** What carries the chosen weights on the beam, and weighs with them. */
  readonly carrier: number;
  readonly from: number;
  readonly to: number;
  /** Distance of the places where a weight can stand, from the nearest on; 0: anywhere. */
  readonly apart: number;
  /** Share of the wanted load by which another is as good. */
  readonly near: number;
}

/** A combination at its best place. */
export interface LeverSetting {
  /** How many of each weight, in the order of the list. */
  readonly counts: readonly number[];
  readonly pieces: number;
  /** Of the weights and the carrier together. */
  readonly mass: number;
  readonly place: number;
  readonly load: number;
}

export interface LeverSettings {
  /** The best first, and a few that come next. */
  readonly settings: readonly LeverSetting[];
  readonly isNear: boolean;
  /** Load with nothing of the list, not even the carrier, on the lever. */
  readonly bare: number;
  /** What it takes together at the far and at the near end of the travel; below zero where there is too much on the lever already. */
  readonly needed: { readonly least: number; readonly most: number };
  /** All of the list and the carrier, and the lightest of them with it. */
  readonly owned: { readonly least: number; readonly most: number };
}

/** Combinations beyond which they are not gone through one by one. */
export const MOST_COMBINATIONS = 200_000;
/** Settings that are told. */
const TOLD = 5;
/** Share of a sum that rounding makes at most, with room. */
const ROUNDING = 1e-12;

/** How many different combinations there are, none of them at all included. */
export function combinationsOf(owned: readonly OwnedWeight[]): number {
  return owned.reduce((product, { count }) => product * (count + 1), 1);
}

/**
 * Every combination of the weights at its best place within the travel. Near enough goes before not near enough; of those near enough the one
 * with the fewest pieces, then the lightest, which stands farthest out, where a place that is off counts least; of the others the nearest.
 */
export function leverSettings(owned: readonly OwnedWeight[], lever: LeverToSet): LeverSettings {
  const moment = (lever.wanted - lever.hanging) * lever.arm - lever.rest;
  const isNear = ({ load }: LeverSetting): boolean => off(load, lever) <= lever.near * Math.abs(lever.wanted) + rounding(lever);
  const better = (a: LeverSetting, b: LeverSetting): number => {
    const [first, second] = [isNear(a), isNear(b)];
    if (first !== second) return first ? -1 : 1;
    const byLoad = off(a.load, lever) - off(b.load, lever);
    const nearest = Math.abs(byLoad) <= rounding(lever) ? 0 : byLoad;
    return first ? a.pieces - b.pieces || a.mass - b.mass || nearest : nearest || a.pieces - b.pieces || a.mass - b.mass;
  };
  const best: LeverSetting[] = [];
  const counts = owned.map(() => 0);
  do {
    const setting = settingOf(counts, owned, lever, moment);
    const place = best.findIndex((other) => better(setting, other) < 0);
    if (place >= 0) best.splice(place, 0, setting);
    else if (best.length < TOLD) best.push(setting);
    if (best.length > TOLD) best.pop();
  } while (goesOn(counts, owned));
  const lightest = Math.min(...owned.filter(({ count }) => count > 0).map(({ mass }) => mass));
  return Object.freeze({
    settings: Object.freeze(best),
    isNear: best[0] !== undefined && isNear(best[0]),
    bare: lever.rest / lever.arm + lever.hanging,
    needed: Object.freeze({ least: moment / (lever.gravity * lever.to), most: moment / (lever.gravity * lever.from) }),
    owned: Object.freeze({
      least: lever.carrier + lightest,
      most: owned.reduce((sum, { mass, count }) => sum + mass * count, lever.carrier),
    }),
  });
}

function off(load: number, { wanted }: LeverToSet): number {
  return Math.abs(load - wanted);
}

/** Below this two loads are one: what the formula's own sum may round. */
function rounding({ wanted, hanging, rest, arm }: LeverToSet): number {
  return ROUNDING * (Math.abs(wanted) + Math.abs(hanging) + Math.abs(rest / arm));
}

/** The next combination, in place; false where it was the last. */
function goesOn(counts: number[], owned: readonly OwnedWeight[]): boolean {
  for (const [i, { count }] of owned.entries()) {
    if ((counts[i] ?? 0) < count) {
      counts[i] = (counts[i] ?? 0) + 1;
      return true;
    }
    counts[i] = 0;
  }
  return false;
}

function settingOf(counts: readonly number[], owned: readonly OwnedWeight[], lever: LeverToSet, moment: number): LeverSetting {
  let [mass, pieces] = [lever.carrier, 0];
  for (const [i, count] of counts.entries()) {
    mass += count * (owned[i]?.mass ?? 0);
    pieces += count;
  }
  const weight = mass * lever.gravity;
  const place = placeNear(weight > 0 ? moment / weight : lever.from, lever);
  return { counts: [...counts], pieces, mass, place, load: (weight * place + lever.rest) / lever.arm + lever.hanging };
}

/** The place within the travel, and among those where a weight can stand, that is nearest. */
function placeNear(place: number, { from, to, apart }: LeverToSet): number {
  if (!(apart > 0)) return Math.max(from, Math.min(to, place));
  const last = Math.floor((to - from) / apart + ROUNDING * (1 + to / apart));
  return from + apart * Math.max(0, Math.min(last, Math.round((place - from) / apart)));
}
