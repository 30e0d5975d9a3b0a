/** Fracture surfaces under a finger, at 390 by 844: marked in few presses, enlarged, and what is read against what was drawn. */
import { expect, test } from 'vitest';
import type { Page } from 'playwright';
import { KNOWN, markedBy, steady, type KnownFracture, type Shape } from './drawn-fractures.ts';
import { finger, middleOf, swipe, tap, touch, type Place } from './finger.ts';
import { board, cell, mode, take } from './fracture-hand.ts';
import { drawJpeg } from './fracture-pictures.ts';
import { asItOpens as withPage, checkAccess, screenshot, SHORT } from './harness.ts';
import { textOf } from './sheet-page.ts';

const facts = (page: Page): Promise<string> => textOf(cell(page).locator('.facts'));
const scrolled = (page: Page): Promise<number> => page.evaluate(() => Math.round(scrollY));
const dots = (page: Page): Promise<number> => board(page).locator('.dot').count();
const isOn = (page: Page, name: string): Promise<string | null> => cell(page).getByRole('button', { name, exact: true }).getAttribute('aria-pressed');

/** Brings a drawn surface in; marking begins by itself. */
async function broughtIn(page: Page, drawn: KnownFracture): Promise<void> {
  const shown = (): Promise<readonly (string | null)[]> => board(page).locator('img').evaluateAll((images) => images.map((image) => image.getAttribute('src')));
  const before = await shown();
  await take(page, await drawJpeg(page, drawn));
  await expect.poll(async () => JSON.stringify(await shown()) === JSON.stringify(before)).toBe(false);
  await expect.poll(() => isOn(page, 'Outline the section')).toBe('true');
}

/** The picture in the middle of the window: where its dots are there. */
async function atHand(page: Page, drawn: KnownFracture): Promise<(place: Place) => Place> {
  await board(page).evaluate((element) => element.scrollIntoView({ block: 'center', behavior: 'instant' }));
  const box = await board(page).locator('img').boundingBox();
  if (box === null) throw new Error('no picture');
  return ({ x, y }) => ({ x: box.x + (x / drawn.width) * box.width, y: box.y + (y / drawn.height) * box.height });
}

/** Value and standard uncertainty of the share as the sheet says them. */
async function share(page: Page): Promise<{ readonly value: number; readonly u: number }> {
  const [, value = ''] = /= ?([\d.]+) ?%$/.exec(await textOf(cell(page).locator('.result-row').first())) ?? [];
  const [, u = ''] = /± ?([\d.]+) ?%/.exec(await textOf(cell(page).locator('.beside').first())) ?? [];
  return { value: Number(value) / 100, u: Number(u) / 100 };
}

async function shaped(page: Page, shape: Shape): Promise<void> {
  const radio = cell(page).getByRole('radio', { name: shape, exact: true });
  if (!(await radio.isChecked())) await radio.check();
}

/** Outlines both by taps of an unsteady finger, and reads. */
async function marked(page: Page, surface: KnownFracture, seed: number): Promise<{ readonly value: number; readonly u: number }> {
  await broughtIn(page, surface);
  const unsteady = steady(seed);
  for (const [name, border, index] of [['Outline the section', surface.section, 0], ['Outline the final zone', surface.final, 1]] as const) {
    await mode(page, name);
    await shaped(page, surface.shapes[index]);
    const at = await atHand(page, surface);
    // Of a picture's dots, so many lie under a px.
    const hand = surface.hand * (surface.width / (at({ x: surface.width, y: 0 }).x - at({ x: 0, y: 0 }).x));
    const places = markedBy(unsteady, border, surface.points[index], hand).map(at);
    for (const { x, y } of places) await page.touchscreen.tap(x, y);
    await expect.poll(() => dots(page)).toBe(places.length);
  }
  await expect.poll(() => facts(page)).toContain(`through ${surface.points[1]} points`);
  return share(page);
}

