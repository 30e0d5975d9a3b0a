/** A fracture surface is photographed, marked, read, and taken away without what the camera wrote beside the picture. */
import { expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { asFromCamera, drawJpeg, PLACE } from './fracture-pictures.ts';
import { checkAccess, download, goToFile, screenshot, withPage } from './harness.ts';
import { renamed } from './saved-file.ts';
import { chooseTakeaway, textOf, untilKept } from './sheet-page.ts';

/** Lying on its side as the camera stores it; a quarter turn to the right makes it 600 wide and 800 high. */
const STORED = { width: 800, height: 600, section: { x: 400, y: 290, radius: 250 }, final: { x: 480, y: 330, radius: 90 } };
/** The same after the turn: (x, y) goes to (600 − y, x). */
const UPRIGHT = { width: 600, height: 800, section: { x: 310, y: 400, radius: 250 }, final: { x: 270, y: 480, radius: 90 } };
const SHARE = (UPRIGHT.final.radius / UPRIGHT.section.radius) ** 2;
const ECCENTRICITY = Math.hypot(310 - 270, 400 - 480) / 250;

const cell = (page: Page): Locator => page.locator('.cell-photo').first();
const board = (page: Page): Locator => cell(page).locator('.board');

async function take(page: Page, buffer: Buffer, name = 'surface.jpg', mimeType = 'image/jpeg'): Promise<void> {
  const input = cell(page).locator('input[type=file]');
  await input.waitFor({ state: 'attached' });
  await input.setInputFiles({ name, mimeType, buffer });
}

async function taken(page: Page): Promise<void> {
  await take(page, asFromCamera(await drawJpeg(page, STORED)));
  await expect.poll(() => board(page).locator('img').count()).toBe(1);
}

/** A press at a place of the picture, in dots of it. */
async function press(page: Page, x: number, y: number): Promise<void> {
  await board(page).scrollIntoViewIfNeeded();
  const box = await board(page).locator('img').boundingBox();
  if (box === null) throw new Error('no picture');
  await page.mouse.click(box.x + (x / UPRIGHT.width) * box.width, box.y + (y / UPRIGHT.height) * box.height);
}

async function keys(page: Page, key: string, times: number): Promise<void> {
  for (let i = 0; i < times; i += 1) await page.keyboard.press(key);
}

const mode = (page: Page, name: string): Promise<void> => cell(page).getByRole('button', { name }).click();
const circle = (page: Page): Promise<void> => cell(page).getByRole('button', { name: 'Circle through the three points' }).click();

async function outlineByPointer(page: Page): Promise<void> {
  const { x, y, radius } = UPRIGHT.section;
  await mode(page, 'Outline the section');
  for (const angle of [0, 2, 4]) await press(page, x + radius * Math.cos(angle), y + radius * Math.sin(angle));
  await circle(page);
}

/** From the middle of the picture, 300 and 400 dots, to three points on the rim of the final zone. */
async function outlineByKeys(page: Page): Promise<void> {
  await mode(page, 'Outline the final zone');
  await board(page).focus();
  await keys(page, 'Shift+ArrowLeft', 1);
  await keys(page, 'ArrowLeft', 5);
  await keys(page, 'ArrowUp', 5);
  await page.keyboard.press('Enter');
  await keys(page, 'Shift+ArrowDown', 4);
  await keys(page, 'ArrowDown', 5);
  await keys(page, 'Shift+ArrowRight', 4);
  await keys(page, 'ArrowRight', 5);
  await page.keyboard.press('Enter');
  await keys(page, 'Shift+ArrowLeft', 9);
  await page.keyboard.press('Enter');
  await circle(page);
}

const percent = async (page: Page): Promise<number> => Number(/([\d.]+) % of the section/.exec(await textOf(cell(page).locator('.facts')))?.[1]);

test('a picture is turned upright, marked with pointer and keys, and read', async () => {
  await withPage({}, async ({ page }) => {
    await taken(page);
    const size = await board(page).locator('img').evaluate((image: HTMLImageElement) => [image.naturalWidth, image.naturalHeight]);
    expect(size).toEqual([600, 800]);
    await outlineByKeys(page);
    await outlineByPointer(page);
    await expect.poll(() => percent(page)).toBeGreaterThan(0);
    expect(Math.abs((await percent(page)) / 100 - SHARE)).toBeLessThan(0.005);
    expect(await textOf(cell(page).locator('.facts'))).toContain(`${ECCENTRICITY.toFixed(2)} radii`);

    await mode(page, 'Set the scale');
    await press(page, 60, 400);
    await press(page, 560, 400);
    await cell(page).getByRole('textbox', { name: 'Length between the two points' }).fill('8 mm');
    await page.keyboard.press('Tab');
    // 500 dots are 8 mm; the area of the section is then π · (250 · 8/500)² mm².
    await expect.poll(() => textOf(cell(page).locator('.facts'))).toMatch(/section 5[01]\.\d mm²/);
    await mode(page, 'Mark an origin');
    await press(page, 430, 180);
    await expect.poll(() => textOf(cell(page).locator('.facts'))).toMatch(/one is marked/);
    await checkAccess(page);
    await screenshot(page, 'photo-desktop', { fullPage: false });
  });
});

test('report and working file hold the picture and its marks, but nothing of what the camera wrote beside it', async () => {
  await withPage({}, async ({ page }) => {
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
    await page.locator('.cell-photo').scrollIntoViewIfNeeded();
    expect(await page.locator('.cell-photo img').getAttribute('alt')).toMatch(/Final zone: 1[23]\.?\d* % of the section/);
    await checkAccess(page);
    await screenshot(page, 'photo-report', { fullPage: false });
    await goToFile(page, renamed(working));
    await expect.poll(() => percent(page)).toBeGreaterThan(0);
  });
});

test('one point is one step to undo; a quarter turn takes the marks along', async () => {
  await withPage({ size: 'phone' }, async ({ page }) => {
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
    await board(page).scrollIntoViewIfNeeded();
    await screenshot(page, 'photo-phone', { fullPage: false });
    await checkAccess(page);
  });
});

test('what is no picture, too large, cut off or moving is refused in words, and the picture there stays', async () => {
  await withPage({}, async ({ page }) => {
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

test('a second picture of the specimen has a cell of its own', async () => {
  await withPage({}, async ({ page }) => {
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
