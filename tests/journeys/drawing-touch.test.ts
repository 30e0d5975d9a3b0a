/** Drawings under a finger: scrolling over a handle scrolls and changes nothing; a handle is tapped first, and then dragged. */
import { describe, expect, test } from 'vitest';
import type { CDPSession, Locator, Page } from 'playwright';
import { finger, middleOf, swipe, tap } from './finger.ts';
import { intoView, screenshot, SHORT, withPage } from './harness.ts';
import { head, line, textOf } from './sheet-page.ts';

interface Written {
  /** What stands in the blanks of each given that is drawn, by cell. */
  readonly blanks: Readonly<Record<string, readonly string[]>>;
  /** What is said of trial values, anywhere. */
  readonly trials: readonly string[];
}

const written = (page: Page): Promise<Written> => page.evaluate(() => ({
  blanks: Object.fromEntries([...document.querySelectorAll<HTMLElement>('.cell-given')]
    .map((given) => [given.dataset.cell ?? '', [...given.querySelectorAll<HTMLInputElement>('input.blank')].map(({ value }) => value)])),
  trials: [...document.querySelectorAll('.cell-given .trial-here')].map(({ textContent }) => textContent),
}));

/** A line drawn only since, because it came near the window, changes nothing: it is left out, and lines drawn before are held to what they said. */
async function expectUnchanged(page: Page, before: Written): Promise<void> {
  const now = await written(page);
  expect(Object.fromEntries(Object.keys(before.blanks).map((cell) => [cell, now.blanks[cell]]))).toEqual(before.blanks);
  expect(now.trials).toEqual(before.trials);
}

const scrolled = (page: Page): Promise<number> => page.evaluate(() => Math.round(scrollY));

/** The handle with its drawing in the middle of the window. */
async function atHand(page: Page, cell: string, name: string): Promise<Locator> {
  const figure = page.locator(`[data-cell="${cell}"]`);
  await intoView(figure);
  const knob = figure.getByRole('slider', { name });
  await knob.waitFor();
  await knob.evaluate((element) => element.scrollIntoView({ block: 'center', behavior: 'instant' }));
  await expect.poll(async () => (await middleOf(knob)).y).toBeGreaterThan(300);
  return knob;
}

/** A scroll of 200 px that begins on a handle. */
async function expectScrollOnly(page: Page, hand: CDPSession, knob: Locator): Promise<void> {
  const [before, from] = [await written(page), await scrolled(page)];
  await swipe(hand, await middleOf(knob), { x: 0, y: -200 });
  await expect.poll(() => scrolled(page)).toBeGreaterThan(from + 100);
  await expectUnchanged(page, before);
}

describe('with a finger at 390 by 844', () => {
  test('a scroll that begins on a handle scrolls and changes nothing; a tapped handle is dragged, and one tap puts back', async () => {
    await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
      const hand = await finger(page);
      for (const name of ['Left load point', 'Section', 'Right support']) await expectScrollOnly(page, hand, await atHand(page, 'free-body', name));
      const knob = await atHand(page, 'free-body', 'Left load point');
      const before = await written(page);
      // Not chosen yet: a finger that goes along the shaft moves nothing either.
      await swipe(hand, await middleOf(knob), { x: 60, y: 0 });
      await expectUnchanged(page, before);
      await tap(hand, await middleOf(knob));
      await expect.poll(() => knob.getAttribute('class')).toContain('chosen');
      await screenshot(page, 'touch-chosen-phone', { fullPage: false });
      await swipe(hand, await middleOf(knob), { x: 40, y: 0 });
      const told = line(page, 's_1').locator('.trial-here');
      await expect.poll(() => told.count()).toBe(1);
      // The first move of the finger makes the trial value, the others are on their way.
      await expect.poll(() => textOf(told)).toMatch(/^Trial value 1[3-7]\d(?:\.\d+)? mm .*your readings stay/);
      expect((await written(page)).blanks).toMatchObject(before.blanks);
      await screenshot(page, 'touch-dragged-phone', { fullPage: false });
      const back = page.locator('[data-cell="free-body"] .put-back');
      await intoView(back);
      await tap(hand, await middleOf(back));
      await expect.poll(() => told.count()).toBe(0);
      await expectUnchanged(page, before);
    });
  });

  test('a scroll that begins on a chosen handle is a scroll and no drag', async () => {
    await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
      const hand = await finger(page);
      const knob = await atHand(page, 'free-body', 'Left load point');
      await tap(hand, await middleOf(knob));
      await expect.poll(() => knob.getAttribute('class')).toContain('chosen');
      await expectScrollOnly(page, hand, knob);
    });
  });

  test('the ends of a stroke, which move up and down, are scrolled over as well', async () => {
    await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
      const hand = await finger(page);
      await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
      await page.getByRole('button', { name: 'Alternating plane bending, with the invented example' }).click();
      for (const name of ['Upper end of the stroke', 'Lower end of the stroke']) await expectScrollOnly(page, hand, await atHand(page, 'set-up', name));
      const knob = await atHand(page, 'set-up', 'Upper end of the stroke');
      const before = await written(page);
      await tap(hand, await middleOf(knob));
      await expect.poll(() => knob.getAttribute('class')).toContain('chosen');
      await swipe(hand, await middleOf(knob), { x: 0, y: -10 });
      await expect.poll(() => line(page, 'z_2').locator('.trial-here').count()).toBe(1);
      expect((await written(page)).blanks).toMatchObject(before.blanks);
      await line(page, 'z_2').evaluate((element) => element.scrollIntoView({ block: 'center' }));
      await screenshot(page, 'touch-trial-line-phone', { fullPage: false });
    });
  });
});
