/** A hand at a picture of a fracture surface: takes it, outlines section and final zone by pointer and by keys. */
import { expect } from 'vitest';
import type { Locator, Page } from 'playwright';
import { intoView } from './harness.ts';
import { asFromCamera, drawJpeg, round, type DrawnFracture } from './fracture-pictures.ts';

/** Lying on its side as the camera stores it; a quarter turn to the right makes it 600 wide and 800 high. */
export const STORED: DrawnFracture = { width: 800, height: 600, section: round({ x: 400, y: 290, radius: 250 }), final: round({ x: 480, y: 330, radius: 90 }) };
/** The same after the turn: (x, y) goes to (600 − y, x). */
const UPRIGHT = { width: 600, height: 800, section: { x: 310, y: 400, radius: 250 }, final: { x: 270, y: 480, radius: 90 } };
export const SHARE = (UPRIGHT.final.radius / UPRIGHT.section.radius) ** 2;
export const ECCENTRICITY = Math.hypot(310 - 270, 400 - 480) / 250;

export const cell = (page: Page): Locator => page.locator('.cell-photo').first();
export const board = (page: Page): Locator => cell(page).locator('.board');

export async function take(page: Page, buffer: Buffer, name = 'surface.jpg', mimeType = 'image/jpeg'): Promise<void> {
  const input = cell(page).locator('input[type=file]');
  await input.waitFor({ state: 'attached' });
  await input.setInputFiles({ name, mimeType, buffer });
}

export async function taken(page: Page): Promise<void> {
  await take(page, asFromCamera(await drawJpeg(page, STORED)));
  await expect.poll(() => board(page).locator('img').count()).toBe(1);
}

/** A press at a place of the picture, in dots of it. */
export async function press(page: Page, x: number, y: number): Promise<void> {
  await intoView(board(page));
  const box = await board(page).locator('img').boundingBox();
  if (box === null) throw new Error('no picture');
  await page.mouse.click(box.x + (x / UPRIGHT.width) * box.width, box.y + (y / UPRIGHT.height) * box.height);
}

export async function keys(page: Page, key: string, times: number): Promise<void> {
  for (let i = 0; i < times; i += 1) await page.keyboard.press(key);
}

/** What is marked from now on; where that is so already it stays so. */
export async function mode(page: Page, name: string): Promise<void> {
  const button = cell(page).getByRole('button', { name, exact: true });
  if ((await button.getAttribute('aria-pressed')) !== 'true') await button.click();
}

/** How the border goes between its points: of a strip's picture straight unless said. */
const shaped = (page: Page, name: string): Promise<void> => cell(page).getByRole('radio', { name, exact: true }).check();

export async function outlineByPointer(page: Page): Promise<void> {
  const { x, y, radius } = UPRIGHT.section;
  await mode(page, 'Outline the section');
  await shaped(page, 'a circle');
  for (const angle of [0, 2, 4]) await press(page, x + radius * Math.cos(angle), y + radius * Math.sin(angle));
}

/** From the middle of the picture, 300 and 400 dots, to three points on the rim of the final zone. */
export async function outlineByKeys(page: Page): Promise<void> {
  await mode(page, 'Outline the final zone');
  await shaped(page, 'an ellipse');
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
}
