import type { MarkPoint } from '../sheet/index.ts';
import { html, htmlText, type Markup } from './markup.ts';

/** What is marked in a picture, in dots of it. */
export interface PhotoMarks {
  readonly width: number;
  readonly height: number;
  readonly section: readonly MarkPoint[];
  readonly final: readonly MarkPoint[];
  readonly origins: readonly MarkPoint[];
  readonly scale: { readonly points: readonly MarkPoint[]; readonly length: string };
  readonly idPrefix: string;
}

/** The marks as a drawing to lie over the picture: every line on a rim of paper, so that it shows on any ground. */
export function photoMarks(marks: PhotoMarks): string {
  const { width, height, section, final, origins, scale, idPrefix } = marks;
  const size = Math.max(width, height) / 32;
  const hatch = `${idPrefix}-hatch`;
  return htmlText(html`<svg xmlns="http://www.w3.org/2000/svg" class="marks" viewBox="0 0 ${width} ${height}" aria-hidden="true" focusable="false">
<defs><pattern id="${hatch}" width="${size * 0.6}" height="${size * 0.6}" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="hatch" d="M0 0V${size}"/></pattern></defs>
${outline('section', section)}${outline('final', final)}
${final.length > 2 && html`<polygon fill="url(#${hatch})" points="${pointsText(final)}"/>`}
${origins.map((point, i) => arrow(point, i + 1, origins.length, middleOf(marks), size))}
${scaleBar(scale, size)}
</svg>`);
}

function outline(name: string, points: readonly MarkPoint[]): Markup | undefined {
  if (points.length < 2) return undefined;
  const text = pointsText(points);
  return points.length === 2
    ? html`<polyline class="rim" points="${text}"/><polyline class="${name}" points="${text}"/>`
    : html`<polygon class="rim" points="${text}"/><polygon class="${name}" points="${text}"/>`;
}

function pointsText(points: readonly MarkPoint[]): string {
  return points.map(({ x, y }) => `${x},${y}`).join(' ');
}

/** Middle of the section, or else of the picture: arrows come from the other side. */
function middleOf({ section, width, height }: PhotoMarks): MarkPoint {
  if (section.length < 3) return { x: width / 2, y: height / 2 };
  const sum = section.reduce((all, { x, y }) => ({ x: all.x + x, y: all.y + y }), { x: 0, y: 0 });
  return { x: sum.x / section.length, y: sum.y / section.length };
}

/** An arrow from outside to the origin, its number at its tail where there are several. */
function arrow(tip: MarkPoint, number: number, count: number, middle: MarkPoint, size: number): Markup {
  const length = Math.hypot(tip.x - middle.x, tip.y - middle.y);
  const [x, y] = length < 1e-9 ? [0, -1] : [(tip.x - middle.x) / length, (tip.y - middle.y) / length];
  const at = (out: number, aside = 0): string => `${tip.x + x * out * size - y * aside * size} ${tip.y + y * out * size + x * aside * size}`;
  const shaft = `M${at(0)}L${at(2.2)}M${at(0.9, 0.4)}L${at(0)}L${at(0.9, -0.4)}`;
  return html`<g class="origin"><path class="rim" d="${shaft}"/><path class="arrow" d="${shaft}"/>${count > 1 && html`<text x="${tip.x + x * 3 * size}" y="${tip.y + y * 3 * size}" font-size="${size}" dy="0.35em" text-anchor="middle">${number}</text>`}</g>`;
}

function scaleBar({ points, length }: PhotoMarks['scale'], size: number): Markup | undefined {
  const [from, to] = points;
  if (from === undefined || to === undefined) return undefined;
  const way = Math.hypot(to.x - from.x, to.y - from.y) || 1;
  const [x, y] = [(-(to.y - from.y) / way) * size * 0.4, ((to.x - from.x) / way) * size * 0.4];
  const end = (at: MarkPoint): string => `M${at.x - x} ${at.y - y}L${at.x + x} ${at.y + y}`;
  const path = `M${from.x} ${from.y}L${to.x} ${to.y}${end(from)}${end(to)}`;
  return html`<path class="rim" d="${path}"/><path class="scale" d="${path}"/>${length !== '' && html`<text x="${(from.x + to.x) / 2}" y="${(from.y + to.y) / 2}" dy="-0.5em" font-size="${size}" text-anchor="middle">${length}</text>`}`;
}
