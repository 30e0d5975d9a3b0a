/** Tells parts of a page apart for the checks of `access.ts`, so that what passed in this run is not looked into again. Runs in the page. */

/** What the functions that run in the page share there. */
export interface Looking {
  hash(text: string): number;
  /** For each cell what it and its neighbours hold: elements, words, and what fields have without them. Equal numbers look equal in this window, but for digits. */
  keysOf(cells: readonly Element[]): readonly number[];
  /** How the parts of the page stand to one another: elements, roles, names, references and headings. */
  keyOfPage(): number;
  /**
   * Empties every element that what is asked for does not hang on and leaves it its size. Gives what puts their content back.
   * What has the focus, and what lies over the page, stays as it is.
   */
  emptyAllBut(what: 'text to judge' | 'names and references'): readonly (() => void)[];
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
  /** What stands with all that is in it. */
  const wholeOf = (what: 'text to judge' | 'names and references'): readonly Element[] => {
    if (what === 'text to judge') return [...document.querySelectorAll('[data-to-judge]')];
    const named = [...document.querySelectorAll('[aria-labelledby], [aria-describedby]')]
      .flatMap((element) => `${element.getAttribute('aria-labelledby') ?? ''} ${element.getAttribute('aria-describedby') ?? ''}`.split(/\s+/))
      .flatMap((id) => document.getElementById(id) ?? []);
    return [...named, ...document.querySelectorAll('h1, h2, h3, h4, h5, h6, a, button, label, summary, legend, caption, select')];
  };
  /** What stands itself: whatever has a name, a place among landmarks, or can be referred to. */
  const SAID = '[id], [role], [aria-label], [aria-labelledby], [accesskey], [tabindex], input, textarea, main, nav, header, footer, aside, section, article, form, iframe';
  const emptyAllBut: Looking['emptyAllBut'] = (what) => {
    const whole = new Set([...wholeOf(what), ...(document.activeElement === null ? [] : [document.activeElement]), ...document.querySelectorAll('[popover]')]);
    const standing = new Set<Element>();
    for (const one of [...whole, ...(what === 'text to judge' ? [] : document.querySelectorAll(SAID))]) {
      for (let part: Element | null = one; part !== null && !standing.has(part); part = part.parentElement) standing.add(part);
    }
    const others: { readonly element: HTMLElement | SVGElement; readonly width: number; readonly height: number; readonly isInline: boolean }[] = [];
    const look = (around: Element): void => {
      for (const element of around.children) {
        if (whole.has(element)) continue;
        if (standing.has(element)) look(element);
        else if (element instanceof HTMLElement && element.childNodes.length > 0 && !element.matches('script, style, template')) {
          const { width, height } = element.getBoundingClientRect();
          others.push({ element, width, height, isInline: getComputedStyle(element).display === 'inline' });
        }
      }
    };
    look(document.body);
    return others.map(({ element, width, height, isInline }) => {
      const [parts, style] = [[...element.childNodes], element.getAttribute('style')];
      element.replaceChildren();
      element.style.cssText += `; box-sizing: border-box; width: ${width}px; height: ${height}px${isInline ? '; display: inline-block' : ''}`;
      return () => {
        element.replaceChildren(...parts);
        if (style === null) element.removeAttribute('style');
        else element.setAttribute('style', style);
      };
    });
  };
  const looking: Looking = {
    hash,
    emptyAllBut,
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
