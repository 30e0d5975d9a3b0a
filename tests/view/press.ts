/** The controls of a template of the page, to be pressed and typed in without a page. */
import type { TemplateResult } from 'lit-html';
import { vi } from 'vitest';
import type { LineParts } from '../../src/view/parts.ts';

export interface Control {
  readonly tag: string;
  /** What it is called: its own words, or those for voices. */
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  /** Lets it hear an event, by a name such as `click`; `value` and `checked` are what the element then has. */
  hear(event: string, has?: Readonly<Record<string, unknown>>): void;
}

type Listener = (event: unknown) => void;

/** The elements that listeners ask for, where there is no browser. */
class Element {
  value = '';
  checked = false;
  constructor(has: object) {
    Object.assign(this, has);
  }
  closest = (): null => null;
  querySelector = (): null => null;
  select = (): void => undefined;
}
class Input extends Element {}
class Select extends Element {}
class TextArea extends Element {}
const ELEMENTS: Readonly<Record<string, new (has: object) => Element>> = { input: Input, select: Select, textarea: TextArea };

/** To be called before listeners are: elements by the names that they have in a browser, none of them in a page. */
export function standInForElements(): void {
  for (const [name, stand] of Object.entries({ HTMLElement: Element, Element, Node: Element, HTMLInputElement: Input, HTMLSelectElement: Select, HTMLTextAreaElement: TextArea })) vi.stubGlobal(name, stand);
}

/** All controls of a line that listen to something, in their order. */
export function controlsOf({ line, margin }: Pick<LineParts, 'line' | 'margin'>): readonly Control[] {
  const listeners: Listener[] = [];
  const text = textOf(line, listeners) + textOf(margin, listeners);
  return [...text.matchAll(/<(button|input|select|textarea)\b([^>]*)>/gu)].flatMap(([whole, tag = '', inside = ''], i, all) => {
    const heard = new Map([...inside.matchAll(/@(\w+)=\u0001(\d+)\u0002/gu)].map(([, name = '', place]) => [name, listeners[Number(place)]] as const));
    if (heard.size === 0) return [];
    const attributes = new Map([...inside.matchAll(/\s([.?]?[\w-]+)="([^"]*)"/gu)].map(([, name = '', value = '']) => [name, value] as const));
    const from = (all[i]?.index ?? 0) + whole.length;
    const words = tag === 'button' ? text.slice(from, text.indexOf('</button>', from)).replace(/<[^>]*>/gu, '').trim() : '';
    return [{
      tag, attributes, name: attributes.get('aria-label') || words,
      hear: (event: string, has: object = {}) => {
        const listener = heard.get(event);
        if (listener === undefined) throw new Error(`${tag} “${words}” does not listen to ${event}`);
        const target = new (ELEMENTS[tag] ?? Element)(has);
        listener({ target, currentTarget: target, isComposing: false, ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, preventDefault: () => undefined, ...has });
      },
    }];
  });
}

const calledOf = ({ name, tag }: Control): string => (name === '' ? tag : name);

/** The one control of that name, or of that tag where it has none. */
export function control(parts: Pick<LineParts, 'line' | 'margin'>, name: string | RegExp): Control {
  const found = controlsOf(parts).filter((one) => (typeof name === 'string' ? calledOf(one) === name : name.test(calledOf(one))));
  if (found.length !== 1 || found[0] === undefined) throw new Error(`${found.length} controls ${String(name)} of: ${controlsOf(parts).map(calledOf).join('; ')}`);
  return found[0];
}

function textOf(shown: unknown, listeners: Listener[]): string {
  if (typeof shown === 'string' || typeof shown === 'number' || typeof shown === 'boolean') return String(shown).replaceAll('>', '›').replaceAll('"', '”');
  if (typeof shown === 'function') return `\u0001${listeners.push(shown as Listener) - 1}\u0002`;
  if (Array.isArray(shown)) return shown.map((one) => textOf(one, listeners)).join('');
  if (typeof shown !== 'object' || shown === null) return '';
  const { strings, values } = shown as Partial<TemplateResult>;
  if (values === undefined) return '';
  if (strings === undefined) return textOf(values[0], listeners);
  return strings.map((part, i) => {
    const value = i < values.length ? textOf(values[i], listeners) : '';
    return part + (part.endsWith('=') && !value.startsWith('\u0001') ? `"${value}"` : value);
  }).join('');
}
