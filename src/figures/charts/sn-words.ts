import { lifeLimits, type LimitKind, type Outcome } from '../../core/fatigue/index.ts';
import { composed } from '../../core/problem/index.ts';
import { MOST_MARKS, type Bin } from './density.ts';
import { localStress } from './local-stress.ts';
import { CONFIDENCE, medianAt } from './sn-curves.ts';
import type { SnData } from './types.ts';
import { counted, percent } from './words.ts';

const BECAME: Readonly<Record<Outcome, string>> = {
  fracture: 'broke at', runout: 'runout, unbroken at', suspended: 'stopped unbroken at', invalid: 'not counted, stopped at',
};

/** One specimen: what it did, and what the line expects at its stress. */
export function specimenTold(data: SnData, place: number): string {
  const { specimens, texts } = data;
  if (specimens === undefined) return '';
  const stressMpa = specimens.stressMpa[place] ?? 0;
  const groupName = specimens.groups[specimens.group(place)] ?? '';
  const name = `${specimens.name(place)}${groupName === '' ? '' : composed` (${groupName})`}`;
  const did = `${BECAME[specimens.outcome(place)]} ${texts.cycles(specimens.cycles[place] ?? 0)} cycles`;
  const local = localStress(specimens, place);
  const there = local === undefined ? '' : `, under ${texts.stress(local)} where it broke`;
  return `${name}: ${texts.stress(stressMpa)}, ${did}${there}. ${expected(data, stressMpa)}`.trim();
}

/** A place where many specimens lie. */
export function binTold(data: SnData, bin: Bin): string {
  const { texts } = data;
  const stressMpa = bin.y / texts.stressPerMpa;
  const what = bin.layer === 0 ? counted(bin.count, 'specimen broke', 'specimens broke')
    : bin.layer === 1 ? counted(bin.count, 'specimen unbroken', 'specimens unbroken') : counted(bin.count, 'test not counted', 'tests not counted');
  return `${what} near ${texts.stress(stressMpa)} and ${texts.life(bin.x)} cycles. ${expected(data, stressMpa)}`.trim();
}

/** The specimen that the sheet is about. */
export function currentTold({ current, texts }: SnData): string {
  if (current === undefined) return '';
  const { life, stressMpa, without } = current;
  const at = `This specimen: ${texts.stress(stressMpa)}`;
  if (life === undefined) return `${at}${without === undefined ? '' : `, ${without}`}.`;
  const interval = life.low === undefined || life.high === undefined ? '' : `, 95\u00A0% of such specimens between ${texts.life(life.low)} and ${texts.life(life.high)} cycles`;
  return `${at}, median life ${texts.life(life.median)} cycles${interval}.`;
}

/** Where that specimen stands in the held state that the sheet is compared with. */
export function heldTold({ held, texts }: SnData): string {
  if (held?.specimen === undefined) return '';
  const { life, stressMpa, without } = held.specimen;
  const word = life === undefined ? (without === undefined ? '' : `, ${without}`) : `, median life ${texts.life(life.median)} cycles`;
  return `In “${held.name}” it is at ${texts.stress(stressMpa)}${word}.`;
}

function heldLineTold({ held }: SnData): string {
  return held?.line === undefined ? '' : `Dashed and light: the median line in “${held.name}”.`;
}

/** Median and limits of life at a stress; nothing outside the stresses tested. */
function expected(data: SnData, stressMpa: number): string {
  const { line, texts, design } = data;
  if (line === undefined) return '';
  const median = medianAt(line, stressMpa);
  const at = `At ${texts.stress(stressMpa)} the line gives`;
  if ('stated' in line) return median === undefined ? '' : `${at} ${texts.life(10 ** median)} cycles.`;
  const [low, high] = line.fitted.tested.stressMpa;
  if (median === undefined) return `${at} no end of life: it lies below the fatigue limit.`;
  if (stressMpa < low * (1 - 1e-9) || stressMpa > high * (1 + 1e-9)) return 'The line is not meant for this stress: none was used there.';
  const range = (asked: LimitKind): string | undefined => {
    const { lower, upper } = lifeLimits(line.fitted, stressMpa, asked);
    return lower === null || upper === null ? undefined : `${texts.life(10 ** lower)} to ${texts.life(10 ** upper)}`;
  };
  const next = range({ kind: 'next', confidence: CONFIDENCE });
  const { lower } = lifeLimits(line.fitted, stressMpa, { kind: 'tolerance', ...design });
  return [
    `${at} a median of ${texts.life(10 ** median)} cycles`,
    ...(next === undefined ? [] : [`the next specimen ${next} (95\u00A0%)`]),
    ...(lower === null ? [] : [`the design curve ${texts.life(10 ** lower)}`]),
  ].join(', ').concat('.');
}

interface Counts {
  readonly broken: number;
  readonly unbroken: number;
  readonly invalid: number;
  readonly shortest: number;
  readonly longest: number;
  readonly groups: number;
  /** Those that broke under another stress than at their thinnest section. */
  readonly elsewhere: number;
}

