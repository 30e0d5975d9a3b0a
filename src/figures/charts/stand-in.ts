import { escapeText, px } from '../drawings/markup.ts';

/**
 * A stand-in for the browser's document, with the few members that Plot and its selections call: charts are drawn into it
 * and written out as text, the same wherever that happens. It reads nothing and lays nothing out.
 */
interface StandInDocument {
  readonly documentElement: StandInElement;
  createElement(name: string): StandInElement;
  createElementNS(space: string, name: string): StandInElement;
  createTextNode(text: string): StandInText;
}

const PAGE_SPACE = 'http://www.w3.org/1999/xhtml';

/** What may stand in an element. */
type StandInNode = StandInElement | StandInText | OwnMarkup;

class StandInText {
  readonly text: string;
  constructor(text: string) {
    this.text = text;
  }
}

/** Markup that our own drawing code wrote; it is put out as it is. */
class OwnMarkup {
  readonly markup: string;
  constructor(markup: string) {
    this.markup = markup;
  }
}

class StandInElement {
  readonly ownerDocument: StandInDocument;
  readonly namespaceURI: string;
  readonly tagName: string;
  readonly attributes = new Map<string, string>();
  readonly childNodes: StandInNode[] = [];
  /** Inline styles are not put out: looks come from class names. */
  readonly style = { setProperty: (): void => undefined, removeProperty: (): void => undefined };

  constructor(ownerDocument: StandInDocument, namespaceURI: string, tagName: string) {
    this.ownerDocument = ownerDocument;
    this.namespaceURI = namespaceURI;
    this.tagName = tagName;
  }

  setAttribute(name: string, value: unknown): void {
    this.attributes.set(name, String(value));
  }

  setAttributeNS(_space: string, name: string, value: unknown): void {
    this.setAttribute(name, value);
  }

  getAttribute(name: string): string | null {
    return this.attributes.get(name) ?? null;
  }

  hasAttribute(name: string): boolean {
    return this.attributes.has(name);
  }

  removeAttribute(name: string): void {
    this.attributes.delete(name);
  }

  append(...nodes: readonly (StandInNode | string)[]): void {
    for (const node of nodes) this.childNodes.push(typeof node === 'string' ? new StandInText(node) : node);
  }

  appendChild<Node extends StandInNode>(node: Node): Node {
    this.childNodes.push(node);
    return node;
  }

  insertBefore<Node extends StandInNode>(node: Node, before: StandInNode | null): Node {
    const place = before === null ? -1 : this.childNodes.indexOf(before);
    this.childNodes.splice(place < 0 ? this.childNodes.length : place, 0, node);
    return node;
  }

  set textContent(text: string) {
    this.childNodes.splice(0, Infinity, new StandInText(String(text)));
  }
}

/** A document with nothing in it. */
export function createStandIn(): StandInDocument {
  const made = {
    createElement: (name: string) => new StandInElement(made as StandInDocument, PAGE_SPACE, name),
    createElementNS: (space: string, name: string) => new StandInElement(made as StandInDocument, space, name),
    createTextNode: (text: string) => new StandInText(text),
  };
  return Object.assign(made, { documentElement: new StandInElement(made as StandInDocument, PAGE_SPACE, 'html') });
}

/** A node of our own markup; everything in it that can come from a reader has been escaped where it was written. */
export function ownMarkup(markup: string): OwnMarkup {
  return new OwnMarkup(markup);
}

/**
 * What is written out of an element's attributes: places, classes, and the opacity by which a density is told. Colours, line
 * weights and letters are the style sheet's; words for screen readers stand once on the whole chart.
 */
const KEPT = new Set([
  'class', 'd', 'x', 'y', 'x1', 'x2', 'y1', 'y2', 'cx', 'cy', 'r', 'width', 'height', 'points', 'transform', 'fill-opacity',
]);

/** A shift by half a px, which depends on the screen that Plot finds itself on. */
const HALF_PX = /^translate\((?:0|0\.5),(?:0|0\.5)\)$/;

/** What is inside an element, as SVG text. */
export function innerSvg({ childNodes }: StandInElement): string {
  return childNodes.map(nodeSvg).join('');
}

function nodeSvg(node: StandInNode): string {
  if (node instanceof OwnMarkup) return node.markup;
  if (node instanceof StandInText) return escapeText(node.text);
  if (node.tagName === 'style') return '';
  const attributes = [...node.attributes]
    .filter(([name, value]) => KEPT.has(name) && !(name === 'transform' && HALF_PX.test(value)))
    .map(([name, value]) => ` ${name}="${escapeText(name === 'class' ? value : shortNumbers(value))}"`);
  const inner = innerSvg(node);
  const start = `<${node.tagName}${attributes.join('')}`;
  return inner === '' ? `${start}/>` : `${start}>${inner}</${node.tagName}>`;
}

/** Coordinates to a hundredth of a px. */
function shortNumbers(value: string): string {
  return value.replace(/-?\d+\.\d{3,}(?:e-?\d+)?|-?\d+(?:\.\d+)?e-\d+/g, (number) => px(Number(number)));
}
