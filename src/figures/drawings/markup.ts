import { isolatedQuotes } from '../../core/problem/index.ts';

/** The few SVG elements that the drawings are made of, as text. Everything that can come from a reader is escaped here. */

/** A coordinate to a hundredth of a px. */
export function px(value: number): string {
  return String(Math.round(value * 100) / 100 + 0);
}

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/** Text fit for content and attributes, which turns no letters beside it; characters that XML does not allow become the replacement character. */
export function escapeText(text: string): string {
  return isolatedQuotes(text)
    .replace(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]|\p{Surrogate}/gu, '\uFFFD')
    .replace(/[&<>"']/g, (character) => ENTITIES[character] ?? character);
}

/** The prefix as it may stand in ids and in references to them. */
export function safeId(prefix: string): string {
  return prefix.replace(/[^A-Za-z0-9_-]/g, '-');
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

export function line(from: Point, to: Point, className: string): string {
  return `<line class="${className}" x1="${px(from.x)}" y1="${px(from.y)}" x2="${px(to.x)}" y2="${px(to.y)}"/>`;
}

export function polygon(points: readonly Point[], className: string): string {
  return `<polygon class="${className}" points="${points.map((point) => `${px(point.x)},${px(point.y)}`).join(' ')}"/>`;
}

export function polyline(points: readonly Point[], className: string): string {
  return `<polyline class="${className}" points="${points.map((point) => `${px(point.x)},${px(point.y)}`).join(' ')}"/>`;
}

export function circle(centre: Point, radius: number, className: string): string {
  return `<circle class="${className}" cx="${px(centre.x)}" cy="${px(centre.y)}" r="${px(radius)}"/>`;
}

/** A path from commands and coordinates; `pattern` names the hatching that fills it. */
export function path(parts: readonly (string | number)[], className: string, pattern?: string): string {
  const fill = pattern === undefined ? '' : ` fill="url(#${pattern})"`;
  return `<path class="${className}"${fill} d="${parts.map((part) => (typeof part === 'number' ? px(part) : part)).join(' ')}"/>`;
}

export function group(className: string, content: readonly string[]): string {
  return content.length === 0 ? '' : `<g class="${className}">${content.join('')}</g>`;
}

/** A filled arrowhead with its tip at `tip`, pointing along `direction` (a unit vector), `length` long and `width` wide. */
export function arrowhead(tip: Point, direction: Point, length: number, width: number, className: string): string {
  const back = { x: tip.x - direction.x * length, y: tip.y - direction.y * length };
  const half = { x: (-direction.y * width) / 2, y: (direction.x * width) / 2 };
  return polygon([tip, { x: back.x + half.x, y: back.y + half.y }, { x: back.x - half.x, y: back.y - half.y }], className);
}
