/** Samples of a result in a worker: opened by keyboard, watched, judged, begun anew by an edit, stopped. */
import { pathToFileURL } from 'node:url';
import { expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { createSheetGraph, samplingRequest, startSampling } from '../../src/graph/index.ts';
import { presentSamples, unitSystemOf, type PresentedSamples } from '../../src/report/index.ts';
import { parseSheet } from '../../src/sheet/index.ts';
import { shortSheet } from '../shipped.ts';
import { checkAccess, download, screenshot, SHORT, withPage, type Opening } from './harness.ts';
import { renamed } from './saved-file.ts';
import { chooseTakeaway, expectNoLeaks, textOf } from './sheet-page.ts';

const LONG = { timeout: 120_000 };
const openings: readonly (readonly [string, Opening])[] = [['phone', { sheet: SHORT, size: 'phone' }], ['desktop', { sheet: SHORT, size: 'desktop' }]];

async function press(page: Page, control: Locator): Promise<void> {
  await control.focus();
  await page.keyboard.press('Enter');
}

async function sampledHere(): Promise<PresentedSamples> {
  const document = parseSheet(shortSheet());
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  const sampling = startSampling(samplingRequest(graph.compiled(), states, 'N_f', { seed: 1, digits: 2 }));
  graph.dispose();
  while (sampling.advance());
  const state = states.symbol('N_f');
  const presented = state === undefined ? undefined : presentSamples(sampling.result(), state, { document, states, system: unitSystemOf(document) });
  if (presented === undefined) throw new Error('nothing drawn');
  return presented;
}

test.each(openings)('%s: draws of the life are watched, judged, and begun anew after an edit', async (name, opening) => {
  await withPage(opening, async ({ page }) => {
    const cell = page.locator('[data-cell="N_f"]');
    await cell.waitFor(LONG);
    await cell.focus();
    // It may be gone again within a second.
    await page.evaluate(() => new MutationObserver((_all, observer) => {
      if (document.querySelector('[role="progressbar"][aria-label="Draws made"], progress[aria-label="Draws made"]') === null) return;
      document.documentElement.dataset['sawProgress'] = 'yes';
      observer.disconnect();
    }).observe(document.body, { childList: true, subtree: true }));
    await press(page, cell.getByRole('button', { name: 'draws', exact: true }));
    const region = page.getByRole('region', { name: 'Draws of Predicted life (median)' });
    await expect.poll(() => page.evaluate(() => document.documentElement.dataset['sawProgress']), LONG).toBe('yes');
    await region.locator('.verdict-line').waitFor(LONG);
    // A steep line that is itself uncertain: first order misses both ends as ±.
    const judged = /^Don't use the first-order interval as ± here\. .* (?:Use|use) the interval of the draws, ([\d ]+) to ([\d ]+) cycles\b/.exec(await textOf(region.locator('.verdict-line')));
    expect(judged).not.toBeNull();
    const [, low = '', high = ''] = judged ?? [];
    expect(await textOf(region)).toMatch(/draws, seed 1\. More are not made in one go\. Chance still moves a number by up to [\d ]+ cycles\./);
    const first = await textOf(region.locator('table'));
    // The worker in the browser samples what the same code draws without one.
    const { rows, facts } = await sampledHere();
    // On the page powers are raised digits.
    const written = (text: string): string => text.replace(/\s/gu, ' ').replace(/[⁰¹²³⁴⁵⁶⁷⁸⁹]/gu, (digit) => String('⁰¹²³⁴⁵⁶⁷⁸⁹'.indexOf(digit)));
    for (const { sampled } of rows) expect(first).toContain(written(sampled));
    expect(await textOf(region)).toContain((facts[0] ?? 'no fact').replace(/\s/gu, ' '));
    await region.locator('svg.chart').waitFor(LONG);
    await region.getByRole('slider').focus();
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => textOf(region.locator('.chart-reading')), LONG).toBe(`95 % interval of the draws: ${low} cycles to ${high} cycles.`);
    await checkAccess(page);
    await region.evaluate((element) => element.scrollIntoView({ block: 'start' }));
    await screenshot(page, `draws-${name}`, { fullPage: false });

    // The same seed would give the same; another one is sampled at once, and can be stopped.
    await press(page, region.getByRole('button', { name: 'another seed' }));
    await press(page, region.getByRole('button', { name: 'stop' }));
    await expect.poll(() => textOf(region), LONG).toMatch(/draws, seed 2\. Stopped early\./);

    // The first seed typed again gives the first numbers again.
    const seed = region.getByLabel('seed', { exact: true });
    await seed.focus();
    await page.keyboard.press('ControlOrMeta+A');
    await page.keyboard.type('1');
    await page.keyboard.press('Enter');
    await expect.poll(() => textOf(region.locator('.drawn-result:not(.outdated)')), LONG).toContain(first);

    // An edit of what the life hangs on: the old samples are marked, new ones follow.
    const diameter = page.locator('[data-symbol="d"] input').first();
    await diameter.focus();
    await page.keyboard.press('ControlOrMeta+A');
    await page.keyboard.type('7.40 mm');
    await page.keyboard.press('Enter');
    await expect.poll(() => region.locator('.outdated').count(), LONG).toBe(1);
    await expect.poll(() => region.locator('.drawn-result:not(.outdated)').count(), LONG).toBe(1);
    expect(await textOf(region)).not.toContain(`${low} to ${high}`);
    await expectNoLeaks(page);

    // What lies open and is of this sheet goes with the report: picture, numbers and verdict.
    const verdict = await textOf(region.locator('.verdict-line'));
    const report = await download(page, () => chooseTakeaway(page, 'Report'));
    await page.goto(pathToFileURL(renamed(report)).href);
    const handedIn = page.locator('.appendix.drawn-results .draws');
    expect(verdict).toMatch(/^Don't use the first-order interval as ± here\./);
    expect((await textOf(handedIn.locator('.verdict-line'))).slice(0, 120)).toBe(verdict.slice(0, 120));
    expect(await textOf(handedIn)).toMatch(/draws, seed 1\./);
    expect(await handedIn.locator('svg:visible').count()).toBe(1);
    await handedIn.evaluate((element) => element.scrollIntoView({ block: 'start' }));
    await screenshot(page, `draws-report-${name}`, { fullPage: false });
  });
}, 600_000);