test('ten drawn surfaces whose share is known, marked by tapping: how far off, and whether the truth lies within two standard uncertainties', async () => {
  await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
    const read: { readonly name: string; readonly off: number; readonly inU: number }[] = [];
    for (const [i, surface] of KNOWN.entries()) {
      const { value, u } = await marked(page, surface, 20261130 + i);
      read.push({ name: surface.name, off: value - surface.share, inU: (value - surface.share) / u });
      process.stdout.write(`${surface.name}: ${(surface.share * 100).toFixed(2)} % drawn, ${(value * 100).toFixed(2)} % ± ${(u * 100).toFixed(2)} % read by ${surface.points.join(' and ')} points of a hand unsteady by ${surface.hand} px, ${((value - surface.share) / u).toFixed(1)} u off\n`);
    }
    const worst = Math.max(...read.map(({ off }) => Math.abs(off)));
    const within = read.filter(({ inU }) => Math.abs(inU) <= 2).length;
    process.stdout.write(`ten drawn surfaces: worst error ${(worst * 100).toFixed(2)} % of the section, ${within} of ${read.length} within two standard uncertainties\n`);
    expect(read.length).toBe(10);
    expect(worst).toBeLessThan(0.02);
    // 95 % of readings: of ten, one may lie outside.
    expect(within).toBeGreaterThanOrEqual(9);
    await screenshot(page, 'fracture-strip-phone', { fullPage: false });
  });
}, 300_000);

test('a finger that scrolls marks nothing, one that is held still marks with the place enlarged, two enlarge and move the picture, and a whole surface takes twelve presses', async () => {
  await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
    const surface = KNOWN[0];
    if (surface === undefined) throw new Error('none is drawn');
    await broughtIn(page, surface);
    const at = await atHand(page, surface);
    const hand = await finger(page);
    let presses = 0;
    const tapped = async (place: Place): Promise<void> => {
      presses += 1;
      await tap(hand, place);
    };
    for (const [i, place] of markedBy(steady(1), surface.section, 4, 2).entries()) {
      await tapped(at(place));
      await expect.poll(() => dots(page)).toBe(i + 1);
    }
    presses += 1;
    await cell(page).getByRole('button', { name: 'Next: outline the final zone' }).tap();
    for (const place of markedBy(steady(1), surface.final, 5, 2)) await tapped(at(place));
    await screenshot(page, 'fracture-touch-phone', { fullPage: false });
    presses += 1;
    await cell(page).getByRole('button', { name: 'Next: mark an origin' }).tap();
    await tapped(at({ x: 330, y: 170 }));
    await expect.poll(() => facts(page)).toMatch(/through 4 points;.*through 5 points.*one is marked/);
    process.stdout.write(`a fracture surface: ${presses} presses from the picture to share, place and origin\n`);
    expect(presses).toBe(12);
    const read = await share(page);
    expect(Math.abs(read.value - surface.share)).toBeLessThan(2 * read.u);

    // On the way over the picture.
    const [before, from] = [await facts(page), await scrolled(page)];
    await swipe(hand, await middleOf(board(page)), { x: 0, y: -150 });
    await expect.poll(() => scrolled(page)).toBeGreaterThan(from + 80);
    await swipe(hand, await middleOf(board(page)), { x: 0, y: 150 });
    expect([await facts(page), await dots(page)]).toEqual([before, 1]);

    // The page may still be on its way.
    await expect.poll(async () => {
      const seen = await scrolled(page);
      await page.evaluate(() => new Promise((resolve) => void setTimeout(resolve, 120)));
      return (await scrolled(page)) - seen;
    }).toBe(0);
    // Apart by three times as much; the place between the fingers stays between them.
    await board(page).evaluate((element) => element.scrollIntoView({ block: 'center', behavior: 'instant' }));
    const middle = await middleOf(board(page));
    const apart = (by: number): readonly Place[] => [{ x: middle.x - by, y: middle.y }, { x: middle.x + by, y: middle.y }];
    const widthOf = (): Promise<number> => board(page).locator('img').evaluate((image) => image.clientWidth);
    const [width, still] = [await widthOf(), await scrolled(page)];
    await touch(hand, 'touchStart', ...apart(30));
    for (let by = 36; by <= 90; by += 6) await touch(hand, 'touchMove', ...apart(by));
    await touch(hand, 'touchEnd');
    expect(Math.abs((await widthOf()) / width - 3)).toBeLessThan(0.2);
    const imageMiddle = await middleOf(board(page).locator('img'));
    expect(Math.hypot(imageMiddle.x - middle.x, imageMiddle.y - middle.y)).toBeLessThan(4);
    expect([await facts(page), await scrolled(page), await page.evaluate(() => visualViewport?.scale)]).toEqual([before, still, 1]);
    // One finger moves what is enlarged.
    await swipe(hand, middle, { x: -60, y: -40 });
    await expect.poll(async () => imageMiddle.x - (await middleOf(board(page).locator('img'))).x).toBeGreaterThan(30);
    expect(await facts(page)).toEqual(before);
    await screenshot(page, 'fracture-enlarged-phone', { fullPage: false });
    await checkAccess(page);
    await cell(page).getByRole('button', { name: 'Whole picture' }).tap();
    expect(await widthOf()).toBe(width);

    // Held still, and then a little aside: a point where it is lifted.
    const place = (await atHand(page, surface))({ x: 700, y: 200 });
    const rest = await scrolled(page);
    await touch(hand, 'touchStart', place);
    await expect.poll(() => board(page).locator('.loupe').isVisible()).toBe(true);
    for (const by of [4, 12, 20]) await touch(hand, 'touchMove', { x: place.x, y: place.y + by });
    await touch(hand, 'touchEnd');
    await expect.poll(() => facts(page)).toMatch(/2 are marked/);
    expect(await scrolled(page)).toBe(rest);
    // A tapped point is dragged, and no other.
    const lower = { x: place.x, y: place.y + 20 };
    await tap(hand, lower);
    await swipe(hand, lower, { x: 0, y: 50 });
    await expect.poll(async () => (await middleOf(board(page).locator('.dot').nth(1))).y - lower.y).toBeGreaterThan(44);
    expect(await scrolled(page)).toBe(rest);
    await expect.poll(() => facts(page)).toMatch(/2 are marked/);
  });
}, 120_000);

