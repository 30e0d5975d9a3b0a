/** A fracture surface is photographed, marked, read, and taken away without what the camera wrote beside the picture. */
import { expect, test } from 'vitest';
import type { Page } from 'playwright';
import {
  board, cell, ECCENTRICITY, keys, mode, outlineByKeys, outlineByPointer, press, SHARE, STORED, take, taken,
} from './fracture-hand.ts';
import { drawJpeg, PLACE, round } from './fracture-pictures.ts';
import { asItOpens as withPage, checkAccess, download, goToFile, intoView, screenshot, SHORT } from './harness.ts';
import { renamed } from './saved-file.ts';
import { chooseTakeaway, textOf, untilKept } from './sheet-page.ts';

const percent = async (page: Page): Promise<number> => Number(/([\d.]+) % of the section/.exec(await textOf(cell(page).locator('.facts')))?.[1]);

test('a picture is turned upright, marked with pointer and keys, and read', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    await taken(page);
    const size = await board(page).locator('img').evaluate((image: HTMLImageElement) => [image.naturalWidth, image.naturalHeight]);
    expect(size).toEqual([600, 800]);
    await outlineByKeys(page);
    await outlineByPointer(page);
    await expect.poll(() => percent(page)).toBeGreaterThan(0);
    expect(Math.abs((await percent(page)) / 100 - SHARE)).toBeLessThan(0.005);
    expect(await textOf(cell(page).locator('.facts'))).toContain(`${ECCENTRICITY.toFixed(2)} radii`);

    // The chosen one stands in line with the others.
    const tops = await cell(page).getByRole('radio').evaluateAll((all) => all.slice(0, 2).map((one) => one.getBoundingClientRect().top));
    expect([tops.length, Math.abs((tops[0] ?? NaN) - (tops[1] ?? NaN)) < 0.5]).toEqual([2, true]);

    await mode(page, 'Set the scale');
    await press(page, 60, 400);
    await press(page, 560, 400);
    await cell(page).getByRole('textbox', { name: 'Length between the two points' }).fill('8 mm');
    await page.keyboard.press('Tab');
    // 500 dots are 8 mm; the area of the section is then π · (250 · 8/500)² mm².
    await expect.poll(() => textOf(cell(page).locator('.facts'))).toMatch(/section 5[01]\.\d mm2/);
    // What the surface suggests is there to be read.
    expect(await cell(page).locator('.says').isVisible()).toBe(true);
    expect(await textOf(cell(page).locator('.says'))).toMatch(/A small final zone/);
    await mode(page, 'Mark an origin');
    await press(page, 430, 180);
    await expect.poll(() => textOf(cell(page).locator('.facts'))).toMatch(/one is marked/);
    await checkAccess(page);
    await screenshot(page, 'photo-desktop', { fullPage: false });
  });
});

test('report and working file hold the picture and its marks, but nothing of what the camera wrote beside it', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    await taken(page);
    await outlineByKeys(page);
    await outlineByPointer(page);
    await untilKept(page);

    const document = await download(page, () => chooseTakeaway(page, 'Document'));
    const stored = Buffer.from(/picture: \|\n((?: +\S+\n)+)/.exec(document.text)?.[1]?.replace(/\s/g, '') ?? '', 'base64');
    expect(stored.length).toBeGreaterThan(1000);
    for (const word of [PLACE, 'Exif', 'GPS']) expect(stored.includes(word), word).toBe(false);
    const report = await download(page, () => chooseTakeaway(page, 'Report'));
    const working = await download(page, () => chooseTakeaway(page, 'Working file'));
    for (const { text } of [report, working]) {
      const pictures = [...text.matchAll(/data:image\/jpeg;base64,([\w+/=]+)/g)].map(([, base64 = '']) => Buffer.from(base64, 'base64'));
      for (const picture of pictures) expect(picture.includes('Exif') || picture.includes(PLACE)).toBe(false);
      expect(text.includes(PLACE)).toBe(false);
      expect(pictures.length).toBe(1);
    }

    await page.reload();
    await expect.poll(() => percent(page)).toBeGreaterThan(0);
    await goToFile(page, renamed(report));
    await intoView(page.locator('.cell-photo'));
    expect(await page.locator('.cell-photo img').getAttribute('alt')).toMatch(/Final zone: 1[23]\.?\d* % of the section/);
    await checkAccess(page);
    await screenshot(page, 'photo-report', { fullPage: false });
    await goToFile(page, renamed(working));
    await expect.poll(() => percent(page)).toBeGreaterThan(0);
  });
});

test('one point is one step to undo; a quarter turn takes the marks along', async () => {
  await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
    await taken(page);
    await outlineByKeys(page);
    await outlineByPointer(page);
    await expect.poll(() => percent(page)).toBeGreaterThan(0);
    const before = await percent(page);
    await cell(page).getByRole('button', { name: 'Turn right' }).click();
    await expect.poll(() => board(page).locator('img').evaluate((image: HTMLImageElement) => image.naturalWidth)).toBe(800);
    expect(Math.abs((await percent(page)) - before)).toBeLessThan(0.2);
    await mode(page, 'Mark an origin');
    await board(page).focus();
    await page.keyboard.press('Enter');
    await keys(page, 'Shift+ArrowRight', 3);
    await page.keyboard.press('Enter');
    await expect.poll(() => textOf(cell(page).locator('.facts'))).toMatch(/2 are marked/);
    await page.keyboard.press('Control+z');
    await expect.poll(() => textOf(cell(page).locator('.facts'))).toMatch(/one is marked/);
    await intoView(board(page));
    await screenshot(page, 'photo-phone', { fullPage: false });
    await checkAccess(page);
  });
});

