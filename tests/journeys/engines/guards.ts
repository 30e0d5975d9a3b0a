/**
 * What the page does where a browser lacks something, in this very engine: features are taken away by a script that stands in a copy of the page before all others,
 * as no old version of an engine can be installed beside the new. When each came is said in `oldest-browsers.test.ts`, where the same is done in Chromium.
 */
import { createHash } from 'node:crypto';
import { createServer } from 'node:http';
import { once } from 'node:events';
import { readFileSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect } from 'vitest';
import { pageOf, SHORT } from '../harness.ts';
import { KEYS, type Engine } from './engine.ts';
import { expectQuiet, open, untilSays } from './smoke.ts';

/** A copy of the page, with a script of its own before all others, which the copy's policy allows by its hash. */
function altered(folder: string, before: () => void): string {
  const script = `(${before.toString()})()`;
  const hash = `'sha256-${createHash('sha256').update(script, 'utf8').digest('base64')}'`;
  const page = readFileSync(pageOf(SHORT), 'utf8').replace(/(<meta http-equiv="Content-Security-Policy" content="[^"]*script-src )([^"]*">)/, (_all, head: string, rest: string) => `${head}${hash} ${rest}<script>${script}</script>`);
  if (!page.includes(hash)) throw new Error('the page has no policy to put a script into');
  const file = join(folder, `altered-${hash.replace(/\W/g, '').slice(6, 18)}.html`);
  writeFileSync(file, page);
  return file;
}

const focused = (engine: Engine): Promise<string> => engine.run(() => `${document.activeElement?.tagName ?? ''} ${document.activeElement?.className ?? ''}`);

const shows = (engine: Engine, selector: string): Promise<boolean> => engine.run((chosen) => {
  const { width = 0, height = 0 } = document.querySelector(chosen)?.getBoundingClientRect() ?? {};
  return width > 0 && height > 0;
}, selector);

const TOO_OLD = /this browser is older than the page needs\. It works in Chrome or Edge 110, Firefox 115, Safari 16\.4/;

