/** A small strict reader of the SVG text: enough to find elements and to notice markup that does not nest. */
export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Element[];
  text: string;
}

const TOKEN = /<\/([a-z]+)>|<([A-Za-z]+)((?:\s[\w:-]+="[^"<]*")*)\s*(\/?)>|([^<]+)/gy;
const ENTITY = /&(?!(?:amp|lt|gt|quot|#39);)/;

/** Throws where the text is not well-formed: a tag left open or crossed, a bare `&` or `<`, an attribute without quotes. */
export function readSvg(svg: string): Element {
  const root: Element = { name: '', attributes: {}, children: [], text: '' };
  const open: Element[] = [root];
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < svg.length) {
    const start = TOKEN.lastIndex;
    const match = TOKEN.exec(svg);
    if (!match) throw new Error(`not well-formed at ${start}: ${svg.slice(start, start + 60)}`);
    const [whole, closed, name, list = '', selfClosed, text] = match;
    if (ENTITY.test(whole)) throw new Error(`bare & in ${whole}`);
    const parent = open.at(-1) ?? root;
    if (text !== undefined) for (const element of open) element.text += text;
    else if (closed !== undefined) {
      if (parent.name !== closed || open.length === 1) throw new Error(`</${closed}> closes <${parent.name}>`);
      open.pop();
    } else if (name !== undefined) {
      const attributes = Object.fromEntries([...list.matchAll(/([\w:-]+)="([^"]*)"/g)].map((pair) => [pair[1] ?? '', pair[2] ?? '']));
      const element: Element = { name, attributes, children: [], text: '' };
      parent.children.push(element);
      if (selfClosed !== '/') open.push(element);
    }
  }
  if (open.length > 1) throw new Error(`<${open.at(-1)?.name}> stays open`);
  const [svgElement, ...more] = root.children;
  if (!svgElement || more.length > 0) throw new Error('one root element');
  return svgElement;
}

/** Every element below `from`, itself included, that carries the class. */
export function withClass(from: Element, className: string): Element[] {
  const own = (from.attributes['class'] ?? '').split(' ').includes(className) ? [from] : [];
  return [...own, ...from.children.flatMap((child) => withClass(child, className))];
}

export function numbersOf(element: Element, ...names: string[]): number[] {
  return names.map((name) => Number(element.attributes[name]));
}

export function all(from: Element): Element[] {
  return [from, ...from.children.flatMap(all)];
}
