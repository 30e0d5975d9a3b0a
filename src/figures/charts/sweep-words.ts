import type { SweepData, SweepPanel, SweptGap } from './sweep-types.ts';

/** What the sweep shows, with its numbers. */
export function sweepSentence(data: SweepData): string {
  const { against, places } = data;
  const [from, to] = [places[0], places.at(-1)];
  if (from === undefined || to === undefined || data.panels.length === 0) return 'There is nothing to draw yet.';
  if (data.panels.every(({ values }) => values.every(Number.isNaN))) return `There is nothing to draw yet: ${data.panels[0]?.gaps[0]?.words ?? 'no result has a value'}.`;
  const now = data.present === undefined ? [] : [`The dot marks the sheet as it is, at ${against.text(data.present)}.`];
  const hasBand = data.panels.some(({ lower, upper }) => lower.some((value, i) => value < (upper[i] ?? value)));
  return [
    `Against “${against.words}” from ${against.text(from)} to ${against.text(to)}:`,
    `${data.panels.map((panel) => courseOf(data, panel)).join('; ')}.`,
    ...gapsTold(data),
    ...now,
    ...data.turns.map(({ words }) => words),
    ...(hasBand ? ['The wash is one standard uncertainty to either side, to first order.'] : []),
    ...(data.note === undefined ? [] : [data.note]),
  ].join(' ');
}

/** `Nominal stress amplitude falls from 732 MPa to 217 MPa`, or between which values it goes. */
function courseOf({ against, places }: SweepData, { axis, values }: SweepPanel): string {
  const there = [...values.keys()].filter((i) => !Number.isNaN(values[i]));
  const [first, last] = [there[0], there.at(-1)];
  if (first === undefined || last === undefined) return `${axis.words} has no value anywhere`;
  const value = (i: number): number => values[i] ?? Number.NaN;
  const place = (i: number): string => `${axis.text(value(i))} at ${against.text(places[i] ?? Number.NaN)}`;
  const least = there.reduce((best, i) => (value(i) < value(best) ? i : best), first);
  const most = there.reduce((best, i) => (value(i) > value(best) ? i : best), first);
  const spread = value(most) - value(least);
  if (spread <= 1e-9 * Math.max(Math.abs(value(most)), Math.abs(value(least)))) return `${axis.words} stays ${axis.text(value(first))}`;
  if (least === first && most === last) return `${axis.words} rises from ${axis.text(value(first))} to ${axis.text(value(last))}`;
  if (most === first && least === last) return `${axis.words} falls from ${axis.text(value(first))} to ${axis.text(value(last))}`;
  return `${axis.words} is least, ${place(least)}, and greatest, ${place(most)}`;
}

/** Each gap once, with the names of all results that have it. */
function gapsTold({ against, places, panels }: SweepData): string[] {
  const [first, last] = [places[0], places.at(-1)];
  const gaps = new Map<string, SweptGap & { readonly names: string[] }>();
  for (const { axis, gaps: own } of panels) {
    for (const gap of own) {
      const key = `${against.text(gap.from)} ${against.text(gap.to)} ${gap.words}`;
      const known = gaps.get(key);
      if (known === undefined) gaps.set(key, { ...gap, names: [axis.words] });
      else known.names.push(axis.words);
    }
  }
  return [...gaps.values()].map(({ from, to, words, names }) => {
    const what = names.length === panels.length && names.length > 1 ? 'none of them has a value' : `${names.map((name) => `“${name}”`).join(' and ')} ${names.length > 1 ? 'have' : 'has'} no value`;
    const where = from === first && to === last ? 'Anywhere here' : from === first ? `Up to ${against.text(to)}` : to === last ? `From ${against.text(from)} on` : `From ${against.text(from)} to ${against.text(to)}`;
    return `${where} ${what}: ${words}.`;
  });
}

/** The chart in one paragraph, its sentence at the end. */
export function sweepDescription({ against, panels }: SweepData, sentence: string): string {
  const each = panels.map(({ axis, scale }) => `${axis.words}${axis.unit === '' ? '' : ` in ${axis.unit}`} up${scale === 'log' ? ', on a logarithmic scale' : ''}`);
  return `${against.words}${against.unit === '' ? '' : ` in ${against.unit}`} across; ${each.join('; ')}. ${sentence}`;
}
