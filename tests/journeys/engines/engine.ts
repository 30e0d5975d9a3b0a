/**
 * A browser of another engine, driven by the commands of the WebDriver standard (W3C WebDriver, level 2): WebKit over its driver's plain protocol,
 * Firefox over the port that it opens itself, which carries the same commands.
 */
import { setTimeout as pause } from 'node:timers/promises';

/** A script in the page, a press at a place, keys, a file: each a command of the standard. */
export type Command = 'navigate' | 'refresh' | 'run' | 'act' | 'find' | 'send' | 'print' | 'picture';

export interface Paper {
  readonly top: number;
  readonly bottom: number;
  /** Letters with an edge around them, as labels over lines have, are printed as outlines, which nobody reads as letters. */
  readonly asOutlines: boolean;
}

export type Send = (command: Command, parameters?: Record<string, unknown>, element?: string) => Promise<unknown>;

/** The name under which the standard hands out an element. */
const ELEMENT = 'element-6066-11e4-a52e-4f735466cecf';

/** What is waited for comes within this time, ms, or never. */
const PATIENCE = 30_000;

export class Engine {
  private readonly send: Send;
  /** Ends the browser and all that was started with it. */
  readonly end: () => Promise<void>;

  /** Where what it prints begins and ends on the paper, pt from its edges: most take the margins that its driver is given, Chromium those of the page. */
  readonly paper: Paper;

  constructor(send: Send, end: () => Promise<void>, paper: Paper = { top: 42.5, bottom: 42.5, asOutlines: false }) {
    this.send = send;
    this.end = end;
    this.paper = paper;
  }

  async goTo(url: string): Promise<void> {
    await this.send('navigate', { url });
  }

  async reload(): Promise<void> {
    await this.send('refresh');
  }

  /** Runs a function in the page; it sees nothing but its arguments, and what it gives is plain data. */
  async run<Given extends readonly unknown[], Result>(what: (...given: Given) => Result, ...given: Given): Promise<Result> {
    return (await this.send('run', { script: `return (${what.toString()}).apply(null, arguments)`, args: given })) as Result;
  }

  /** Waits until a function in the page gives something else than `false`, `null` or nothing, and gives that. */
  async until<Given extends readonly unknown[], Result>(name: string, what: (...given: Given) => Result, ...given: Given): Promise<NonNullable<Result>> {
    for (const end = Date.now() + PATIENCE; ; await pause(60)) {
      const result = await this.run(what, ...given);
      if (result !== undefined && result !== null && result !== false) return result;
      if (Date.now() > end) throw new Error(`not within ${PATIENCE / 1000} s: ${name}`);
    }
  }

  /** Middle of the first thing that a selector gives and that is named so, brought into view; waits until it is there, has a size and stands still. */
  async placeOf(selector: string, named = ''): Promise<Place> {
    let before = '';
    for (const end = Date.now() + PATIENCE; ; await pause(40)) {
      const place = await this.run(middle, selector, named);
      if (place !== null && before === `${place.x} ${place.y}`) return place;
      if (Date.now() > end) throw new Error(`not within ${PATIENCE / 1000} s: ${selector} ${named}`);
      before = place === null ? '' : `${place.x} ${place.y}`;
    }
  }

  /** Points first, as a hand does: what is pointed at may show more, and so move. */
  async press(selector: string, named = ''): Promise<void> {
    await this.act([toPlace(await this.placeOf(selector, named))]);
    await this.strokes([await this.placeOf(selector, named)]);
  }

  async drag(selector: string, by: number): Promise<void> {
    const { x, y } = await this.placeOf(selector);
    await this.run(watchPress, selector);
    await this.strokes([{ x, y }, { x: x + Math.round(by / 2), y }, { x: x + by, y }]);
    const other = await this.run(() => (window as unknown as Pressed).pressedOther);
    if (other !== '') throw new Error(`the pointer went down on ${other}, and not on ${selector}`);
  }

