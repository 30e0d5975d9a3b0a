/** Watches taps from inside the page: where things stood at the touch, and at the click that it became. */
import type { Locator, Page } from 'playwright';

/** What became of one tap. */
export interface Tap {
  /** The control as a person would call it. */
  readonly name: string;
  /** What stood elsewhere at the click than at the touch, with by how much, px. */
  readonly moved: readonly string[];
  /** Whether the finger came down on the control: what was set or drawn just before the touch may have moved it away from where it was aimed at. */
  readonly met: boolean;
  /** Whether the click came to the control. */
  readonly reached: boolean;
  /** Where else it went. */
  readonly went: string;
}

/** Where a control can be tapped; `why` it can't. */
type Aim = { readonly x: number; readonly y: number; readonly kind: string } | { readonly why: string };

interface Watch {
  /** Takes stock of the controls that can be seen inside a part of the page, of those alike so many, one of those known; gives how many, and their kinds. */
  gather(within: string, alike: number, known: readonly string[]): { readonly count: number; readonly kinds: readonly string[] };
  aim(control: number): Promise<Aim>;
  told(): Promise<Tap>;
}

declare global {
  interface Window {
    tapWatch: Watch;
  }
}

/** Every line of the sheet is in the page. */
export async function untilDrawn(page: Page): Promise<void> {
  await page.waitForFunction(() => document.querySelector('.sheet.at-work > .cell') !== null && document.querySelector('.sheet.at-work > .cell:empty') === null);
}

interface Tapping {
  /** What is pressed first where a control is seen only while its line is in use. */
  readonly opener?: Locator;
  /** Of controls alike, that is of one tag and class in parts of the same classes, at most so many, the first and the last among them. */
  readonly alike?: number;
  /** Kinds of controls that were tapped before, on other sheets: one of each stands for all. What is tapped now is added. */
  readonly known?: Set<string>;
  /** No more controls than this, from the first on. */
  readonly first?: number;
}

/** Taps one control after the other; gives what became of each, how many of each kind there were, and why some were left. */
export async function tapAll(
  page: Page, within: string, { opener, alike = 1e6, known = new Set(), first = 1e6 }: Tapping = {},
): Promise<{ taps: readonly Tap[]; kinds: ReadonlyMap<string, number>; left: readonly string[] }> {
  const gathered = await page.evaluate(([part, most, before]) => window.tapWatch.gather(part, most, before), [within, alike, [...known]] as const);
  for (const kind of gathered.kinds) known.add(kind);
  const count = Math.min(first, gathered.count);
  const taps: Tap[] = [];
  const kinds = new Map<string, number>();
  const left: string[] = [];
  for (let i = 0; i < count; i += 1) {
    for (let again = 0; again < 3; again += 1) {
      let aim = await page.evaluate((control) => window.tapWatch.aim(control), i);
      if ('why' in aim && (await page.locator('[role="menu"]').count()) > 0) {
        // The first menu of a page comes with a part of it, and at times after the key that was to close it.
        await page.keyboard.press('Escape');
        aim = await page.evaluate((control) => window.tapWatch.aim(control), i);
      }
      if ('why' in aim && opener !== undefined) {
        // What hangs from another line may cover it: it is put away first, as a person would.
        await page.evaluate(() => document.activeElement instanceof HTMLElement && document.activeElement.blur());
        await opener.tap();
        aim = await page.evaluate((control) => window.tapWatch.aim(control), i);
      }
      if ('why' in aim) {
        left.push(aim.why);
        break;
      }
      await page.touchscreen.tap(aim.x, aim.y);
      const tap = await page.evaluate(() => window.tapWatch.told());
      // Lists and menus that a tap has opened lie over the page until they are closed.
      if (aim.kind === 'select' || aim.kind === 'button') await page.keyboard.press('Escape');
      if (!tap.met && again < 2) continue;
      taps.push(tap);
      kinds.set(aim.kind, (kinds.get(aim.kind) ?? 0) + 1);
      break;
    }
  }
  return { taps, kinds, left };
}

