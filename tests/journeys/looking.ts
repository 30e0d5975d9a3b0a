/** Tells parts of a page apart for the checks of `access.ts`, so that what passed in this run is not looked into again. Runs in the page. */

/** What the functions that run in the page share there. */
export interface Looking {
  hash(text: string): number;
  /** For each cell what it and its neighbours hold: elements, words, and what fields have without them. Equal numbers look equal in this window, but for digits. */
  keysOf(cells: readonly Element[]): readonly number[];
  /** How the parts of the page stand to one another: elements, roles, names, references and headings. */
  keyOfPage(): number;
}

/** Runs in the page, before anything else here. */
export function installLooking(): void {
  // Two sums of 32 and 21 bits (FNV-1a, and the same with another factor): among a million numbers two are equal with a chance of 1 in 20 000.
  const hash = (text: string): number => {
    let [one, other] = [2166136261, 0x9e3779b9];
    for (let i = 0; i < text.length; i += 1) {
      const code = text.charCodeAt(i);
      one = Math.imul(one ^ code, 16777619);
      other = Math.imul(other ^ code, 0x85ebca6b);
    }
    return (one >>> 0) * 2 ** 21 + (other >>> 11);
  };
  /** Where a line of a drawing runs. */
  const PLACES = new Set(['d', 'points', 'x', 'y', 'x1', 'x2', 'y1', 'y2', 'cx', 'cy', 'r', 'transform', 'viewBox', 'width', 'height']);
  const isFormula = (element: Element): boolean => element.localName === 'math' || element.classList.contains('katex');
  /** A number is a number. */
  const plain = (text: string): string => text.replace(/\d[\d.\u2009\u202f]*/g, '0');
  const around = (element: Element): string => [element.localName, ...[...element.attributes].map(({ name, value }) => `${name}=${value}`)].join(' ');
  /** No rule looks into a formula, and none asks which digits they are. */
  const written = (element: Element): string => {
    if (isFormula(element)) return `<${element.localName} ${element.className}>`;
    const attributes = [...element.attributes].filter(({ name }) => !PLACES.has(name)).map(({ name, value }) => `${name}=${/^(?:style|class|fill|opacity)$/.test(name) ? value : plain(value)}`);
    const inside = [...element.childNodes].map((node) => (node instanceof Element ? written(node) : node.nodeType === Node.TEXT_NODE ? plain(node.textContent ?? '') : ''));
    return `<${element.localName} ${attributes.join(' ')}>${inside.join('')}</>`;
  };
  /** Rules about the page ask for elements, names and references, for the words of what is named by them, and elsewhere only whether there are any. */
  const outlined = (element: Element): string => {
    if (isFormula(element)) return `<${element.localName}>`;
    const attributes = [...element.attributes].filter(({ name }) => !PLACES.has(name) && !/^(?:style|value|placeholder)$/.test(name)).map(({ name, value }) => `${name}=${name === 'class' ? value.replace(/\b(?:up|down)\b/, '') : value}`);
    const words = element.matches('h1, h2, h3, h4, h5, h6, a, label, summary, legend, caption, title') ? plain(element.textContent ?? '')
      : [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim() !== '');
    return `<${element.localName} ${attributes.join(' ')} ${words}>${[...element.children].map(outlined).join('')}</>`;
  };
  const fields = (cell: Element): string =>
    [...cell.querySelectorAll<HTMLInputElement>('input, select, textarea')].map((field) => `${field.checked} ${field.value === ''} ${field.matches(':disabled')}`).join();
  const windowNow = (): string => `${innerWidth} ${['(pointer: coarse)', '(prefers-color-scheme: dark)', 'print'].map((query) => matchMedia(query).matches).join()}`;
  const looking: Looking = {
    hash,
    keysOf: (cells) => {
      const outer: string[] = [];
      for (let part = cells[0]?.parentElement; part; part = part.parentElement) outer.push(around(part));
      const place = hash(`${windowNow()} ${outer.join()}`);
      const own = cells.map((cell) => hash(`${written(cell)} ${fields(cell)}`));
      return own.map((one, i) => hash(`${place} ${own[i - 1]} ${one} ${own[i + 1]}`));
    },
    keyOfPage: () => hash(`${windowNow()} ${document.title} ${around(document.documentElement)} ${outlined(document.body)} ${fields(document.body)}`),
  };
  Object.assign(globalThis, { looking });
}