  /** The pointer goes down at the first place and up at the last. */
  private async strokes([first, ...further]: readonly [Place, ...Place[]]): Promise<void> {
    await this.act([toPlace(first), { type: 'pointerDown', button: 0 }, ...further.map((place) => toPlace(place, 60)), { type: 'pointerUp', button: 0 }]);
  }

  private async act(actions: readonly object[]): Promise<void> {
    await this.send('act', { actions: [{ type: 'pointer', id: 'mouse', parameters: { pointerType: 'mouse' }, actions }] });
  }

  /** Keys one after another; a private sign of the standard is a key without a character. */
  async keys(text: string, held = ''): Promise<void> {
    const [down, up] = ['keyDown', 'keyUp'].map((type) => (value: string) => ({ type, value }));
    const strokes = [...text].flatMap((value) => [down?.(value), up?.(value)]);
    await this.send('act', { actions: [{ type: 'key', id: 'keyboard', actions: [...[...held].map((key) => down?.(key)), ...strokes, ...[...held].map((key) => up?.(key))] }] });
  }

  /** Copies a text with the keyboard, from a field that is there only for that: an engine gives a made-up event of pasting no text. */
  async copy(text: string): Promise<void> {
    await this.run((copied) => {
      const field = document.createElement('textarea');
      field.id = 'to-copy';
      field.value = copied;
      document.body.prepend(field);
      field.select();
    }, text);
    await this.keys('c', KEYS.control);
    await this.run(() => document.getElementById('to-copy')?.remove());
  }

  async paste(): Promise<void> {
    await this.keys('v', KEYS.control);
  }

  async chooseFile(selector: string, path: string): Promise<void> {
    await this.until(selector, (chosen) => document.querySelector(chosen) !== null, selector);
    const found = (await this.send('find', { using: 'css selector', value: selector })) as Record<string, string>;
    await this.send('send', { text: path }, found[ELEMENT]);
  }

  /** What the engine prints of the page at which it is, on A4 with margins of 15 mm. WebKit opens it anew for that. */
  async print(): Promise<Buffer> {
    const margin = { top: 1.5, bottom: 1.5, left: 1.5, right: 1.5 };
    return Buffer.from(String(await this.send('print', { page: { width: 21, height: 29.7 }, margin, background: false })), 'base64');
  }

  async picture(): Promise<Buffer> {
    return Buffer.from(String(await this.send('picture')), 'base64');
  }
}

export interface Place {
  readonly x: number;
  readonly y: number;
}

const toPlace = (place: Place, duration = 0): object => ({ type: 'pointerMove', duration, origin: 'viewport', ...place });

/** Keys without a character (W3C WebDriver, 17.4.2). */
export const KEYS = { control: '\ue009', enter: '\ue007', escape: '\ue00c', delete: '\ue017' } as const;

interface Pressed {
  /** What the pointer went down on, nothing where that is what was meant. */
  pressedOther: string;
}

/** In the page. */
function watchPress(meant: string): void {
  const pressed = window as unknown as Pressed;
  pressed.pressedOther = 'nothing';
  const see = ({ target }: Event): void => {
    const part = target as Element;
    pressed.pressedOther = part.closest(meant) === null ? `${part.tagName} ${part.getAttribute('class') ?? ''} “${part.textContent.trim().slice(0, 80)}”` : '';
  };
  addEventListener('pointerdown', see, { capture: true, once: true });
}

/** In the page. */
function middle(selector: string, named: string): Place | null {
  const part = [...document.querySelectorAll(selector)].find((one) => named === '' || (one.getAttribute('aria-label') ?? one.textContent).trim() === named);
  if (part === undefined) return null;
  let { left, top, width, height } = part.getBoundingClientRect();
  if (top < 60 || top + height > innerHeight - 60) {
    part.scrollIntoView({ block: 'center' });
    ({ left, top, width, height } = part.getBoundingClientRect());
  }
  return width === 0 || height === 0 ? null : { x: Math.round(left + width / 2), y: Math.round(top + height / 2) };
}
