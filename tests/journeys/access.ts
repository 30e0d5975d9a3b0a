/** What axe says of a page. Contrast takes ten times as long as all other rules and has a file of its own (`contrast.test.ts`). */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { Page } from 'playwright';
import { Known } from './known.ts';
import { installLooking, type Looking } from './looking.ts';

const axeSource = readFileSync(join(dirname(createRequire(import.meta.url).resolve('axe-core')), 'axe.min.js'), 'utf8');

interface Violation {
  readonly id: string;
  readonly impact?: string | null;
  readonly help: string;
  readonly nodes: readonly { readonly target: readonly unknown[]; readonly failureSummary?: string }[];
}

interface Axe {
  configure(spec: unknown): void;
  getRules(): readonly { readonly ruleId: string }[];
  run(context: unknown, options: unknown): Promise<{ readonly violations: readonly Violation[] }>;
}

export function failWith(what: string, list: readonly string[]): void {
  if (list.length > 0) throw new Error(`${what}:\n${list.join('\n')}`);
}

/** Pages that passed, each by how its parts stand to one another. */
const passedPages = new Known('pages-by-rules');
/** Cells that passed in this run, each by what it and its neighbours hold, in a window of that width. */
const passed = new Known('cells-by-rules');

/**
 * Fails with every rule of axe but contrast that the page breaks, and where. A cell that passed in this run as it stands, between the same
 * neighbours, is not looked into again (targets too near one another may be a neighbour's); rules about the page as a whole always see all of it, unless
 * it passed them with the same elements, names and references.
 */
export async function checkAccess(page: Page): Promise<void> {
  await loadAxe(page);
  const ofThePage = await page.evaluate(rulesOfThePage);
  const key = await page.evaluate(() => (globalThis as unknown as { looking: Looking }).looking.keyOfPage());
  const looked = await page.evaluate(setPassedAside, passed.now());
  try {
    const left = looked.some ? ['color-contrast', ...ofThePage] : ['color-contrast'];
    await runAxe(page, { rules: { 'target-size': { enabled: true }, ...Object.fromEntries(left.map((rule) => [rule, { enabled: false }])) } });
  } finally {
    await page.evaluate(() => (globalThis as { putBack?: () => void }).putBack?.());
  }
  if (looked.some && !passedPages.now().includes(key)) await runAxe(page, { runOnly: ofThePage });
  passedPages.add([key]);
  passed.add(looked.cells);
}

/** Runs in the page. Puts an empty cell of its size in the place of each that passed; gives the others, and whether there were any that passed. */
function setPassedAside(known: readonly number[]): { readonly cells: readonly number[]; readonly some: boolean } {
  const before = new Set(known);
  const cells = [...document.querySelectorAll<HTMLElement>('.sheet > .cell')];
  const keys = (globalThis as unknown as { looking: Looking }).looking.keysOf(cells);
  const aside = cells.flatMap((cell, i) => {
    if (!before.has(keys[i] as number) || cell.contains(document.activeElement)) return [];
    const stand = cell.cloneNode(false) as HTMLElement;
    stand.style.cssText += `; box-sizing: border-box; height: ${cell.offsetHeight}px`;
    return [{ cell, stand }];
  });
  for (const { cell, stand } of aside) cell.replaceWith(stand);
  Object.assign(globalThis, { putBack: () => aside.forEach(({ cell, stand }) => stand.replaceWith(cell)) });
  return { cells: keys.filter((key) => !before.has(key)), some: aside.length > 0 };
}

/** Runs in the page: the rules that judge how the parts of a page stand to one another. */
function rulesOfThePage(): readonly string[] {
  const { axe } = globalThis as unknown as { axe: Axe };
  return axe.getRules().map(({ ruleId }) => ruleId).filter((id) => /^(?:accesskeys|bypass|duplicate|heading-order|identical|landmark|page-|region|skip-link|aria-valid-attr-value|label$)/.test(id));
}

/** Texts that were judged in this run already, by all that contrast hangs on, and cells all of whose texts were; see `newTexts`. */
const judged = new Known('texts-by-contrast');
const judgedCells = new Known('cells-by-contrast');

/** Fails with every kind of text that stands out too little: of texts alike in this run, one is judged. */
export async function checkContrast(page: Page): Promise<void> {
  await loadAxe(page);
  const { kinds, cells } = await page.evaluate(newTexts, [judged.now(), judgedCells.now()] as const);
  if (kinds.length > 0) await runAxe(page, { runOnly: ['color-contrast'] });
  await page.evaluate((mark) => document.querySelectorAll(`[${mark}]`).forEach((element) => element.removeAttribute(mark)), TO_JUDGE);
  judged.add(kinds);
  judgedCells.add(cells);
}

const TO_JUDGE = 'data-to-judge';

/**
 * Runs in the page. Marks the first text of each kind that is not known yet and gives the kinds. Texts are of one kind where they stand in the
 * same elements by tag and class, with the same ink, ground, size, weight and opacity. A cell that was gone through as it stands, between the same
 * neighbours, has no other ones, unless the pointer, the focus or something that hangs from it is there; the cells gone through are given too.
 */