function countsOf({ specimens }: SnData): Counts {
  let [broken, unbroken, invalid, shortest, longest, elsewhere] = [0, 0, 0, Infinity, 0, 0];
  const groups = new Set<number>();
  for (let place = 0; place < (specimens?.count ?? 0); place++) {
    const outcome = specimens?.outcome(place);
    groups.add(specimens?.group(place) ?? 0);
    if (localStress(specimens, place) !== undefined) elsewhere++;
    if (outcome === 'invalid') invalid++;
    else if (outcome === 'fracture') {
      broken++;
      shortest = Math.min(shortest, specimens?.cycles[place] ?? Infinity);
      longest = Math.max(longest, specimens?.cycles[place] ?? 0);
    } else unbroken++;
  }
  return { broken, unbroken, invalid, shortest, longest, groups: groups.size, elsewhere };
}

/** What to see in the chart, with the numbers. */
export function snSentence(data: SnData): string {
  const { texts } = data;
  const counts = countsOf(data);
  const { broken, unbroken, invalid, shortest, longest } = counts;
  const isDense = (data.specimens?.count ?? 0) > MOST_MARKS;
  const between = broken === 0 ? '' : shortest === longest ? ` at ${texts.cycles(shortest)} cycles` : ` between ${texts.cycles(shortest)} and ${texts.cycles(longest)} cycles`;
  const arrows = isDense ? counted(unbroken, 'runout, in a colour of its own', 'runouts, in a colour of their own, the last of each stress with an arrow') : counted(unbroken, 'runout is marked by an arrow', 'runouts are marked by arrows');
  const tested = broken + unbroken + invalid === 0 ? [] : [
    `${broken === 0 ? 'No specimen broke' : counted(broken, 'specimen broke', 'specimens broke')}${between}`,
    ...(unbroken === 0 ? [] : [arrows]),
    ...(invalid === 0 ? [] : [`${counted(invalid, 'test is', 'tests are')} crossed out and not counted`]),
  ];
  const parts = [tested.length === 0 ? '' : `${tested.join('; ')}.`, isDense ? denseSentence(counts) : '', lineSentence(data), currentTold(data), heldTold(data), heldLineTold(data), data.note ?? ''];
  return parts.filter((part) => part !== '').join(' ') || 'There is nothing to draw yet: no specimens, and no line.';
}

/** What a chart of very many specimens shows otherwise than one of few. */
function denseSentence({ groups, elsewhere }: Counts): string {
  const left = [
    ...(groups > 1 ? ['groups are not told apart'] : []),
    ...(elsewhere > 0 ? [`the stresses where ${counted(elsewhere, 'specimen', 'specimens')} broke are not drawn`] : []),
  ];
  return `How strong the colour is says how many lie at one place; those that lie apart have marks of their own.${left.length === 0 ? '' : ` Among so many ${left.join(', and ')}.`}`;
}

function lineSentence({ line, design, texts }: SnData): string {
  if (line === undefined) return '';
  if ('stated' in line) {
    const { origin, s, from, to, limitMpa } = line.stated;
    const range = from === undefined || to === undefined ? '' : `, drawn from ${texts.life(from)} to ${texts.life(to)} cycles`;
    const limit = limitMpa === undefined ? '' : ` Below ${texts.stress(limitMpa)} it gives no life, which is no promise that none breaks.`;
    const scatter = s > 0 ? ` Within the wash lie 95\u00A0% of specimens by its scatter alone.` : '';
    return `The line is ${origin ?? 'the one that the sheet works with'}${range}.${scatter}${limit}`;
  }
  const { tested, failures } = line.fitted;
  const middle = Math.sqrt(tested.stressMpa[0] * tested.stressMpa[1]);
  const median = medianAt(line, middle);
  const limits = median === undefined ? undefined : lifeLimits(line.fitted, middle, { kind: 'band', confidence: CONFIDENCE });
  const life = median === undefined || limits?.lower === null || limits?.upper === null || limits === undefined
    ? '' : ` In the middle, at ${texts.stress(middle)}, the median life is ${texts.life(10 ** median)} cycles, ${texts.life(10 ** limits.lower)} to ${texts.life(10 ** limits.upper)} by the 95\u00A0% band.`;
  return `The median line, by ${counted(failures, 'fracture', 'fractures')}, is drawn over the stresses tested.${life}`
    + ` At least ${percent(design.share)} of specimens outlast the design curve, with ${percent(design.confidence)} confidence.`;
}

/** The chart in one paragraph, its sentence at the end. */
export function snDescription(data: SnData, sentence: string): string {
  const kind = data.stressScale === 'log' ? 'both on logarithmic scales' : 'life on a logarithmic scale';
  return `S-N chart: life in cycles across, stress amplitude in ${data.texts.stressUnit} up, ${kind}. ${sentence}`;
}