/** Too old, and a script that stops: both are told, and the sheet stands there to be read. */
export async function tellsWhatItLacks(engine: Engine, folder: string): Promise<void> {
  const cases = [
    [() => void Reflect.deleteProperty(window, 'DecompressionStream'), TOO_OLD],
    [() => void Reflect.deleteProperty(window, 'structuredClone'), TOO_OLD],
    [() => void Reflect.deleteProperty(Array.prototype, 'at'), /its script stopped \(|A part of the page could not follow the last change \(/],
    // It stops when the sheet as delivered is replaced already.
    [() => void Reflect.deleteProperty(window, 'IntersectionObserver'), /A part of the page could not follow the last change \(/],
  ] as const;
  for (const [lacks, said] of cases) {
    await engine.goTo(pathToFileURL(altered(folder, lacks)).href);
    await engine.until('a note', () => document.querySelector('[role="alert"]:not(.lifeless)') !== null);
    // What is missing may fail in two places, and then each is told.
    for (const note of await engine.run(() => [...document.querySelectorAll('[role="alert"]:not(.lifeless)')].map((one) => one.textContent))) expect(note).toMatch(said);
  }
}

/** What no version before Chrome 114, Firefox 125 and Safari 17.4 has. */
function asInTheOldest(): void {
  for (const name of ['popover', 'showPopover', 'hidePopover', 'togglePopover']) Reflect.deleteProperty(HTMLElement.prototype, name);
  Reflect.deleteProperty(Element.prototype, 'checkVisibility');
  Reflect.deleteProperty(window, 'requestIdleCallback');
}

/** The menu of a line, the lecture and the first blank do without popovers and `checkVisibility`. */
export async function doesWithout(engine: Engine, folder: string): Promise<void> {
  // From a server, for WebKit says of an error in a page from the disk only that there was one.
  await served('127.0.0.1', altered(folder, asInTheOldest), (address) => withoutThem(engine, address));
}

async function withoutThem(engine: Engine, address: string): Promise<void> {
  await open(engine, address);
  expect(await engine.run(() => 'showPopover' in HTMLElement.prototype || 'checkVisibility' in Element.prototype)).toBe(false);
  await untilSays(engine, '[data-symbol="sigma_a"] .result', '371.8');
  expect(await shows(engine, '.cell-menu')).toBe(false);
  const button = '[data-symbol="sigma_a"] button[aria-label^="What can be done with"], [data-cell="sigma_a"] button[aria-label^="What can be done with"]';
  await engine.run((chosen) => document.querySelector<HTMLElement>(chosen)?.focus(), button);
  await engine.keys(KEYS.enter);
  await engine.until('the menu', () => (document.querySelector('.cell-menu')?.getBoundingClientRect().height ?? 0) > 0);
  await engine.keys(KEYS.escape);
  await engine.until('the menu closed', () => (document.querySelector('.cell-menu')?.getBoundingClientRect().height ?? 0) === 0);
  expect(await engine.run((chosen) => document.activeElement?.matches(chosen), button)).toBe(true);
  await engine.keys(KEYS.enter);
  await engine.until('the menu again', () => (document.querySelector('.cell-menu')?.getBoundingClientRect().height ?? 0) > 0);
  await engine.run(() => document.querySelector('h1')?.dispatchEvent(new PointerEvent('pointerdown', { bubbles: true })));
  await engine.until('the menu closed by a press beside it', () => (document.querySelector('.cell-menu')?.getBoundingClientRect().height ?? 0) === 0);

  await engine.run(() => document.querySelector<HTMLElement>('.past-head')?.focus());
  await engine.keys(KEYS.enter);
  await engine.until('a blank has the focus', () => document.activeElement?.matches('#sheet input, #sheet textarea'));
  await engine.press('.head button', 'Lecture');
  await engine.until('the lecture', () => document.documentElement.classList.contains('in-lecture'));
  for (let i = 0; i < 4; i += 1) await engine.keys('\ue00f');
  expect(await focused(engine)).not.toMatch(/^BODY/);
  await engine.keys(KEYS.escape);
  await engine.until('the sheet again', () => !document.documentElement.classList.contains('in-lecture'));
  await expectQuiet(engine);
}

/** Over plain http in a network there is no clipboard of the page's own: copying as LaTeX copies all the same, for what is pasted elsewhere. */
export async function copiesOverPlainHttp(engine: Engine): Promise<void> {
  const host = Object.values(networkInterfaces()).flat().find((one) => one?.family === 'IPv4' && !one.internal)?.address;
  if (host === undefined) throw new Error('this machine has no address in a network: a page of its own address is a secure context even over plain http');
  await served(host, pageOf(SHORT), async (address) => {
    await open(engine, address);
    expect(await engine.run(() => [isSecureContext, 'clipboard' in navigator && navigator.clipboard !== undefined])).toEqual([false, false]);
    await untilSays(engine, '[data-symbol="sigma_a"] .result', '371.8');
    await engine.run(() => document.querySelector<HTMLElement>('[data-symbol="sigma_a"] button[aria-label^="What can be done with"]')?.focus());
    await engine.keys(KEYS.enter);
  await engine.run(() => [...document.querySelectorAll<HTMLElement>('.cell-menu [role="menuitem"]')].find(({ textContent }) => textContent.includes('copy as LaTeX'))?.focus());
    await engine.keys(KEYS.enter);
    const said = await engine.until('whether it was copied', () => [...document.querySelectorAll('[aria-live="polite"]')].map(({ textContent }) => textContent).find((words) => words.includes('LaTeX')));
    expect(said).toContain('Copied as LaTeX.');
    await engine.press('.title-block textarea');
    await engine.keys('a', KEYS.control);
    await engine.paste();
    expect(await engine.run(() => document.querySelector<HTMLTextAreaElement>('.title-block textarea')?.value)).toContain('\\sigma_');
    await expectQuiet(engine);
  });
}

/** A file given out over plain http for as long as the work lasts, which is told its address. */
async function served(host: string, file: string, work: (address: string) => Promise<void>): Promise<void> {
  const server = createServer((_request, response) => response.setHeader('Content-Type', 'text/html; charset=utf-8').end(readFileSync(file))).listen(0, host);
  try {
    await once(server, 'listening');
    await work(`http://${host}:${(server.address() as AddressInfo).port}/`);
  } finally {
    server.close();
    server.closeAllConnections();
  }
}

/** An empty date shows no day and no pattern of one, until it is typed into. */
export async function emptyDateLooksEmpty(engine: Engine): Promise<void> {
  await open(engine, pageOf(SHORT));
  await untilSays(engine, '[data-symbol="sigma_a"] .result', '371.8');
  const date = '.cell-record input.field-load_verified';
  await engine.run((chosen) => document.querySelector(chosen)?.scrollIntoView({ block: 'center' }), date);
  expect(await darkSpots(engine, date), 'what an empty date shows').toBe(0);
  await engine.run((chosen) => document.querySelector<HTMLElement>(chosen)?.focus(), date);
  expect(await darkSpots(engine, date), 'what it shows while it is typed into').toBeGreaterThan(20);
}

/** A panel goes with Escape also where a press gave nothing the focus, and boxes and lists to choose from are drawn by the page. */
export async function looksAsItShould(engine: Engine): Promise<void> {
  await open(engine, pageOf(SHORT));
  await untilSays(engine, '[data-symbol="sigma_a"] .result', '371.8');
  await engine.press('.head button', 'Sheets');
  await engine.until('the panel', () => document.querySelector('#desk-sheets') !== null);
  await engine.run(() => (document.activeElement as HTMLElement).blur());
  await engine.keys(KEYS.escape);
  await engine.until('no panel', () => document.querySelector('#desk-sheets') === null);

  for (const panel of ['Slips', 'Hold', 'Sheets', 'Take away']) {
    await engine.press('.head button', panel);
    await engine.until(panel, () => document.querySelector('.head .panel') !== null);
    const own = await engine.run(() => [...document.querySelectorAll('select, [type=checkbox], [type=radio]')]
      .filter((field) => getComputedStyle(field).appearance !== 'none').map((field) => `${field.tagName} ${field.className} ${field.getAttribute('aria-label') ?? field.id}`));
    expect(own, panel).toEqual([]);
    await engine.keys(KEYS.escape);
    await engine.until('no panel', () => document.querySelector('.head .panel') === null);
  }
  await expectQuiet(engine);
}

/** To a finger no field has letters of less than 16 px, for which a telephone would enlarge the page. */
export async function hasLargeLetters(engine: Engine): Promise<void> {
  await open(engine, pageOf(SHORT));
  expect(await engine.run(() => matchMedia('(pointer: coarse)').matches)).toBe(true);
  await untilSays(engine, '[data-symbol="sigma_a"] .result', '371.8');
  const small = await engine.run(() => [...document.querySelectorAll('input:not([type=file], [type=range], [type=checkbox], [type=radio]), select, textarea')]
    .filter((field) => parseFloat(getComputedStyle(field).fontSize) < 16).map((field) => `${field.tagName} ${field.className} ${field.getAttribute('aria-label') ?? field.id}`));
  expect(small).toEqual([]);
}

interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** How many points of a field are darker than its ground, in the picture that the engine makes of it; of its line below and the sign at its end none counts. */
async function darkSpots(engine: Engine, selector: string): Promise<number> {
  await engine.placeOf(selector);
  const placed = (): Promise<Box> => engine.run((chosen) => document.querySelector(chosen)?.getBoundingClientRect().toJSON() as Box, selector);
  let place = await placed();
  let picture = await engine.picture();
  // A page that still gets its lines moves under the picture.
  for (let after = await placed(); after.top !== place.top || after.left !== place.left; after = await placed()) {
    place = after;
    picture = await engine.picture();
  }
  await engine.run((data, { left, top, width, height }) => {
    const image = new Image();
    Object.assign(window, { spots: undefined });
    image.onload = () => {
      const canvas = document.createElement('canvas');
      const scale = image.width / innerWidth;
      [canvas.width, canvas.height] = [image.width, image.height];
      const context = canvas.getContext('2d');
      context?.drawImage(image, 0, 0);
      const { data: bytes } = context?.getImageData(left * scale, top * scale, (width - 28) * scale, (height - 5) * scale) ?? new ImageData(1, 1);
      let spots = 0;
      for (let i = 0; i < bytes.length; i += 4) if ((bytes[i] ?? 0) + (bytes[i + 1] ?? 0) + (bytes[i + 2] ?? 0) < 500) spots += 1;
      Object.assign(window, { spots });
    };
    image.src = `data:image/png;base64,${data}`;
  }, picture.toString('base64'), place);
  return Number(await engine.until('the picture', () => (window as unknown as { spots?: number }).spots?.toString()));
}
