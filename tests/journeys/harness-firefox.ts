/** The browser of a run of journeys: the one Chromium that all workers reach, or a Firefox of each worker's own (`npm run journeys -- --browser firefox`). */
import { chromium, firefox, type Browser, type BrowserContextOptions, type Locator, type Page } from 'playwright';
import { findEngines } from '../../.scripts/engines.mjs';
import { A_FINGER, A_MOUSE, ASKS_NOBODY, FORCED_COLOURS } from './engines/firefox.ts';

export const inChromium = (process.env['SPANLIFE_BROWSER'] ?? 'chromium') === 'chromium';

export const inFirefox = process.env['SPANLIFE_BROWSER'] === 'firefox';

/**
 * A Firefox as its makers ship it, driven by the standard protocol (W3C WebDriver BiDi). The protocol has no words yet for less movement, for colours, nor for what points:
 * the profile has them. It is one worker's own, for its driver tells of no download: what is saved is looked for in a folder (`harness.ts`).
 */
async function launchFirefox(wishes: Readonly<Record<string, number | string>>, saved: string): Promise<Browser> {
  const executablePath = findEngines().firefox?.browser;
  if (executablePath === undefined) throw new Error('no Firefox found: node .scripts/engines.mjs as root installs one, or set FIREFOX to the path of one');
  return firefox.launch({ channel: 'moz-firefox', executablePath, downloadsPath: saved, firefoxUserPrefs: { ...ASKS_NOBODY, 'ui.prefersReducedMotion': 1, ...wishes } });
}

/** What is marked has colours that can be read on one another, as a reader has chosen them; those of a Firefox without a desktop are nobody's choice. */
const CHOSEN_COLOURS = { 'ui.highlight': '#00408a', 'ui.highlighttext': '#ffffff', 'ui.selecteditem': '#00408a', 'ui.selecteditemtext': '#ffffff' } as const;

/** What a profile has of that for which a context is asked. */
const wishesOf = ({ hasTouch = false, colorScheme, forcedColors }: BrowserContextOptions): Readonly<Record<string, number | string>> => ({
  ...(hasTouch ? A_FINGER : A_MOUSE), 'ui.systemUsesDarkTheme': colorScheme === 'dark' ? 1 : 0, ...(forcedColors === 'active' ? { ...FORCED_COLOURS, ...CHOSEN_COLOURS } : {}),
});

const reached = new Map<string, Promise<Browser>>();

/** The browser of the run, as this worker reaches it: its files share the connection, which ends with the worker. */
export function reachBrowser(endpoint: string, asked: BrowserContextOptions, saved: string): Promise<Browser> {
  const wishes = wishesOf(asked);
  const which = inFirefox ? JSON.stringify(wishes) : '';
  const browser = reached.get(which) ?? (inFirefox ? launchFirefox(wishes, saved) : chromium.connect(endpoint));
  reached.set(which, browser);
  return browser;
}

/** What a context of this run's browser can be asked for: Firefox is not asked for what its driver can't do. */
export function asCan({ isMobile, hasTouch, ...asked }: BrowserContextOptions): BrowserContextOptions {
  if (inFirefox) return { ...asked, colorScheme: null, reducedMotion: null, forcedColors: null, contrast: null };
  return { ...asked, ...(isMobile === undefined ? {} : { isMobile }), ...(hasTouch === undefined ? {} : { hasTouch }) };
}

/**
 * What Firefox's driver has no words for, done in another way: a tap is a click, since it makes no event of a finger that taps; what is filled in is an edit by a
 * hand, as in the other browser, and not by a script, which no field tells the page of when it is left; the pointer goes to the edge of the window and not beyond it;
 * print is looked at by what its styles are.
 */
export function doAsCan(page: Page, { colorScheme: opened }: BrowserContextOptions): void {
  if (!inFirefox) return;
  const locator = Object.getPrototypeOf(page.locator('html')) as Locator;
  locator.tap = locator.click;
  // It tells of nothing that was replaced meanwhile.
  locator.scrollIntoViewIfNeeded = function into(this: Locator, options) {
    return this.evaluate((element) => {
      if (!element.isConnected) throw new Error('not attached to the DOM');
      const { top, bottom, left, right } = element.getBoundingClientRect();
      if (top < 0 || left < 0 || bottom > innerHeight || right > innerWidth) element.scrollIntoView({ block: 'center', inline: 'nearest', behavior: 'instant' });
    }, undefined, options);
  };
  if (locator.fill !== fillByHand) {
    fillAnyhow = locator.fill;
    locator.fill = fillByHand;
  }
  page.touchscreen.tap = (x, y) => page.mouse.click(x, y);
  page.keyboard.insertText = (text) => page.evaluate((inserted) => void document.execCommand('insertText', false, inserted), text);
  const moveWithin = page.mouse.move.bind(page.mouse);
  page.mouse.move = (x, y, options) => {
    const { width, height } = page.viewportSize() ?? { width: Infinity, height: Infinity };
    return moveWithin(Math.max(0, Math.min(width - 1, x)), Math.max(0, Math.min(height - 1, y)), options);
  };
  let lookedAt: { readonly media: 'screen' | 'print'; readonly colorScheme: string } = { media: 'screen', colorScheme: opened ?? 'light' };
  page.emulateMedia = async ({ media, colorScheme } = {}) => {
    const next = { media: media ?? lookedAt.media, colorScheme: colorScheme ?? lookedAt.colorScheme };
    if (next.media !== lookedAt.media) await page.evaluate(swapInMedia, ['print', 'screen'] as const);
    if (next.colorScheme !== lookedAt.colorScheme) await page.evaluate(swapInMedia, ['dark', 'light'] as const);
    lookedAt = next;
  };
}

/** What Firefox writes to the console of a stream that ends in an error, though whoever reads it is told of it and tells the reader. */
export const isRemark = (message: string): boolean => inFirefox && message.includes('Failed to read data from the ReadableStream');

/** A copy of a page as it is for who has no scripts, which the driver can not switch off. */
export function withoutScripts(page: string): string {
  return page.replaceAll(/<script(?=[\s>])/g, '<script type="text/plain"');
}

let fillAnyhow: Locator['fill'];

async function fillByHand(this: Locator, value: string, options?: Parameters<Locator['fill']>[1]): Promise<void> {
  const isWritten = await this.evaluate((field) => field instanceof HTMLTextAreaElement || (field instanceof HTMLInputElement && /^(text|search|number|password)$/.test(field.type)), undefined, options);
  if (!isWritten) return fillAnyhow.call(this, value, options);
  await this.click({ ...options, trial: true });
  await this.evaluate((field, text) => {
    const written = field as HTMLInputElement;
    written.focus();
    written.select();
    // The one way in which a script edits a field as a hand does.
    document.execCommand(text === '' ? 'delete' : 'insertText', false, text);
  }, value);
}

/** In the page: styles that are for the one are for the other, and the other way round. */
function swapInMedia([one, other]: readonly [string, string]): void {
  const swap = (rules: CSSRuleList): void => {
    for (const rule of rules) {
      if (rule instanceof CSSMediaRule) rule.media.mediaText = rule.media.mediaText.replace(new RegExp(`\\b(${one}|${other})\\b`, 'g'), (word) => (word === one ? other : one));
      if ('cssRules' in rule) swap(rule.cssRules as CSSRuleList);
    }
  };
  for (const sheet of document.styleSheets) swap(sheet.cssRules);
}
