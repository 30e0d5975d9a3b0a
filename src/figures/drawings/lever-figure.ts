import { spokenSymbol } from './lettering.ts';
import type { Dimension, FigureValue, MovablePlace, Run, ValueText } from './types.ts';

/** What a value means in the drawing of a loading lever. */
export type LeverRole =
  | 'W1' | 'W2' | 'W3' | 'Wb' | 'Wc' | 'x1' | 'x2' | 'x3' | 'hanger' | 'gb' | 'hc' | 'low' | 'high' | 'F' | 'R' | 'moved' | 'wanted';

export const LEVER_ROLES: readonly LeverRole[] = [
  'W1', 'W2', 'W3', 'Wb', 'Wc', 'x1', 'x2', 'x3', 'hanger', 'gb', 'hc', 'low', 'high', 'F', 'R', 'moved', 'wanted',
];

export type LeverValues = Partial<Readonly<Record<LeverRole, FigureValue>>>;

/** A weight on the lever; metres from the fulcrum, the sliding weights' side positive. */
export interface LeverWeight {
  readonly name: 'first weight' | 'second weight' | 'third weight' | 'counterweight';
  readonly at: number;
  readonly weight: FigureValue;
}

/** A loading lever, ready to be drawn: what has no value is left out, and said. Every position is finite. */
export interface LeverFigure {
  readonly weights: readonly LeverWeight[];
  /** The beam's own weight at its centre of gravity. */
  readonly own?: { readonly at: number; readonly weight: FigureValue };
  /** The hanger, which holds the beam up with the force that it puts on the specimen. */
  readonly hanger?: { readonly at: number; readonly force: FigureValue };
  readonly reaction?: FigureValue;
  /** Ends of the travel of the sliding weights. */
  readonly travel?: { readonly from: number; readonly to: number };
  /** Where the one weight that is moved has to stand. */
  readonly wanted?: { readonly at: number; readonly now: number | undefined; readonly place: FigureValue };
  /** The counterweight's first where there is one, then by distance. */
  readonly dimensions: readonly Dimension[];
  readonly movable: readonly MovablePlace[];
  readonly notes: readonly (readonly Run[])[];
  readonly lengthText: ValueText;
}

/** Beyond this no drawing has a finite scale. */
const LARGEST = 1e100;

function known(value: FigureValue | undefined): number | undefined {
  if (value?.si === undefined || value.hidden) return undefined;
  return Number.isFinite(value.si) && Math.abs(value.si) < LARGEST ? value.si : undefined;
}

/** What is no finite number counts as missing. */
function finite(value: FigureValue): FigureValue {
  return value.hidden || known(value) !== undefined ? value : { ...value, si: undefined };
}

/** The figure of a lever from the sheet's values. A weight of nothing is not there. */
export function leverFigureFrom(values: LeverValues, lengthText: ValueText): LeverFigure {
  const dimensions: Dimension[] = [];
  const movable: MovablePlace[] = [];
  const weights: LeverWeight[] = [];
  const missing = new Set<string>();
  const need = (value: FigureValue | undefined): number | undefined => {
    if (value !== undefined && known(value) === undefined && !value.hidden) missing.add(value.symbol);
    return known(value);
  };
  const [low, high, wanted] = [known(values.low), known(values.high), known(values.wanted)];
  // The sliding weights stay on their travel.
  const travel = low === undefined || high === undefined || high < low ? { from: 0, to: Infinity } : { from: low, to: high };
  const add = (name: LeverWeight['name'], weight: FigureValue | undefined, place: FigureValue | undefined, side: 1 | -1): void => {
    if (weight === undefined || place === undefined || need(weight) === 0) return;
    const distance = need(place);
    if (distance === undefined) return;
    const at = side * distance;
    weights.push({ name, at, weight });
    dimensions.push({ from: 0, to: at, value: place });
    if (place.given === undefined) return;
    const label = `${name.charAt(0).toUpperCase()}${name.slice(1)}, ${lengthText(distance)} from the fulcrum`;
    movable.push({ name, position: at, label, moves: [{ symbol: place.given, sign: side }], reach: side === 1 ? travel : { from: -Infinity, to: 0 } });
  };
  add('counterweight', values.Wc, values.hc, -1);
  add('first weight', values.W1, values.x1, 1);
  add('second weight', values.W2, values.x2, 1);
  add('third weight', values.W3, values.x3, 1);
  const hanger = need(values.hanger);
  if (hanger !== undefined && values.hanger !== undefined) dimensions.push({ from: 0, to: hanger, value: values.hanger });
  const centre = known(values.Wb) === 0 ? undefined : need(values.gb);
  if (centre !== undefined && values.gb !== undefined) dimensions.push({ from: 0, to: centre, value: values.gb });
  return {
    weights,
    ...(centre === undefined || values.Wb === undefined ? {} : { own: { at: centre, weight: finite(values.Wb) } }),
    ...(hanger === undefined || values.F === undefined ? {} : { hanger: { at: hanger, force: finite(values.F) } }),
    ...(values.R === undefined ? {} : { reaction: finite(values.R) }),
    ...(low === undefined || high === undefined ? {} : { travel: { from: low, to: high } }),
    ...(wanted === undefined || values.wanted === undefined ? {} : { wanted: { at: wanted, now: known(values.moved), place: values.wanted } }),
    dimensions: dimensions.sort((a, b) => Math.abs(a.to) - Math.abs(b.to)),
    movable,
    notes: missing.size === 0 ? [] : [['Left out until it has a value: ', ...listed([...missing]), '.']],
    lengthText,
  };
}

function listed(symbols: readonly string[]): Run[] {
  return symbols.flatMap((symbol, index): Run[] => [index === 0 ? '' : ', ', { symbol }]);
}

/** The name of a weight for a sentence: `the first weight, W 1 = 40.00 N`. */
export function weightWords({ name, weight }: LeverWeight): string {
  return weight.text === '' ? `the ${name}` : `the ${name}, ${spokenSymbol(weight.symbol)} = ${weight.text}`;
}