function newTexts([knownKinds, knownCells]: readonly [readonly number[], readonly number[]]): { readonly kinds: number[]; readonly cells: number[] } {
  const { hash, keysOf } = (globalThis as unknown as { looking: Looking }).looking;
  const seen = new Set(knownKinds);
  const cells = [...document.querySelectorAll('.sheet > .cell')];
  const keys = keysOf(cells);
  const before = new Set(knownCells);
  const isInUse = (cell: Element): boolean => cell.matches(':hover, :focus-within') || cell.querySelector(':popover-open') !== null;
  const leftOut = new Set(cells.filter((cell, i) => before.has(keys[i] as number) && !isInUse(cell)));
  const grounds = new Map<Element, number>();
  const groundOf = (element: Element): number => {
    const there = grounds.get(element);
    if (there !== undefined) return there;
    const { backgroundColor, backgroundImage, opacity, fill } = getComputedStyle(element);
    const around = element.parentElement === null ? '' : groundOf(element.parentElement);
    const own = hash(`${around}>${element.tagName}.${element.getAttribute('class') ?? ''} ${backgroundColor} ${backgroundImage} ${opacity} ${element instanceof SVGElement ? fill : ''}`);
    grounds.set(element, own);
    return own;
  };
  const kinds: number[] = [];
  const isOut = (node: Node): boolean => leftOut.has(node as Element) || (node as Element).matches('.katex, script, style, template');
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_ELEMENT, (node) => (isOut(node) ? NodeFilter.FILTER_REJECT : NodeFilter.FILTER_ACCEPT));
  while (walk.nextNode() !== null) {
    const element = walk.currentNode as Element;
    const hasText = element.matches('input, select, textarea') || [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim() !== '');
    if (!hasText) continue;
    const { color, fontSize, fontWeight } = getComputedStyle(element);
    const kind = hash(`${groundOf(element)} ${color} ${fontSize} ${fontWeight}`);
    if (seen.has(kind) || !element.checkVisibility({ opacityProperty: true, visibilityProperty: true })) continue;
    seen.add(kind);
    kinds.push(kind);
    element.setAttribute('data-to-judge', '');
  }
  return { kinds, cells: keys.filter((_key, i) => !isInUse(cells[i] as Element)) };
}

/** Through the debugger: the page's policy lets no script in, and the policy stays in force. */
async function loadAxe(page: Page): Promise<void> {
  if (await page.evaluate(() => 'axe' in globalThis)) return;
  await page.evaluate(axeSource);
  await page.evaluate(installLooking);
}

async function runAxe(page: Page, options: Readonly<Record<string, unknown>>): Promise<void> {
  await loadAxe(page);
  const violations = await page.evaluate(inspect, { ...options, resultTypes: ['violations'] });
  const told = violations.flatMap((violation) =>
    violation.nodes.map((node) => `${violation.id} (${violation.impact ?? 'no impact'}): ${violation.help}: ${node.target.join(' ')}\n${node.failureSummary ?? ''}`),
  );
  failWith('axe found violations', told);
}

/**
 * Runs in the page. The drawn form of an equation, hidden from assistive technology beside its MathML, makes half of all elements, and no rule
 * looks into it. For the time of the check an empty box of its size stands there, so that what scrolls is judged the same. Inside MathML there is
 * no role, name or place of the focus either: all that a rule asks of it is its text.
 */
async function inspect(options: Readonly<Record<string, unknown>>): Promise<readonly Violation[]> {
  const { axe } = globalThis as unknown as { axe: Axe };
  // Of the texts, those that are marked; to name them as the part to look into takes axe long.
  axe.configure({
    rules: [
      { id: 'color-contrast', selector: '[data-to-judge]' },
      // A number in a drawing is also typed in its blank, which is large enough (WCAG 2.2, 2.5.8, exception Equivalent).
      { id: 'target-size', selector: '*:not(.typed-over)' },
      // It finds nothing but what is !important, yet reads the words of every styled element first.
      { id: 'avoid-inline-spacing', selector: '[style*="important"]' },
    ],
  });
  // What stands at the foot of the window covers what is scrolled below it; a reader scrolls on.
  const strips = [...document.querySelectorAll<HTMLElement>('.foot-strip, .side')];
  for (const strip of strips) strip.style.position = 'static';
  // What lies out of view is laid out as it will be there: sizes and distances are judged.
  const skipped = options['runOnly'] === undefined ? [...document.querySelectorAll<HTMLElement>('.sheet > .cell')] : [];
  for (const cell of skipped) cell.style.contentVisibility = 'visible';
  // What is asked of few elements is asked of a page in which the others are empty: axe looks at each that there is, over and over.
  const isContrast = String(options['runOnly']) === 'color-contrast';
  const emptied = options['runOnly'] === undefined ? [] : (globalThis as unknown as { looking: Looking }).looking.emptyAllBut(isContrast ? 'text to judge' : 'names and references');
  const equations = [...document.querySelectorAll<HTMLElement>('.katex-html')].map((equation) => {
    const { width, height } = equation.getBoundingClientRect();
    return { equation, width, height, style: equation.getAttribute('style'), parts: [...equation.childNodes] };
  });
  for (const { equation, width, height } of equations) {
    equation.replaceChildren();
    equation.style.cssText = `display: inline-block; width: ${width}px; height: ${height}px`;
  }
  const formulas = isContrast ? [] : [...document.querySelectorAll('math')].map((formula) => ({ formula, parts: [...formula.childNodes] }));
  for (const { formula, parts } of formulas) formula.replaceChildren(parts.map(({ textContent }) => textContent).join(' '));
  try {
    return (await axe.run(document, options)).violations;
  } finally {
    for (const { formula, parts } of formulas) formula.replaceChildren(...parts);
    for (const { equation, style, parts } of equations) {
      equation.replaceChildren(...parts);
      if (style === null) equation.removeAttribute('style');
      else equation.setAttribute('style', style);
    }
    for (const strip of strips) strip.style.removeProperty('position');
    for (const cell of skipped) {
      cell.style.removeProperty('content-visibility');
      // An empty one would stand for a change.
      if (cell.getAttribute('style') === '') cell.removeAttribute('style');
    }
    for (const putBack of emptied) putBack();
  }
}
