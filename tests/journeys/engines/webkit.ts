/** WebKitGTK over its driver's plain protocol, in a window on a screen that nobody sees. */
import { execFile, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type AddressInfo } from 'node:net';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import { setTimeout as pause } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { findEngines } from '../../../.scripts/engines.mjs';
import { Engine, type Command } from './engine.ts';

/** Method and path of a command. Its driver does not print: that is a program of its own. */
const routes: Readonly<Record<Exclude<Command, 'print'>, readonly [method: string, path: string]>> = {
  navigate: ['POST', 'url'],
  refresh: ['POST', 'refresh'],
  run: ['POST', 'execute/sync'],
  act: ['POST', 'actions'],
  find: ['POST', 'element'],
  send: ['POST', 'element/ID/value'],
  picture: ['GET', 'screenshot'],
};

/** Starts one with a home of its own. */
export async function startWebKit(home: string, { width = 1440, height = 900 } = {}): Promise<Engine> {
  const found = findEngines().webkit;
  if (found === undefined) throw new Error('no WebKit found: run npm test');
  mkdirSync(join(home, '.config'), { recursive: true });
  writeFileSync(join(home, '.config', 'user-dirs.dirs'), `XDG_DOWNLOAD_DIR="${home}"\n`);
  const screen = spawn(found.screen, ['-displayfd', '3', '-screen', '0', '1600x1200x24', '-nolisten', 'tcp'], { stdio: ['ignore', 'ignore', 'ignore', 'pipe'] });
  const [display] = (await once(screen.stdio[3] as Readable, 'data', { signal: AbortSignal.timeout(30_000) })) as [Buffer];
  const port = await freePort();
  const env = { ...process.env, DISPLAY: `:${String(display).trim()}`, HOME: home, XDG_CONFIG_HOME: join(home, '.config'), XDG_DATA_HOME: join(home, 'data'), XDG_CACHE_HOME: join(home, 'cache'), MESA_SHADER_CACHE_DISABLE: 'true' };
  const driver = spawn(found.driver, [`--port=${port}`], { stdio: 'ignore', env });
  const ask = async (method: string, path: string, body?: object): Promise<unknown> => {
    const response = await fetch(`http://127.0.0.1:${port}${path}`, { method, ...(body === undefined ? {} : { body: JSON.stringify(body) }) });
    const { value } = (await response.json()) as { value: { error?: string; message?: string } | null };
    if (!response.ok) throw new Error(`${path}: ${value?.error}: ${value?.message}`);
    return value;
  };
  await untilAnswering(() => ask('GET', '/status'));
  const options = { 'webkitgtk:browserOptions': { binary: found.browser, args: ['--automation'] } };
  const { sessionId } = (await ask('POST', '/session', { capabilities: { alwaysMatch: options } })) as { sessionId: string };
  const session = `/session/${sessionId}`;
  await ask('POST', `${session}/window/rect`, { x: 0, y: 0, width, height: height + 38 });
  const printed = async (url: string): Promise<string> => {
    const file = join(home, 'printed.pdf');
    await promisify(execFile)(found.printer, ['-m', fileURLToPath(new URL('print-in-webkit.js', import.meta.url)), url, file], { env, timeout: 120_000 });
    const content = readFileSync(file).toString('base64');
    rmSync(file);
    return content;
  };
  const send = async (command: Command, parameters: Record<string, unknown> = {}, element = ''): Promise<unknown> => {
    if (command === 'print') return printed(String(await ask('GET', `${session}/url`)));
    const [method, path] = routes[command];
    return ask(method, `${session}/${path.replace('ID', element)}`, method === 'GET' ? undefined : parameters);
  };
  return new Engine(send, async () => {
    await ask('DELETE', session);
    driver.kill();
    screen.kill();
    await Promise.all([driver, screen].map((process) => process.exitCode ?? process.signalCode ?? once(process, 'close')));
  });
}

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  server.close();
  await once(server, 'close');
  return port;
}

async function untilAnswering(status: () => Promise<unknown>): Promise<void> {
  for (const end = Date.now() + 30_000; ; await pause(50)) {
    try {
      await status();
      return;
    } catch (error) {
      if (Date.now() > end) throw new Error('the driver of WebKit did not answer within 30 s', { cause: error });
    }
  }
}
