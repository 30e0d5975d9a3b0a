import { lettering, wrap } from './lettering.ts';
import { escapeText, group, px, safeId } from './markup.ts';
import type { Axis } from './axis.ts';
import type { BeamFigure, Run } from './types.ts';

/** Some systems have a sans that is so much wider than what widths are reckoned with. */
const WIDEST_FACE = 1.15;

/** The svg element around a drawing, with the title and the description that screen readers say. `kind` is a further class. */
export function svgElement(
  idPrefix: string, size: { width: number; height: number }, { title, description }: { readonly title: string; readonly description: string }, content: readonly string[],
  kind = '',
): string {
  const id = safeId(idPrefix);
  return `<svg xmlns="http://www.w3.org/2000/svg" class="${kind === '' ? 'drawing' : `drawing ${kind}`}" role="img" aria-labelledby="${id}-title ${id}-desc" `
    + `viewBox="0 0 ${px(size.width)} ${px(size.height)}" width="${px(size.width)}" height="${px(size.height)}">`
    + `<title id="${id}-title">${escapeText(title)}</title><desc id="${id}-desc">${escapeText(description)}</desc>${content.join('')}</svg>`;
}

/** Notes as lines of text from `top` down; the bottom of the last. */
export function noteLines(notes: readonly (readonly Run[])[], axis: Axis, top: number): { svg: string; bottom: number } {
  const size = axis.textSize;
  const lines = notes.flatMap((note) => wrap(note, (axis.width - 16) / WIDEST_FACE, size));
  const svg = lines.map((runs, index) => lettering(runs, {
    x: axis.width / 2, y: top + size * (1.1 + 1.35 * index), anchor: 'middle', size, className: 'note',
  }));
  return { svg: group('notes', svg), bottom: top + lines.length * size * 1.35 + (lines.length > 0 ? 4 : 0) };
}

/** A note for every kind of place that the frame does not reach. */
export function offDrawingNotes(figure: BeamFigure, axis: Axis): (readonly Run[])[] {
  const outside = [
    ...figure.loads.filter((load) => !axis.shows(load.position)).map((load) => load.force.symbol),
    ...(figure.section && !axis.shows(figure.section.position)
      ? figure.dimensions.filter((one) => one.line === 'section').map((one) => one.value.symbol) : []),
  ];
  if (outside.length === 0) return [];
  const list = outside.flatMap((symbol, index): Run[] => [index === 0 ? '' : ', ', { symbol }]);
  return [[...list, ' would lie beyond the edge of the drawing.']];
}
