import { all, numbersOf, readSvg, type Element } from './svg-reading.ts';

interface Box {
  readonly name: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Lines that letters may stand across: they are there to be looked through. */
const BEHIND = /\b(guide|held-outline|area-hatch|sign-\w+|centre-line|grid)\b/;

/** Mean width of a character as a share of the letter size: narrow for what is thin in every face, so that a clash told is one. */
function shareOf(character: string): number {
  return /[\u00A0 .,;:'|!()ijl]/.test(character) ? 0.25 : /[mMW]/.test(character) ? 0.8 : 0.5;
}

function letterBox(text: Element): Box {
  const [x = 0, y = 0, size = 0] = numbersOf(text, 'x', 'y', 'font-size');
  const width = text.children.reduce((sum, span) => {
    const own = Number(span.attributes['font-size'] ?? size);
    return sum + [...span.text].reduce((ems, character) => ems + shareOf(character), 0) * own;
  }, 0);
  const anchor = text.attributes['text-anchor'];
  const left = anchor === 'middle' ? x - width / 2 : anchor === 'end' ? x - width : x;
  return { name: text.text, left, right: left + width, top: y - size * 0.7, bottom: y + size * 0.1 };
}

/** A stroke as small boxes along it. */
function strokeBoxes(name: string, places: readonly (readonly [number, number])[]): Box[] {
  return places.slice(1).flatMap(([x, y], index) => {
    const [x0, y0] = places[index] ?? [x, y];
    const pieces = x0 === x || y0 === y ? 1 : Math.ceil(Math.hypot(x - x0, y - y0));
    return Array.from({ length: pieces }, (_, piece) => {
      const [a, b] = [piece / pieces, (piece + 1) / pieces];
      const [xs, ys] = [[x0 + (x - x0) * a, x0 + (x - x0) * b], [y0 + (y - y0) * a, y0 + (y - y0) * b]];
      return { name, left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
    });
  });
}

function obstacle(element: Element): Box[] {
  const name = element.attributes['class'] ?? '';
  if (BEHIND.test(name)) return [];
  if (element.name === 'line') {
    const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] = numbersOf(element, 'x1', 'y1', 'x2', 'y2');
    return strokeBoxes(name, [[x1, y1], [x2, y2]]);
  }
  if (element.name === 'polyline' || element.name === 'polygon') {
    const numbers = (element.attributes['points'] ?? '').split(/[ ,]/).map(Number);
    const places = numbers.flatMap((x, index): [number, number][] => (index % 2 === 0 ? [[x, numbers[index + 1] ?? 0]] : []));
    return strokeBoxes(name, places);
  }
  if (element.name === 'circle') {
    const [cx = 0, cy = 0, r = 0] = numbersOf(element, 'cx', 'cy', 'r');
    return [{ name, left: cx - r, right: cx + r, top: cy - r, bottom: cy + r }];
  }
  // A box drawn as a path, such as a weight: letters keep out of it altogether.
  const [, x, y, width, , height] = /^M ?([\d.-]+)[ ,]([\d.-]+) ?h ?([\d.-]+) ?(v) ?([\d.-]+) ?h/.exec(element.name === 'path' ? element.attributes['d'] ?? '' : '') ?? [];
  return x === undefined ? [] : [{ name, left: Number(x), right: Number(x) + Number(width), top: Number(y), bottom: Number(y) + Number(height) }];
}

function touch(a: Box, b: Box): boolean {
  return a.left < b.right + 0.01 && b.left < a.right && a.top < b.bottom + 0.01 && b.top < a.bottom;
}

/** Every letter that stands on a line, on a mark or on another letter, and every one beyond the drawing's edge. */
export function clashes(svg: string): string[] {
  const root = readSvg(svg);
  const elements = all(root);
  const letters = elements.filter(({ name }) => name === 'text').map(letterBox);
  const obstacles = elements.flatMap(obstacle);
  const width = Number(root.attributes['width'] ?? Number.POSITIVE_INFINITY);
  return [...new Set(letters.flatMap((letter, index) => [
    ...obstacles.filter((one) => touch(letter, one)).map(({ name }) => `${letter.name} on ${name}`),
    ...letters.slice(index + 1).filter((one) => touch(letter, one)).map(({ name }) => `${letter.name} on ${name}`),
    ...(letter.left < 0 || letter.right > width ? [`${letter.name} beyond the edge`] : []),
  ]))];
}