test('what is no picture, too large, cut off or moving is refused in words, and the picture there stays', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    await taken(page);
    const source = await board(page).locator('img').getAttribute('src');
    const jpeg = await drawJpeg(page, STORED);
    const huge = Buffer.from(jpeg);
    // Height and width in the frame header of a baseline JPEG (ITU-T T.81, B.2.2).
    const frame = huge.indexOf(Buffer.from([0xff, 0xc0]));
    huge.writeUInt16BE(60_000, frame + 5);
    huge.writeUInt16BE(60_000, frame + 7);
    const moving = Buffer.from('47494638396101000100800000000000ffffff2c00000000010001000002024401002c000000000100010000020244010' + '03b', 'hex');
    for (const [buffer, words] of [
      [Buffer.from('no picture at all'), /is no picture that the page can read/],
      [huge, /60000 × 60000 dots/],
      [jpeg.subarray(0, jpeg.length / 2), /cut off before its end/],
      [moving, /a moving picture/],
      [Buffer.alloc(0), /This file is empty/],
    ] as const) {
      await take(page, buffer);
      await expect.poll(() => textOf(cell(page).locator('.problem').first())).toMatch(words);
      expect(await board(page).locator('img').getAttribute('src')).toBe(source);
    }
  });
});

test('the other half of the fracture stands beside this one, each with its marks, and what they say is compared', async () => {
  await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
    await taken(page);
    await outlineByKeys(page);
    await outlineByPointer(page);
    await cell(page).getByRole('button', { name: 'The other half beside it' }).click();
    const other = page.locator('.cell-photo').nth(1);
    await other.locator('input[type=file]').setInputFiles({ name: 'b.jpg', mimeType: 'image/jpeg', buffer: await drawJpeg(page, { ...STORED, final: round({ x: 480, y: 330, radius: 91 }) }) });
    await expect.poll(() => other.locator('.halves img').count()).toBe(2);
    await expect.poll(() => textOf(other.locator('.facts'))).toContain('are compared once section and final zone are outlined here');
    const marks = async (name: string, places: readonly (readonly [number, number])[]): Promise<void> => {
      await other.getByRole('button', { name, exact: true }).evaluate((button) => button.getAttribute('aria-pressed') !== 'true' && button instanceof HTMLElement && button.click());
      await expect.poll(() => other.locator('.dot').count()).toBe(0);
      await other.locator('.board').evaluate((element) => element.scrollIntoView({ block: 'center' }));
      const box = await other.locator('.board img').boundingBox();
      if (box === null) throw new Error('no picture');
      for (const [x, y] of places) await page.touchscreen.tap(box.x + (x / STORED.width) * box.width, box.y + (y / STORED.height) * box.height);
      await expect.poll(() => other.locator('.dot').count()).toBe(places.length);
    };
    const on = (x: number, y: number, radius: number, count: number) => Array.from({ length: count }, (_, i) => [x + radius * Math.cos((2 * Math.PI * i) / count), y + radius * Math.sin((2 * Math.PI * i) / count)] as const);
    await marks('Outline the section', on(400, 290, 250, 4));
    await screenshot(page, 'halves-marking-phone', { fullPage: false });
    await marks('Outline the final zone', on(480, 330, 91, 6));
    await expect.poll(() => textOf(other.locator('.facts'))).toMatch(/1\d\.\d % here and 1[23]\.\d % on “Fracture surface”; they agree/);
    // Another zone is another fracture.
    await other.getByRole('button', { name: 'Begin anew' }).click();
    await marks('Outline the final zone', on(480, 330, 140, 6));
    await expect.poll(() => textOf(other)).toMatch(/they do not agree.*The two halves of the fracture do not agree/);
    await other.getByRole('button', { name: 'Outline the final zone', exact: true }).click();
    await other.locator('.halves').evaluate((element) => element.scrollIntoView({ block: 'start' }));
    await screenshot(page, 'halves-phone', { fullPage: false });
    await checkAccess(page);
    await page.setViewportSize({ width: 1440, height: 900 });
    await other.locator('.halves').evaluate((element) => element.scrollIntoView({ block: 'start' }));
    await screenshot(page, 'halves-desktop', { fullPage: false });
  });
});

test('a second picture of the specimen has a cell of its own', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    await taken(page);
    const count = await page.locator('.cell-photo').count();
    await cell(page).getByRole('button', { name: 'Another picture of this specimen' }).click();
    await expect.poll(() => page.locator('.cell-photo').count()).toBe(count + 1);
    const second = page.locator('.cell-photo').nth(1);
    await second.locator('input[type=file]').setInputFiles({ name: 'b.jpg', mimeType: 'image/jpeg', buffer: await drawJpeg(page, STORED) });
    await expect.poll(() => second.locator('.board img').count()).toBe(1);
    expect(await page.locator('.board img').count()).toBe(2);
  });
});
