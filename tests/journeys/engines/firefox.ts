/** Firefox without a window, over the port that it opens to be driven: a command is a list, with its length before it. */
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { connect, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { findEngines } from '../../../.scripts/engines.mjs';
import { Engine, type Command } from './engine.ts';

const names: Readonly<Record<Command, string>> = {
  navigate: 'WebDriver:Navigate',
  refresh: 'WebDriver:Refresh',
  run: 'WebDriver:ExecuteScript',
  act: 'WebDriver:PerformActions',
  find: 'WebDriver:FindElement',
  send: 'WebDriver:ElementSendKeys',
  print: 'WebDriver:Print',
  picture: 'WebDriver:TakeScreenshot',
};

/** It asks nobody for anything at its start, and tells of no download: a panel about one takes the next key. */
export const ASKS_NOBODY = {
  'browser.download.alwaysOpenPanel': false,
  'network.captive-portal-service.enabled': false,
  'network.connectivity-service.enabled': false,
  'app.normandy.enabled': false,
  'datareporting.policy.dataSubmissionEnabled': false,
  'browser.shell.checkDefaultBrowser': false,
} as const;

/** What points is fine and can hover (flags of its own: 2 and 4), also on a machine without a mouse. */
export const A_MOUSE = { 'ui.primaryPointerCapabilities': 6, 'ui.allPointerCapabilities': 6 } as const;

/** What points is a finger: coarse (1), and can't hover; as on telephones, bars to scroll with take no room. */
export const A_FINGER = { 'ui.primaryPointerCapabilities': 1, 'ui.allPointerCapabilities': 1, 'ui.useOverlayScrollbars': 1 } as const;

/** The system's colours in place of the page's. */
export const FORCED_COLOURS = { 'browser.display.document_color_use': 2 } as const;

/** Starts one with a profile of its own, which saves what it downloads in `saved`. */
export async function startFirefox(saved: string, { width = 1440, height = 900, wishes: further = {} }: { width?: number; height?: number; wishes?: Readonly<Record<string, number>> } = {}): Promise<Engine> {
  const found = findEngines().firefox;
  if (found === undefined) throw new Error('no Firefox found: run npm test, or set FIREFOX to the path of one');
  const profile = mkdtempSync(join(tmpdir(), 'spanlife-firefox-'));
  const wishes = {
    'marionette.port': 0,
    'browser.download.folderList': 2,
    'browser.download.dir': saved,
    'browser.helperApps.neverAsk.saveToDisk': 'text/html,text/plain,text/markdown',
    ...ASKS_NOBODY,
    ...A_MOUSE,
    ...further,
  };
  writeFileSync(join(profile, 'user.js'), Object.entries(wishes).map(([name, value]) => `user_pref(${JSON.stringify(name)}, ${JSON.stringify(value)});\n`).join(''));
  const process = spawn(found.browser, ['--headless', '--marionette', '--no-remote', '--profile', profile, '--width', `${width}`, '--height', `${height + 85}`], { stdio: 'ignore' });
  const gone = new Promise<void>((done) => process.once('close', () => done()));
  const line = new Line(await portOf(join(profile, 'MarionetteActivePort')));
  await line.say('WebDriver:NewSession', {});
  const send = (command: Command, parameters: Record<string, unknown> = {}, element?: string): Promise<unknown> =>
    line.say(names[command], { ...parameters, ...(element === undefined ? {} : { id: element }), ...(command === 'picture' ? { full: false } : {}) });
  return new Engine(send, async () => {
    process.kill();
    await gone;
    line.close();
    await rm(profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 50 });
  }, { top: 42.5, bottom: 42.5, asOutlines: true });
}

/** It writes the number of its port into its profile when it is ready to be driven. */
async function portOf(file: string): Promise<number> {
  for (const end = Date.now() + 30_000; Date.now() < end; await pause(40)) {
    const text = existsSync(file) ? readFileSync(file, 'utf8') : '';
    if (text !== '') return Number(text);
  }
  throw new Error('Firefox did not start within 30 s');
}

class Line {
  private readonly socket: Socket;
  private readonly waiting = new Map<number, { readonly done: (value: unknown) => void; readonly failed: (error: Error) => void }>();
  private heard = Buffer.alloc(0);
  private last = 0;

  constructor(port: number) {
    this.socket = connect(port, '127.0.0.1');
    this.socket.on('data', (bytes) => this.hear(bytes));
    this.socket.on('close', () => this.waiting.forEach(({ failed }) => failed(new Error('Firefox ended'))));
    this.socket.on('error', (error) => this.waiting.forEach(({ failed }) => failed(error)));
  }

  say(name: string, parameters: Record<string, unknown>): Promise<unknown> {
    const message = JSON.stringify([0, (this.last += 1), name, parameters]);
    this.socket.write(`${Buffer.byteLength(message)}:${message}`);
    return new Promise((done, failed) => this.waiting.set(this.last, { done, failed }));
  }

  close(): void {
    this.socket.destroy();
  }

  private hear(bytes: Uint8Array): void {
    this.heard = Buffer.concat([this.heard, bytes]);
    for (;;) {
      const colon = this.heard.indexOf(':');
      const end = colon + 1 + Number(this.heard.subarray(0, Math.max(colon, 0)));
      if (colon < 0 || this.heard.length < end) return;
      const message: unknown = JSON.parse(this.heard.subarray(colon + 1, end).toString());
      this.heard = this.heard.subarray(end);
      if (Array.isArray(message)) this.answer(message as [number, number, { message: string } | null, { value?: unknown } | null]);
    }
  }

  private answer([, id, error, result]: [number, number, { message: string } | null, { value?: unknown } | null]): void {
    const asked = this.waiting.get(id);
    this.waiting.delete(id);
    if (error === null) asked?.done(result !== null && 'value' in result ? result.value : result);
    else asked?.failed(new Error(error.message));
  }
}
