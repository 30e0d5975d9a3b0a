/** Files that mean harm, or are none of ours: nothing in them is executed, the page says what it does, the sheet stays. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { shipped } from '../shipped.ts';
import { download, screenshot, SHORT, withPage } from './harness.ts';
import { renamed } from './saved-file.ts';
import { bringIn, chooseTakeaway, expectNoLeaks, fill, head, notice, result, textOf, typed, untilKept } from './sheet-page.ts';

const file = (name: string, content: string | Buffer) => ({ name, mimeType: 'application/octet-stream', buffer: Buffer.from(content) });

const standard = shipped('rotating-bending');

async function refused(page: Page, given: ReturnType<typeof file>, says: RegExp): Promise<void> {
  await bringIn(page, given);
  await expect.poll(() => textOf(notice(page)), { timeout: 30_000 }).toMatch(/was not brought in\./);
  const text = await textOf(notice(page));
  expect(text, given.name).toMatch(says);
  expect(text).not.toMatch(/\bat [\w.]+:\d|Error|undefined|NaN/);
  expect(await typed(page, 'F')).toEqual(['333 N']);
  await head(page).getByRole('button', { name: 'Close this note' }).click();
}

describe('hostile files', () => {
  test('what is no sheet is refused in words and changes nothing', async () => {
    await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
      await fill(page, 'F', '333 N');
      await untilKept(page);
      const report = await download(page, () => chooseTakeaway(page, 'Report'));
      await refused(page, file('picture.md', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 3, 0xff, 0xfe])), /not text/);
      await screenshot(page, 'hostile-binary-phone', { fullPage: false });
      await refused(page, file('latin.md', Buffer.from([0x2d, 0x2d, 0x2d, 0x0a, 0xe9, 0xe8, 0xff])), /UTF-8/);
      await refused(page, file('else.html', '<!doctype html><title>x</title><script>document.title="hit"</script>'), /does not hold a worksheet/);
      await refused(page, file('notes.txt', 'milk, bread'), /no sheet/);
      await refused(page, file('empty.md', ''), /no sheet/);
      await refused(page, file('long.md', `---\ntitle: x\n---\n${'0123456789'.repeat(1_600_001)}`), /long|large/);
      await refused(page, file('altered.html', report.text.replace(/(<template id="spanlife-document"[^>]*>\[\s*")/, '$1\\')), /damaged/);
      await refused(page, file('cut.html', report.text.slice(0, report.text.indexOf('spanlife-document') + 200)), /does not hold|damaged/);
      await refused(page, file('newer.html', report.text.replace('data-format="1"', 'data-format="2"')), /does not know/);
      await expectNoLeaks(page);
    });
  });

  test('script in every text of a sheet stays text, and links that are none stay dead', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      const attack = `<script>window.hit=1</script><img src=x onerror="window.hit=1"><svg onload=window.hit=1></svg></template></textarea></style>`;
      const yaml = JSON.stringify(attack);
      const text = [
        `---\ntitle: ${yaml}\nteam: ${yaml}\n${'x'.repeat(30)}: ${yaml}\nunits: SI\n---`,
        `${attack}\n\n[a](javascript:window.hit=1) [b](data:text/html,<script>window.hit=1</script>) <javascript:window.hit=1> ![c](https://localhost/x.png) [d](vbscript:x)\n`,
        `\`\`\`given\nsymbol: a\nlabel: ${yaml}\nvalue: 5 mm\nunit: mm\nnote: ${yaml}\n\`\`\`\n\n\`\`\`given\nsymbol: a2\nlabel: x\nvalue: ${yaml}\nunit: mm\ninstrument: ${yaml}\n\`\`\`\n`,
        `\`\`\`step\nsymbol: b\nlabel: ${yaml}\nformula: 2*a\nunit: mm\nnote: ${yaml}\n\`\`\`\n`,
        `\`\`\`step\nsymbol: b2\nlabel: bad\nformula: ${yaml}\nunit: ${yaml}\n\`\`\`\n`,
        `\`\`\`check\nid: ${yaml}\nlabel: ${yaml}\ncondition: a > 0*a\nholds: ${JSON.stringify(`${attack}{=a}`)}\notherwise: x\n\`\`\`\n`,
        `\`\`\`choice\nid: ch\nlabel: ${yaml}\nchosen: ${yaml}\noptions:\n  - key: ${yaml}\n    label: ${yaml}\n    sets:\n      q: "1"\n    source: ${yaml}\n\`\`\`\n`,
        `\`\`\`checklist\nid: cl\nlabel: ${yaml}\nitems:\n  - ${yaml}\n\`\`\`\n`,
        `\`\`\`remark\nid: re\nheading: ${yaml}\ntext: ${yaml}\n\`\`\`\n`,
        `\`\`\`figure\nid: fi\nlabel: ${yaml}\ndrawing: free-body\nvalues:\n  span: a\n  s1: b\n  F1: ${yaml}\n\`\`\`\n`,
        `\`\`\`figure\nid: fj\nlabel: x\ndrawing: ${yaml}\n\`\`\`\n`,
        `\`\`\`unknownkind\n${attack}\n\`\`\`\n`,
      ].join('\n');
      await bringIn(page, file('attack.md', text));
      await expect.poll(() => textOf(notice(page))).toMatch(/is brought in/);
      expect(await result(page, 'b')).toMatch(/^10 mm$/);
      // A broken picture that is made now has failed: so has one that was made before, and would have called its handler.
      await page.evaluate(() => new Promise((resolve) => {
        const picture = new Image();
        picture.onerror = resolve;
        picture.src = 'data:image/png,broken';
      }));
      expect(await page.evaluate(() => (window as unknown as { hit?: number }).hit)).toBeUndefined();
      expect(await page.locator('main script, main img[onerror], main svg[onload], main iframe').count()).toBe(0);
      const targets = await page.locator('a[href]').evaluateAll((links) => links.map((link) => link.getAttribute('href') ?? ''));
      expect(targets.filter((target) => !/^(?:https?:|mailto:|#)/.test(target))).toEqual([]);
      await screenshot(page, 'hostile-script');
      // The files made of it are as harmless, and hold it byte for byte.
      const report = await download(page, () => chooseTakeaway(page, 'Report'));
      expect(/<script|<img src=x|<svg onload/i.test(report.text)).toBe(false);
      expect((await download(page, () => chooseTakeaway(page, 'Document'))).text === text).toBe(true);
    });
  });

  test('a working file made of it is as harmless', async () => {
    let path = '';
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await page.locator('.title-block').getByRole('textbox', { name: 'Title of the sheet' }).fill('</title><script>window.hit=1</script>');
      await page.locator('.title-block').getByRole('textbox', { name: 'Team' }).fill('"><img src=x onerror=window.hit=1>');
      path = renamed(await download(page, () => chooseTakeaway(page, 'Working file')));
    });
    await withPage({ file: path }, async ({ page }) => {
      await expect.poll(() => page.locator('.title-block').getByRole('textbox', { name: 'Title of the sheet' }).inputValue()).toBe('</title><script>window.hit=1</script>');
      expect(await page.title()).toBe('</title><script>window.hit=1</script>');
      expect(await page.evaluate(() => (window as unknown as { hit?: number }).hit)).toBeUndefined();
    });
  });

  test('depth and multiplication: told at the cell, the page stays quick', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      const depth = 20_000;
      const aliases = ['a: &a [x,x,x,x,x,x,x,x,x]', ...'bcdefghi'.split('').map((name, i) => `${name}: &${name} [${Array(9).fill(`*${'abcdefghi'[i]}`).join(',')}]`)].join('\n');
      const text = `${standard}\n\n\`\`\`step\nid: deep\nsymbol: deep\nformula: ${'('.repeat(depth)}1${')'.repeat(depth)}\n\`\`\`\n\n\`\`\`given\nid: bomb\nsymbol: bomb\n${aliases}\n\`\`\`\n\n\`\`\`step\nid: nest\nsymbol: nest\nformula: ${'['.repeat(depth)}\n\`\`\`\n`;
      await bringIn(page, file('deep.md', text));
      await expect.poll(() => textOf(notice(page)), { timeout: 30_000 }).toMatch(/is brought in/);
      for (const [cell, says] of [['deep', /5000 is the most/], ['bomb', /gives the value a name/]] as const) {
        expect(await textOf(page.locator(`[data-cell="${cell}"]`).locator('.problem').first()), cell).toMatch(says);
      }
      // A body that can't be read names no id: it is found by what is said.
      expect(await page.locator('[data-cell]').filter({ hasText: 'inside each other too deeply' }).count()).toBeGreaterThan(0);
      expect(await result(page, 'R_A')).toMatch(/ N$/);
      await fill(page, 'F', '320 N');
      await expect.poll(() => result(page, 'W')).toMatch(/^318\.5/);
      await expectNoLeaks(page);
    });
  });
});
