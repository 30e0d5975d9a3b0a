/** The range of one axis. */
export interface AxisScale {
  readonly type: 'log' | 'linear';
  readonly domain: readonly [low: number, high: number];
}

/** Whether a value has a place on the axis: those that no double can scale beside the others have none. */
export function isOn({ domain: [low, high] }: AxisScale, value: number): boolean {
  return value >= low && value <= high;
}

/** A figure at a tick: plain, or `times` a power of ten. */
export interface Tick {
  readonly value: number;
  /** Absent for a tick without a figure. */
  readonly label?: { readonly text: string } | { readonly times: number; readonly power: number };
}

/** Doubles hold no more; a chart of such values is still a chart. */
const [LEAST, MOST] = [1e-300, 1e300];

/**
 * A logarithmic axis around these values, with room on either side, ending at 1, 2 or 5 times a power of ten.
 * @param room factor left free below and above
 */
export function logScale(values: Iterable<number>, room: readonly [number, number], usual: readonly [number, number]): AxisScale {
  let [low, high] = [Infinity, 0];
  for (const value of values) {
    if (!(value >= LEAST && value <= MOST)) continue;
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  if (!(high >= low)) [low, high] = usual;
  return { type: 'log', domain: [roundDown(low / room[0]), roundUp(high * room[1])] };
}

function roundDown(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  return [5, 2, 1].map((factor) => factor * power).find((round) => round <= value * (1 + 1e-9)) ?? value;
}

function roundUp(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  return [1, 2, 5, 10].map((factor) => factor * power).find((round) => round >= value * (1 - 1e-9)) ?? value;
}

/** A linear axis around these values with a share of their range left free on both sides. */
export function linearScale(values: Iterable<number>, room: number, usual: readonly [number, number]): AxisScale {
  let [low, high] = [Infinity, -Infinity];
  for (const value of values) {
    if (!(Math.abs(value) <= MOST)) continue;
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  if (!(high >= low)) [low, high] = usual;
  const spread = high - low > 1e-9 * Math.max(Math.abs(low), Math.abs(high)) ? high - low : Math.max(Math.abs(high) * 0.2, 1e-9);
  return { type: 'linear', domain: [low - room * spread, high + room * spread] };
}

/** Powers of ten with the marks between them; figures at 2 and 5 times a power too where there are few powers. */
export function powerTicks({ domain: [low, high] }: AxisScale, mostLabels: number): readonly Tick[] {
  const [first, last] = [Math.floor(Math.log10(low) + 1e-9), Math.ceil(Math.log10(high) - 1e-9)];
  const inside = (value: number): boolean => value >= low * (1 - 1e-9) && value <= high * (1 + 1e-9);
  const powers = Array.from({ length: last - first + 1 }, (_, i) => first + i);
  const seen = powers.filter((power) => inside(10 ** power));
  const every = Math.max(1, Math.ceil(seen.length / mostLabels));
  const labelled = seen.length < 2 ? [1, 2, 5] : [1];
  const between = every > 1 || powers.length > 12 ? [1] : [1, 2, 3, 4, 5, 6, 7, 8, 9];
  return powers.flatMap((power) => between.flatMap((times): Tick[] => {
    const value = Number(`${times}e${power}`);
    if (!inside(value)) return [];
    return [labelled.includes(times) && power % every === 0 ? { value, label: { times, power } } : { value }];
  }));
}

/** Round values with plain figures, about `count` of them; also along a logarithmic axis of less than a decade or so. */
export function roundTicks(scale: AxisScale, count: number): readonly Tick[] {
  const [low, high] = scale.domain;
  if (scale.type === 'log' && high / low > 20) return powerTicks(scale, count);
  const rough = (high - low) / Math.max(1, count);
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((factor) => factor * power >= rough) ?? 10) * power;
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const start = Math.ceil(low / step - 1e-9);
  const length = Math.max(0, Math.floor(high / step + 1e-9) - start + 1);
  return Array.from({ length: Math.min(length, 50) }, (_, i) => {
    const value = (start + i) * step;
    return { value, label: { text: plainFigure(value, decimals) } };
  });
}

function plainFigure(value: number, decimals: number): string {
  if (decimals > 6 || Math.abs(value) >= 1e7) return value.toExponential(2).replace('e+', 'e').replaceAll('-', '\u2212');
  const digits = Math.abs(value).toFixed(decimals);
  const grouped = digits.length < 5 || decimals > 0 ? digits : digits.replace(/\B(?=(\d{3})+$)/g, '\u202f');
  return value < 0 && Number(digits) !== 0 ? `\u2212${grouped}` : grouped;
}
