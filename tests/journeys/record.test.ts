/** The test record at the bench: stamped with one press, frozen, reloaded, ended, and its row in the class's table. */
import { describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { checkAccess, intoView, screenshot, SHORT, withPage } from './harness.ts';
import { expectNoLeaks, fill, head, line, resultNumber, textOf, untilKept } from './sheet-page.ts';

const MORNING = '2026-11-20T09:00:00Z';
const record = (page: Page): Locator => page.locator('[data-cell="test"]');
const says = (page: Page): Promise<string> => textOf(record(page));
const press = (page: Page, name: string): Promise<void> => record(page).getByRole('button', { name, exact: true }).click();

const runningTime = async (page: Page): Promise<string> => /Running time without pauses(.*? s)/.exec(await says(page))?.[1] ?? '';

async function type(page: Page, label: string, text: string): Promise<void> {
  const field = record(page).getByLabel(label, { exact: true }).last();
  await field.fill(text);
  await field.blur();
}

/** The S-N sheet of the class, kept in this browser, and back to the example. */
async function keepLineSheet(page: Page): Promise<void> {
  await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
  await head(page).getByRole('button', { name: 'The S-N line of a class, with the invented example' }).click();
  await page.locator('.title-block').getByRole('textbox', { name: 'Title of the sheet' }).fill('Line of the class');
  await untilKept(page);
  await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
  await head(page).getByRole('button', { name: 'Rotating bending, with the invented example' }).click();
  await intoView(record(page));
}

describe('the test record', () => {
  for (const size of ['phone', 'desktop'] as const) {
    test(`from the start to the class's table (${size})`, async () => {
      await withPage({ sheet: SHORT, size, clock: MORNING, context: { timezoneId: 'Europe/Berlin' } }, async ({ page }) => {
        await keepLineSheet(page);
        await screenshot(page, `record-before-${size}`, { fullPage: false });
        await expect.poll(() => says(page)).toMatch(/16 of 16 checklist items are open/);
        await type(page, 'Counter at the start', '999800');
        const life = await resultNumber(page, 'N_f');
        await press(page, 'Start the test');
        await expect.poll(() => says(page)).toMatch(/Running since 2026-11-20 \d\d:\d\d:\d\d/);

        // 2800 rev/min for 10 minutes are 28 000 cycles; the counter counts hundreds and goes past its last number.
        await page.clock.fastForward(600_000);
        await expect.poll(() => says(page)).toMatch(/Running time without pauses1\d min \d\d s/);
        await expect.poll(() => says(page)).toMatch(/half chance that it breaks before \d\d:\d\d/);
        await press(page, 'Note a reading');
        await type(page, 'Counter', '80');
        await type(page, 'Speed', '2800');
        await intoView(record(page).getByText(/^Running since/));
        await screenshot(page, `record-running-${size}`, { fullPage: false });
        await checkAccess(page);
        await press(page, 'Pause');
        await expect.poll(() => says(page)).toMatch(/Paused since/);
        await untilKept(page);
        const ran = await runningTime(page);
        await page.clock.fastForward(300_000);
        await page.reload();
        await intoView(record(page));
        // The pause, the reloading and the time the device slept add nothing.
        await expect.poll(() => runningTime(page)).toBe(ran);
        await press(page, 'Go on');
        await page.clock.fastForward(600_000);
        await press(page, 'Ended');
        await record(page).getByLabel('Outcome').selectOption('fracture');
        await type(page, 'Counter at the end', '360');
        await type(page, 'Place of fracture, from the thinnest section', '1 mm');
        // The journey takes its own time; the stamps are put right by hand, as anyone may.
        for (const [label, time] of [['Started', '10:00'], ['Noted at', '10:10'], ['From', '10:10'], ['To', '10:15'], ['Ended', '10:25']] as const) {
          await type(page, label, `2026-11-20T${time}`);
        }
        await expect.poll(() => says(page)).toMatch(/Running time without pauses20 min 00 s/);
        // Less than before is asked about at its place, and counts only when the roll-over is confirmed.
        const asked = record(page).getByRole('group', { name: 'About the counter' });
        await expect.poll(async () => textOf(asked)).toMatch(/^The counter shows 80, less than the 999800 noted 10 min before\. Past its last number it would have counted 28000 cycles since, where speed and time give about 28000\./);
        expect(await says(page)).not.toMatch(/Cycles by the counter/);
        await intoView(asked);
        await screenshot(page, `record-counter-asked-${size}`, { fullPage: false });
        await checkAccess(page);
        await press(page, 'It went past its last number');
        await expect.poll(() => says(page)).toMatch(/Cycles by the counter56 000 cycles ± 41, one roll-over counted in/);
        expect(await says(page)).toMatch(/Counter and clock agree within their uncertainty/);
        // The life shows two digits of what it is uncertain by.
        expect(Math.abs((await resultNumber(page, 'r_N')) / (56_000 / life) - 1)).toBeLessThan(0.05);

        // What is typed afterwards changes nothing that was predicted.
        const ratio = await resultNumber(page, 'r_N');
        await fill(page, 'F', '300 N');
        await expect.poll(() => resultNumber(page, 'N_f')).not.toBe(life);
        expect(await resultNumber(page, 'r_N')).toBe(ratio);
        await expect.poll(() => says(page)).toMatch(/Load, indicated or marked on the weights \(F\): 310 N at the start, 300 N now/);
        await intoView(record(page).getByText(/^Ended/).first());
        await screenshot(page, `record-ended-${size}`, { fullPage: false });
        await checkAccess(page);
        await expectNoLeaks(page);

        await press(page, 'send this specimen to a table');
        await expect.poll(() => record(page).locator('.targets button').count()).toBe(1);
        await record(page).getByRole('button', { name: 'Line of the class: Specimens of the class' }).click();
        await expect.poll(() => says(page)).toMatch(/1 row is added to the 24 there/);
        await screenshot(page, `record-sending-${size}`, { fullPage: false });
        await press(page, 'add 1 row');
        await expect.poll(() => says(page)).toMatch(/is now the last row of the table in “Line of the class”/);
        // Sent again it is told, and nothing is doubled.
        await press(page, 'send this specimen to a table');
        await record(page).getByRole('button', { name: 'Line of the class: Specimens of the class' }).click();
        await expect.poll(() => says(page)).toMatch(/1 row left out: just so in the table already/);
        await press(page, 'leave the table as it is');
        await untilKept(page);
        await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
        await head(page).getByRole('button', { name: 'Line of the class', exact: true }).click();
        const fields = page.locator('[data-cell="specimens"] input.field');
        await expect.poll(() => fields.evaluateAll((all) => all.map((field) => (field instanceof HTMLInputElement ? field.value : '')).join(' ')))
          .toMatch(/PS-07, hourglass steel AISI 1045, cold-drawn 371\.77\d 56000 fracture  T4, solar boat/);
      });
    }, 300_000);
  }

  test('every press is one step to undo, and a clock that was set back is told', async () => {
    await withPage({ colorScheme: 'dark', clock: MORNING }, async ({ page }) => {
      await intoView(record(page));
      await press(page, 'Start the test');
      await expect.poll(() => says(page)).toMatch(/Running since/);
      await page.clock.setSystemTime(new Date('2026-11-20T08:00:00Z'));
      await page.clock.runFor(2000);
      await expect.poll(() => says(page)).toMatch(/The clock of this device says .* but something in the record is stamped/);
      await intoView(record(page).getByText(/^Running since/));
      await screenshot(page, 'record-clock-back-dark', { fullPage: false });
      await checkAccess(page);
      await page.keyboard.press('Control+z');
      await expect.poll(() => says(page)).toMatch(/Not started/);
      expect(await textOf(line(page, 'r_N').locator('.result'))).toMatch(/waits for N obs$/);
    });
  });
});