/** Runs in the page before its own script, so as to see each touch and click before the page does. */
export function watchTaps(): void {
  /** The text of a remark is pressed to write in it. */
  const CONTROLS = 'input:not([type=file]), select, textarea, button, summary, .cell-remark .text:not(:empty)';
  /** Less is for those who hear the page, px. */
  const SMALLEST = 4;
  let controls: HTMLElement[] = [];
  let control: HTMLElement | undefined;
  let before = new Map<Element, DOMRect>();
  let met = false;
  let tap: Tap | undefined;
  let tell: (() => void) | undefined;

  const isSeen = (element: Element): boolean => element.checkVisibility({ opacityProperty: true, visibilityProperty: true }) && element.getClientRects().length > 0;
  const face = (one: HTMLElement): HTMLElement => (one instanceof HTMLInputElement && ['radio', 'checkbox'].includes(one.type) ? (one.closest('label') ?? one) : one);
  const nameOf = (one: Element | null): string => {
    if (one === null) return 'nothing';
    const label = one instanceof HTMLInputElement || one instanceof HTMLSelectElement || one instanceof HTMLTextAreaElement ? one.labels?.[0]?.textContent : undefined;
    const words = (one.getAttribute('aria-label') ?? label ?? one.textContent ?? '').replace(/\s+/g, ' ').trim().slice(0, 50);
    return `${one.tagName.toLowerCase()} “${words}” in ${one.closest('[data-cell]')?.getAttribute('data-cell') ?? 'the head'}`;
  };
  /** Tags and classes from the control up to its cell. */
  const kindOf = (one: Element): string => {
    const own = `${one.tagName}.${one.className} ${one.getAttribute('type') ?? ''}`;
    return one.parentElement === null || one.matches('.cell, .title-block') ? own : `${own} < ${kindOf(one.parentElement)}`;
  };
  /** So many, evenly from the first to the last; one is the one in the middle. */
  const evenly = <Item>(all: readonly Item[], many: number): readonly Item[] =>
    all.length <= many ? all : Array.from({ length: many }, (_, i) => all[Math.round(((many === 1 ? 0.5 : i / (many - 1)) * (all.length - 1)))] as Item);
  const byKind = (all: readonly HTMLElement[]): ReadonlyMap<string, readonly HTMLElement[]> => {
    const kinds = new Map<string, HTMLElement[]>();
    for (const one of all) kinds.set(kindOf(one), [...(kinds.get(kindOf(one)) ?? []), one]);
    return kinds;
  };
  /** Of each kind so many, of those that are known one. */
  const someOfEach = (all: readonly HTMLElement[], most: number, known: ReadonlySet<string>): HTMLElement[] => {
    const taken = new Set([...byKind(all)].flatMap(([kind, alike]) => evenly(alike, known.has(kind) ? 1 : most)));
    const isFolder = (one: HTMLElement): boolean => one.matches('.section-folder, .aside-opener, .aside-end');
    // What puts others out of sight comes last, from below.
    return [...all.filter((one) => taken.has(one) && !isFolder(one)), ...all.filter((one) => taken.has(one) && isFolder(one)).toReversed()];
  };
  const inView = ({ top, bottom }: DOMRect): boolean => bottom > 0 && top < innerHeight;
  const frame = (): Promise<void> => new Promise((done) => void requestAnimationFrame(() => requestAnimationFrame(() => done())));

  addEventListener('pointerdown', ({ target }) => {
    met = control !== undefined && target instanceof Element && face(control).contains(target);
    before = new Map();
    for (const cell of document.querySelectorAll('.title-block, .sheet > .cell')) {
      if (!inView(cell.getBoundingClientRect())) continue;
      for (const one of [cell, ...cell.querySelectorAll('p, li, label, input, select, textarea, button, .katex, .result')]) {
        // A long note comes whole over what follows, and goes again: what stands in it is no place to hit.
        if (isSeen(one) && one.closest('.said') === null && inView(one.getBoundingClientRect())) before.set(one, one.getBoundingClientRect());
      }
    }
  }, { capture: true });
  addEventListener('click', (event) => {
    // A press of a label is told of its box as well, by the page itself.
    if (!event.isTrusted || control === undefined || tap !== undefined) return;
    const moved = [...before].flatMap(([one, { top, left }]) => {
      if (!one.isConnected || !isSeen(one)) return [];
      const now = one.getBoundingClientRect();
      return Math.hypot(now.top - top, now.left - left) < 1.5 ? [] : [`${nameOf(one)} by ${Math.round(now.left - left)}, ${Math.round(now.top - top)}`];
    });
    const to = event.target instanceof Element ? event.target : null;
    tap = { name: nameOf(control), moved: moved.slice(0, 4), met, reached: to !== null && (control.contains(to) || face(control).contains(to)), went: nameOf(to) };
    tell?.();
  }, { capture: true });

  const aimAt = (one: HTMLElement): { x: number; y: number; over: boolean } => {
    const box = face(one).getBoundingClientRect();
    const [x, y] = [box.left + Math.min(box.width / 2, 120), box.top + Math.min(box.height / 2, 60)];
    // An edge may run through the very place; where a finger comes down is told in whole dots.
    return { x, y, over: [y - 1, y, y + 1].every((at) => face(one).contains(document.elementFromPoint(x, at))) };
  };
  window.tapWatch = {
    gather: (within, alike, known) => {
      controls = someOfEach([...document.querySelectorAll<HTMLElement>(within)].flatMap((part) => [...part.querySelectorAll<HTMLElement>(CONTROLS)]).filter((one) => {
        const row = one.closest('table')?.querySelectorAll('tbody tr:not(.told)');
        // The rows of a table are alike: the first and the last stand for all.
        const isAlike = row !== undefined && [...row].slice(1, -1).some((other) => other.contains(one));
        // The writing of a remark that is closed is cut to a dot; its text, a control as well, opens it.
        const isCut = one.closest('.writing:not([data-empty], [data-open])') !== null;
        return isSeen(one) && one.getBoundingClientRect().height > SMALLEST && !isAlike && !isCut && !one.matches(':disabled');
      }), alike, new Set(known));
      return { count: controls.length, kinds: [...byKind(controls).keys()] };
    },
    aim: async (which) => {
      const one = controls[which];
      tap = undefined;
      control = one;
      if (one === undefined || !one.isConnected || !isSeen(one)) return { why: `gone: ${nameOf(one ?? null)}` };
      const box = face(one).getBoundingClientRect();
      if (box.top < 60 || box.bottom > innerHeight - 160 || box.right > innerWidth || box.left < 0) {
        face(one).scrollIntoView({ block: box.height > innerHeight / 2 ? 'start' : 'center', inline: 'center' });
      }
      // Until it stands still, and its line, which may have been out of view, is there to be hit.
      const place = (): string => `${face(one).getBoundingClientRect().top} ${document.documentElement.scrollHeight}`;
      let y = '';
      for (let i = 0; i < 30 && (y !== place() || document.elementFromPoint(aimAt(one).x, aimAt(one).y)?.matches('.cell') === true); i += 1) {
        y = place();
        await frame();
      }
      // What hangs from the line that was tapped before may cover it: then it is put away first, as a person would.
      if (!aimAt(one).over && document.activeElement instanceof HTMLElement) document.activeElement.blur();
      const { x, y: at, over } = aimAt(one);
      return over ? { x, y: at, kind: one instanceof HTMLInputElement ? one.type : one.tagName.toLowerCase() } : { why: `covered: ${nameOf(one)} by ${nameOf(document.elementFromPoint(x, at))}` };
    },
    told: () => new Promise((done) => {
      const say = (): void => {
        clearTimeout(late);
        done(tap ?? { name: nameOf(control ?? null), moved: [], met, reached: false, went: 'nowhere: no click' });
      };
      const late = setTimeout(say, 5000);
      tell = say;
      if (tap !== undefined) say();
    }),
  };
}
