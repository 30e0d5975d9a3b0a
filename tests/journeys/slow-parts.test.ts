/** Parts of the served page that are late or do not come: presses and what is typed meanwhile are neither lost nor done twice, and what did not come is told and can be tried again. */
import { createServer, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { servePage } from '../../.scripts/serve.mjs';
import { asItOpens, intoView } from './harness.ts';
import { fill, head, line, notice, result, textOf, typed } from './sheet-page.ts';

let server: Server;
let gate: Server;
let [behind, address] = ['', ''];
/** Parts that are asked for now and get no answer, and those that are refused. */
const held = new Map<string, readonly (() => void)[]>();
const refused = new Set<string>();

const portOf = (one: Server): number => (one.address() as AddressInfo).port;

async function pass(url: string, response: ServerResponse): Promise<void> {
  const given = await fetch(`${behind}${url}`);
  response.writeHead(given.status, { 'Content-Type': given.headers.get('content-type') ?? '' }).end(Buffer.from(await given.arrayBuffer()));
}

beforeAll(async () => {
  server = await servePage({ address: '127.0.0.1', port: 0 });
  behind = `http://localhost:${portOf(server)}`;
  gate = createServer(({ url = '/' }, response) => {
    const name = /^\/parts\/([\w-]+)-[0-9a-f]{10}\.js$/.exec(url)?.[1] ?? '';
    const go = (): void => void pass(url, response).catch(() => response.destroy());
    const waiting = held.get(name);
    if (refused.has(name)) response.writeHead(503).end();
    else if (waiting === undefined) go();
    else held.set(name, [...waiting, go]);
  });
  await new Promise<void>((resolve) => void gate.listen(0, '127.0.0.1', resolve));
  address = `http://localhost:${portOf(gate)}/`;
});
afterAll(() => {
  gate.close();
  server.close();
});

function release(part: string): void {
  const waiting = held.get(part) ?? [];
  held.delete(part);
  for (const go of waiting) go();
}

test('the sheet is at work before anything sets its equations, which stand as MathML until then', async () => {
  held.set('katex', []);
  await asItOpens({ address }, async ({ page }) => {
    await fill(page, 'F', '301 N');
    const before = await result(page, 'sigma_a');
    await fill(page, 'F', '302 N');
    await expect.poll(() => result(page, 'sigma_a')).not.toBe(before);
    expect([await page.locator('.katex').count(), (await page.locator('.sheet.at-work math').count()) > 20]).toEqual([0, true]);
    release('katex');
    await intoView(line(page, 'sigma_a'));
    await line(page, 'sigma_a').locator('.katex').first().waitFor();
    // What the edit changed is set as it is now.
    expect(await textOf(line(page, 'sigma_a').locator('.symbols, .numbers').last())).not.toBe('');
  });
});

test('equations that can not be set are shown as TeX and told; they are set once they can be', async () => {
  refused.add('katex');
  await asItOpens({ address }, async ({ page, complaints }) => {
    await expect.poll(() => textOf(notice(page))).toMatch(/\(what sets equations\) did not come from its server as it should/);
    await fill(page, 'F', '301 N');
    await expect.poll(() => result(page, 'sigma_a')).toMatch(/MPa/);
    refused.delete('katex');
    await notice(page).getByRole('button', { name: 'Try again' }).click();
    await intoView(line(page, 'sigma_a'));
    await line(page, 'sigma_a').locator('.katex').first().waitFor();
    complaints.length = 0;
  });
});

test('a lecture that is late begins once, with the keys that were pressed meanwhile', async () => {
  const told = async (isLate: boolean): Promise<{ readonly said: string; readonly early: number }> => {
    let [said, early] = ['', 0];
    if (isLate) held.set('lecture', []);
    await asItOpens({ address }, async ({ page }) => {
      await line(page, 'sigma_a').locator('.quantity').first().waitFor();
      await page.locator('body').press('F8');
      if (!isLate) await page.locator('.lecture-bar').waitFor();
      for (const key of ['PageDown', 'PageDown', 'F8', 'PageDown']) await page.keyboard.press(key);
      if (isLate) early = await page.locator('.lecture-bar').count();
      release('lecture');
      await page.locator('.lecture-bar').waitFor();
      await expect.poll(async () => (said = await textOf(page.locator('.lecture-strip')))).not.toBe('');
      expect(await page.locator('.lecture-bar').count()).toBe(1);
      await page.keyboard.press('Escape');
    });
    return { said, early };
  };
  expect(await told(true)).toEqual(await told(false));
});

test('what opens at a line opens once, and takes what was typed meanwhile; refused, it is told and can be tried again', async () => {
  held.set('panels', []);
  await asItOpens({ address }, async ({ page }) => {
    const cell = line(page, 'sigma_a');
    await intoView(cell);
    await cell.focus();
    await cell.getByRole('button', { name: 'uncertainty budget' }).click();
    await page.keyboard.press('Escape');
    expect(await cell.locator('.budget').count()).toBe(0);
    release('panels');
    await cell.locator('.budget').waitFor();
    expect(await cell.locator('.budget').count()).toBe(1);
  });
  held.set('panels', []);
  await asItOpens({ address }, async ({ page }) => {
    // From a blank, too: nothing of it goes there.
    const cell = line(page, 'd');
    await cell.locator('input').first().focus();
    const before = await typed(page, 'd');
    for (const key of ['Control+.', 'ArrowDown', 'ArrowUp', 'Enter', '#', 'a', 'b']) await page.keyboard.press(key);
    expect(await typed(page, 'd')).toEqual(before);
    release('panels');
    const text = cell.locator('.source-editor textarea');
    await expect.poll(() => text.inputValue()).toContain('#ab');
    await text.press('Escape');
    await expect.poll(() => text.count()).toBe(0);
  });
  refused.add('panels');
  await asItOpens({ address }, async ({ page, complaints }) => {
    const cell = line(page, 'sigma_a');
    await intoView(cell);
    await cell.focus();
    await cell.getByRole('button', { name: 'work back' }).click();
    await expect.poll(() => textOf(notice(page))).toMatch(/\(what opens at a line\) did not come from its server as it should/);
    refused.delete('panels');
    await notice(page).getByRole('button', { name: 'Try again' }).click();
    await cell.locator('.work-back').waitFor();
    complaints.length = 0;
  });
});

test('files for a class that are late unfold once', async () => {
  held.set('teams-desk', []);
  await asItOpens({ address }, async ({ page }) => {
    await head(page).getByRole('button', { name: 'Take away', exact: true }).click();
    await page.getByRole('button', { name: 'A file for each team' }).click();
    expect(await page.locator('#class-files').count()).toBe(0);
    release('teams-desk');
    await page.locator('#class-files').waitFor();
    expect(await page.locator('#class-files').count()).toBe(1);
  });
});