test('with keys, buttons and the wheel with Ctrl the picture is enlarged too', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    const surface = KNOWN[5];
    if (surface === undefined) throw new Error('none is drawn');
    await broughtIn(page, surface);
    const widthOf = (): Promise<number> => board(page).locator('img').evaluate((image) => image.clientWidth);
    const width = await widthOf();
    await board(page).focus();
    await page.keyboard.press('+');
    await page.keyboard.press('+');
    expect((await widthOf()) / width).toBeCloseTo(2.25, 1);
    // The cross stays in sight, wherever it goes.
    for (let i = 0; i < 30; i += 1) await page.keyboard.press('Shift+ArrowLeft');
    expect(await board(page).evaluate((element) => element.scrollLeft)).toBe(0);
    await page.keyboard.press('Enter');
    expect(await dots(page)).toBe(1);
    await page.keyboard.press('0');
    expect(await widthOf()).toBe(width);
    const { x, y } = await middleOf(board(page));
    await page.mouse.move(x, y);
    await page.keyboard.down('Control');
    await page.mouse.wheel(0, -240);
    await page.keyboard.up('Control');
    await expect.poll(async () => (await widthOf()) / width).toBeGreaterThan(2.5);
    await screenshot(page, 'fracture-enlarged-desktop', { fullPage: false });
    await cell(page).getByRole('button', { name: 'Smaller' }).click();
    expect((await widthOf()) / width).toBeLessThan(2);
    await cell(page).getByRole('button', { name: 'Whole picture' }).click();
    expect([await widthOf(), await dots(page)]).toEqual([width, 1]);
  });
});
