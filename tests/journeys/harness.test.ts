/** The harness must be able to fail: each complaint it promises to notice is provoked once. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { checkAccess, download, intoView, withPage, type OpenPage } from './harness.ts';
import { inChromium } from './harness-firefox.ts';

const folder = mkdtempSync(join(tmpdir(), 'spanlife-harness-'));
afterAll(() => rmSync(folder, { recursive: true }));

let pages = 0;

function pageWith(body: string, head = ''): string {
  const file = join(folder, `page-${(pages += 1)}.html`);
  writeFileSync(file, `<!doctype html><html lang="en"><head><meta charset="utf-8">${head}<title>x</title></head><body><main><h1>x</h1>${body}</main></body></html>`);
  return file;
}

/** What a page complains of reaches the harness a little later than what it does. */
const untilTold = ({ complaints }: OpenPage): Promise<void> => expect.poll(() => complaints.length).toBeGreaterThan(0);

describe('the journey harness', () => {
  test('is content with a page that says nothing', async () => {
    await withPage({ file: pageWith('<p>Quiet.</p>') }, ({ page }) => checkAccess(page));
  });

  test.each<[string, string, RegExp]>([
    ['a console error', pageWith('<script>console.error("e1")</script>'), /console error: e1/],
    ['a console warning', pageWith('<script>console.warn("w1")</script>'), /console warning: w1/],
    ['an uncaught error', pageWith('<script>throw new Error("u1")</script>'), /uncaught: Error: u1/],
    [
      'a policy violation',
      pageWith('<script>1</script>', '<meta http-equiv="Content-Security-Policy" content="script-src \'none\'">'),
      /Content[- ]Security[- ]Policy/,
    ],
    // Firefox's driver tells of none from a page of the disk.
    ...(inChromium ? [['a request that leaves the file', pageWith('<img alt="" src="http://localhost:9/x.png">'), /request: http:\/\/localhost:9/] as [string, string, RegExp]] : []),
  ])('notices %s', async (_what, file, message) => {
    await expect(withPage({ file }, untilTold)).rejects.toThrow(message);
  });

  test('notices what axe finds', async () => {
    await expect(withPage({ file: pageWith('<input>') }, ({ page }) => checkAccess(page))).rejects.toThrow(/label \(critical\)/);
  });

  test('does not look again into a cell that passed, but into one that changed, and at the whole page', async () => {
    const file = pageWith('<div class="sheet"><section class="cell"><p>One.</p></section><section class="cell"><p>Two.</p></section></div>');
    const check = async (change: () => void): Promise<void> => withPage({ file }, async ({ page }) => {
      await checkAccess(page);
      await page.evaluate(() => {
        const seen: string[] = [];
        new MutationObserver((records) => seen.push(...records.flatMap(({ removedNodes }) => [...removedNodes].map((node) => node.textContent ?? '')))).observe(document.querySelector('.sheet') as Element, { childList: true });
        Object.assign(globalThis, { seen });
      });
      await checkAccess(page);
      expect(await page.evaluate(() => (globalThis as { seen?: string[] }).seen?.slice(0, 2))).toEqual(['One.', 'Two.']);
      await page.evaluate(change);
      await checkAccess(page);
    });
    await expect(check(() => document.querySelector('.cell')?.append(document.createElement('input')))).rejects.toThrow(/label \(critical\)/);
    await expect(check(() => document.body.append(document.createElement('main')))).rejects.toThrow(/landmark-no-duplicate-main/);
    await expect(check(() => undefined)).resolves.toBeUndefined();
  });

  test('checks a page with a strict policy without lifting it', async () => {
    const file = pageWith('<p>Strict.</p>', `<meta http-equiv="Content-Security-Policy" content="default-src 'none'">`);
    await withPage({ file }, async ({ page }) => {
      await checkAccess(page);
    });
  });

  test('gives the text of a download', async () => {
    const file = pageWith('<p><a download="note.txt" href="data:text/plain,caf%C3%A9">Save</a></p>');
    await withPage({ file }, async ({ page }) => {
      const saved = await download(page, () => page.getByText('Save').click());
      expect(saved).toMatchObject({ name: 'note.txt', text: 'café' });
    });
  });

  test('brings into view what is drawn anew with every frame', async () => {
    const again = 'let left = 30; const draw = () => { const one = document.querySelector(".drawn"); one.replaceWith(one.cloneNode(true)); if ((left -= 1) > 0) requestAnimationFrame(draw); }; draw();';
    const file = pageWith(`<div style="height: 300vh"></div><p class="drawn">Here.</p><script>${again}</script>`);
    await withPage({ file }, async ({ page }) => {
      await intoView(page.locator('.drawn'));
      expect(await page.evaluate(() => Math.round(scrollY))).toBeGreaterThan(0);
    });
  });
});
