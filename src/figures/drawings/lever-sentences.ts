import { spoken, spokenSymbol } from './lettering.ts';
import { weightWords, type LeverFigure } from './lever-figure.ts';
import type { FigureValue } from './types.ts';

function named(value: FigureValue): string {
  return value.hidden || value.si === undefined ? spokenSymbol(value.symbol) : `${spokenSymbol(value.symbol)} = ${spoken(value)}`;
}

/** The lever as one paragraph. */
export function leverDescription(figure: LeverFigure): string {
  const { hanger, own, reaction, travel, wanted, lengthText } = figure;
  const side = (at: number): string => `${lengthText(Math.abs(at))} from the fulcrum${at < 0 ? ' on the other side' : ''}`;
  const parts = [
    'A level beam on a fulcrum.',
    ...figure.weights.map((one) => sentence(`${weightWords(one)}, hangs ${side(one.at)}`)),
    ...(own === undefined ? [] : [`The beam's own weight, ${named(own.weight)}, acts ${side(own.at)}.`]),
    ...(hanger === undefined ? [] : [`The hanger, ${side(hanger.at)}, holds the beam up with ${named(hanger.force)} and pulls the specimen down as much.`]),
    ...(reaction === undefined ? [] : [`Reaction of the fulcrum: ${named(reaction)}.`]),
    ...(travel === undefined ? [] : [`The weights travel from ${lengthText(travel.from)} to ${lengthText(travel.to)}.`]),
    ...(wanted === undefined ? [] : [`For the wanted load the moved weight has to stand at ${named(wanted.place)}.`]),
  ];
  return parts.join(' ') + figure.notes.map((note) => ` ${note.map((run) => (typeof run === 'string' ? run : spokenSymbol(run.symbol))).join('')}`).join('');
}

function sentence(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}

/** What to see in the drawing, for the reader's eye. */
export function leverSentence({ hanger, wanted, travel }: LeverFigure): string {
  if (hanger === undefined) return 'The lever, to scale. The hanger appears once its arm has a value.';
  if (hanger.force.hidden) return 'The lever, to scale. The force in the hanger appears here once you have worked it out.';
  if (hanger.force.si === undefined) return 'The lever, to scale.';
  const pull = `To scale: the lever pulls at the yoke with ${hanger.force.text}`;
  if (wanted === undefined) return `${pull}.`;
  const reachable = travel === undefined || (wanted.at >= travel.from && wanted.at <= travel.to);
  return reachable ? `${pull}; the chain line shows where the weight gives the wanted load.`
    : `${pull}; the place that gives the wanted load, ${wanted.place.text}, lies outside the travel.`;
}
