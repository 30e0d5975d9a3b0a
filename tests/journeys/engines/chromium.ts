/** Chromium with the same commands, which here the driver of all other journeys carries out: what the smoke journeys do is held against one more engine. */
import { chromium, type Page } from 'playwright';
import { launchOptions } from '../harness-browser.ts';
import { Engine, KEYS, type Command } from './engine.ts';

/** What its driver calls a key without a character. */
const named: Readonly<Record<string, string>> = { [KEYS.control]: 'Control', [KEYS.enter]: 'Enter', [KEYS.escape]: 'Escape', [KEYS.delete]: 'Delete' };

interface Action {
  readonly type: string;
  readonly value?: string;
  readonly x?: number;
  readonly y?: number;
}

/** Starts one that saves what it downloads in `saved`. */
export async function startChromium(saved: string, { width = 1440, height = 900 } = {}): Promise<Engine> {
  const browser = await chromium.launch(await launchOptions());
  const context = await browser.newContext({ viewport: { width, height }, reducedMotion: 'reduce', permissions: ['clipboard-read', 'clipboard-write'] });
  const page = await context.newPage();
  page.on('download', (download) => void download.saveAs(`${saved}/${download.suggestedFilename()}`));
  const commands: Readonly<Record<Command, (given: Record<string, unknown>) => Promise<unknown>>> = {
    navigate: ({ url }) => page.goto(String(url)),
    refresh: () => page.reload(),
    run: ({ script, args }) => page.evaluate(`(function () { ${String(script)} }).apply(null, ${JSON.stringify(args)})`),
    act: ({ actions }) => act(page, (actions as readonly { readonly actions: readonly Action[] }[]).flatMap((source) => source.actions)),
    find: ({ value }) => page.locator(String(value)).first().waitFor({ state: 'attached' }).then(() => ({ 'element-6066-11e4-a52e-4f735466cecf': value })),
    send: ({ text, element }) => page.locator(String(element)).first().setInputFiles(String(text)),
    print: () => page.pdf({ format: 'A4', printBackground: false }).then((pdf) => pdf.toString('base64')),
    picture: () => page.screenshot().then((picture) => picture.toString('base64')),
  };
  return new Engine((command, given = {}, element) => commands[command](element === undefined ? given : { ...given, element }), () => browser.close(), { top: 42.5, bottom: 53.9, asOutlines: false });
}

async function act(page: Page, actions: readonly Action[]): Promise<void> {
  for (const { type, value = '', x = 0, y = 0 } of actions) {
    const key = named[value] ?? value;
    if (type === 'pointerMove') await page.mouse.move(x, y);
    else if (type === 'pointerDown') await page.mouse.down();
    else if (type === 'pointerUp') await page.mouse.up();
    else if (type === 'keyDown') await page.keyboard.down(key);
    else await page.keyboard.up(key);
  }
}
