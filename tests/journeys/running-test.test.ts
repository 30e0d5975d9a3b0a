/** While a test runs: the strip at the foot of the window, by touch on a telephone. */
import { describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { asItOpens as withPage, checkAccess, checkContrast, colours, intoView, screenshot } from './harness.ts';
import { head, notice, textOf, untilKept } from './sheet-page.ts';

const MORNING = '2026-11-20T09:00:00Z';
const record = (page: Page): Locator => page.locator('[data-cell="test"]');
const strip = (page: Page): Locator => page.locator('.watch-strip');
const said = (page: Page): Promise<string> => textOf(strip(page));
const press = (page: Page, name: string): Promise<void> => strip(page).getByRole('button', { name, exact: true }).tap();
const topOf = (part: Locator): Promise<number> => part.evaluate((element) => element.getBoundingClientRect().top);
const isFocused = (field: Locator): Promise<boolean> => field.evaluate((element) => element === document.activeElement);

async function start(page: Page): Promise<void> {
  await intoView(record(page));
  const counter = record(page).getByLabel('Counter at the start', { exact: true });
  await counter.fill('0');
  await counter.blur();
  await record(page).getByRole('button', { name: 'Start the test', exact: true }).tap();
  await expect.poll(() => strip(page).count()).toBe(1);
}

describe('while a test runs', () => {
  test.each(colours)('a reading and a note are taken from anywhere on the sheet (%s)', async (colorScheme) => {
    await withPage({ size: 'phone', clock: MORNING, colorScheme, context: { timezoneId: 'Europe/Berlin' } }, async ({ page }) => {
      await start(page);
      await page.clock.fastForward(600_000);
      await page.evaluate(() => scrollTo(0, 0));
      await expect.poll(() => said(page)).toMatch(/A test is running.*1\d min \d\d s.*cycles by speed.*(?:even chance of fracture|even chance) by \d\d:\d\d/);
      await screenshot(page, `running-strip-phone-${colorScheme}`, { fullPage: false });
      await page.setViewportSize({ width: 1440, height: 900 });
      await screenshot(page, `running-strip-desktop-${colorScheme}`, { fullPage: false });
      await page.setViewportSize({ width: 390, height: 844 });
      await press(page, 'Note a reading');
      const counter = strip(page).getByLabel('Counter', { exact: true });
      expect(await isFocused(counter)).toBe(true);
      expect(await counter.getAttribute('inputmode')).toBe('decimal');
      await page.keyboard.type('280');
      await screenshot(page, `running-strip-reading-${colorScheme}`, { fullPage: false });
      await checkAccess(page);
      await checkContrast(page);
      await page.keyboard.press('Enter');
      await page.keyboard.type('2790');
      await page.keyboard.press('Enter');
      await expect.poll(() => strip(page).locator('.noting').count()).toBe(0);
      await expect.poll(() => said(page)).toMatch(/28.000 cycles by counter at \d\d:\d\d/);
      expect(await page.evaluate(() => scrollY)).toBe(0);
      await press(page, 'Write a note with its time');
      await page.keyboard.type('bearing warm');
      await strip(page).getByRole('button', { name: 'done' }).tap();
      await intoView(record(page));
      const noted = record(page).locator('.reading');
      await expect.poll(() => noted.locator('input').evaluateAll((all) => all.map((field) => (field instanceof HTMLInputElement && field.type === 'text' ? field.value : '')).filter((text) => text !== '')))
        .toEqual(['280', '2790', 'bearing warm']);
      await page.emulateMedia({ media: 'print' });
      expect(await strip(page).isVisible()).toBe(false);
      await page.emulateMedia({ media: 'screen' });
      await press(page, 'End the test');
      await expect.poll(() => isFocused(record(page).getByLabel('Outcome'))).toBe(true);
      await expect.poll(() => strip(page).count()).toBe(0);
      await record(page).locator('.undo-offer').getByRole('button', { name: 'undo' }).tap();
      await expect.poll(() => said(page)).toMatch(/A test is running/);
      await untilKept(page);
    });
  });
});

test('on a slow telephone, where lines out of view follow later, the end of a test leads to the blank of its outcome all the same', async () => {
  // Each look at the clock finds 20 ms gone: no time is left for what is out of view, and all that is drawn took long.
  const slow = (): void => {
    const now = performance.now.bind(performance);
    let lost = 0;
    performance.now = () => now() + (lost += 20);
  };
  await withPage({ size: 'phone', before: slow }, async ({ page }) => {
    await start(page);
    await page.evaluate(() => scrollTo(0, 0));
    await press(page, 'End the test');
    await expect.poll(() => isFocused(record(page).getByLabel('Outcome'))).toBe(true);
    await untilKept(page);
  });
});

test('a counter that stands typed at the foot of the window when the page is lost is offered to be entered at its reading', async () => {
  await withPage({ size: 'phone', partsAsTheyOpen: false }, async ({ page }) => {
    await start(page);
    await press(page, 'Note a reading');
    await page.keyboard.type('280');
    await press(page, 'Note a reading');
    await page.keyboard.type('33');
    await page.reload();
    // Told where the reader is, and not at the head of the page, which is far away.
    await expect.poll(() => notice(page).evaluate((note) => note.getBoundingClientRect().top)).toBe(0);
    expect(await page.evaluate(() => scrollY)).toBeGreaterThan(1000);
    await screenshot(page, 'running-draft-offered', { fullPage: false });
    await notice(page).getByRole('button', { name: 'Enter it there' }).tap();
    const counters = record(page).locator('.reading input.counter');
    await expect.poll(() => counters.evaluateAll((all) => all.map((field) => (field instanceof HTMLInputElement ? field.value : '')))).toEqual(['280', '33']);
    await untilKept(page);
  });
});

describe('a test that runs on another sheet', () => {
  test.each(colours)('is told on the sheets of its team, with the way to its record, and gone once it has ended (%s)', async (colorScheme) => {
    await withPage({ size: 'phone', clock: MORNING, colorScheme, context: { timezoneId: 'Europe/Berlin' } }, async ({ page }) => {
      await start(page);
      await untilKept(page);
      await page.clock.fastForward(600_000);
      await head(page).getByRole('button', { name: 'Sheets', exact: true }).tap();
      await head(page).getByRole('button', { name: 'The S-N line of a class, blank', exact: true }).tap();
      await expect.poll(() => said(page)).toMatch(/A test is running on “PS-07, hourglass”.*1\d min \d\d s/);
      expect(await strip(page).getByRole('button').count()).toBe(1);
      await screenshot(page, `running-elsewhere-${colorScheme}`, { fullPage: false });
      await checkAccess(page);
      // One tap from the other sheet to the record.
      await strip(page).getByRole('button').tap();
      await expect.poll(() => isFocused(record(page))).toBe(true);
      const { top, height } = await record(page).evaluate((element) => ({ top: element.getBoundingClientRect().top, height: innerHeight }));
      expect(top).toBeLessThan(height / 2);
      await press(page, 'End the test');
      await untilKept(page);
      await head(page).getByRole('button', { name: 'Sheets', exact: true }).tap();
      await head(page).getByRole('button', { name: 'The S-N line of a class, blank', exact: true }).tap();
      await page.locator('[data-cell="specimens"]').waitFor({ state: 'attached' });
      await expect.poll(() => strip(page).count()).toBe(0);
    });
  });

  test('in a second window it follows what the first one does', async () => {
    await withPage({ size: 'phone' }, async ({ page }) => {
      await start(page);
      await untilKept(page);
      const other = await page.context().newPage();
      await other.goto(page.url());
      await head(other).getByRole('button', { name: 'Sheets', exact: true }).tap();
      await head(other).getByRole('button', { name: 'The S-N line of a class, blank', exact: true }).tap();
      await expect.poll(() => said(other)).toMatch(/^A test is running on /);
      await press(page, 'Pause');
      await expect.poll(() => said(other)).toMatch(/^A test is paused on /);
      await press(page, 'End the test');
      await expect.poll(() => strip(other).count()).toBe(0);
    });
  });
});

describe('the device under a test', () => {
  test('a press is stamped when the finger, or the key, came down', async () => {
    await withPage({ clock: MORNING, context: { timezoneId: 'Europe/Berlin', hasTouch: true } }, async ({ page }) => {
      await start(page);
      const stamps = (): Promise<readonly string[]> => record(page).getByLabel('Noted at').evaluateAll((all) => all.map((field) => (field instanceof HTMLInputElement ? field.value.slice(11) : '')));
      const note = strip(page).getByRole('button', { name: 'Note a reading' });
      const held = async (down: () => Promise<void>, up: () => Promise<void>): Promise<void> => {
        const before = await page.evaluate(() => Date.now());
        const many = (await stamps()).length;
        await down();
        await page.clock.fastForward(40_000);
        await up();
        await expect.poll(async () => (await stamps()).length).toBe(many + 1);
        const stamped = Date.parse(`2026-11-20T${(await stamps()).at(-1)}+01:00`);
        // The stamp is to the second, and the page was asked a moment before the press.
        expect(stamped - before).toBeGreaterThan(-1000);
        expect(stamped - before).toBeLessThan(20_000);
      };
      await note.hover();
      await held(() => page.mouse.down(), () => page.mouse.up());
      await note.focus();
      await held(() => page.keyboard.down(' '), () => page.keyboard.up(' '));
    });
  });

  test('a clock that was set is told and can be written down; the screen stays on while somebody watches', async () => {
    await withPage({ size: 'phone', clock: MORNING, before: countLocks }, async ({ page }) => {
      const locks = (): Promise<unknown> => page.evaluate(() => Reflect.get(window, 'locks'));
      await start(page);
      await expect.poll(locks).toBe(1);
      await press(page, 'Pause');
      await expect.poll(locks).toBe(0);
      await press(page, 'Go on');
      await expect.poll(locks).toBe(1);
      await page.clock.setSystemTime(new Date('2026-11-20T08:00:00Z'));
      await page.clock.runFor(2000);
      await expect.poll(() => said(page)).toMatch(/The clock of this device was set back by 1 h 00 min \d\d s; it now says \d\d:\d\d\..*The clock says \d\d:\d\d, but a stamp says \d\d:\d\d\./);
      await screenshot(page, 'running-clock-set', { fullPage: false });
      await checkAccess(page);
      await press(page, 'Write it down');
      await expect.poll(() => record(page).locator('.reading .note').evaluateAll((all) => all.map((field) => (field instanceof HTMLInputElement ? field.value : '')).join()))
        .toMatch(/^The clock of this device was set back by 1 h/);
      await page.clock.setSystemTime(new Date('2026-11-20T09:01:00Z'));
      await page.clock.runFor(2000);
      await expect.poll(() => said(page)).toMatch(/jumped ahead by 1 h/);
      await press(page, 'Put it away');
      await expect.poll(() => said(page)).not.toContain('he clock');
      await press(page, 'End the test');
      await expect.poll(locks).toBe(0);
    });
  });
});

/** 60 hours at 2800 rev/min are 10 080 000 cycles, a runout; the counter counts hundreds. Summer time ends on the second night. */
test('a test that runs three days, left alone, through reloads, sleep and clocks that were set, taps counted', async () => {
  await withPage({ size: 'phone', clock: '2026-10-23T07:00:00Z', before: countLocks, context: { timezoneId: 'Europe/Berlin' } }, async ({ page }) => {
    let taps = 0;
    const tap = async (button: Locator): Promise<void> => {
      taps += 1;
      await button.tap();
    };
    const onStrip = (name: string): Promise<void> => tap(strip(page).getByRole('button', { name, exact: true }));
    const hours = async (count: number): Promise<void> => page.clock.fastForward(count * 3_600_000);
    const counted = async (text: string): Promise<void> => {
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
      await onStrip('done');
    };
    await start(page);
    taps += 1;
    await untilKept(page);
    await hours(1);
    await onStrip('Note a reading');
    await counted('1680');

    // The list comes into view at the moment somebody leaves, and is ticked there.
    await onStrip('Leave');
    await expect.poll(() => said(page)).toMatch(/Before it is left running alone: 6 of 6 open\./);
    const list = page.locator('[data-cell="unattended"]');
    await expect.poll(() => list.evaluate((element) => element.getBoundingClientRect().top < innerHeight / 2 && element.getBoundingClientRect().bottom > 0)).toBe(true);
    await screenshot(page, 'running-leaving', { fullPage: false });
    await checkAccess(page);
    for (const box of await list.getByRole('checkbox').all()) await tap(box);
    await expect.poll(() => said(page)).toContain('all is ticked');
    await onStrip('I leave it running');
    await expect.poll(() => said(page)).toMatch(/I am back.*alone since \d\d:\d\d/);
    expect(await page.evaluate(() => Reflect.get(window, 'locks'))).toBe(0);
    await untilKept(page);

    for (const passed of [11, 12, 12]) {
      await hours(passed);
      const seen = await topOf(list);
      await page.reload();
      await expect.poll(() => said(page)).toMatch(/A test is running.*alone since (Fri )?10:00/);
      // Returned to where the reader was, but for lines of the record that say other things by now, and the time went on meanwhile.
      await expect.poll(async () => Math.abs((await topOf(list)) - seen)).toBeLessThan(200);
    }
    await expect.poll(() => said(page)).toMatch(/1 d|36 h 0\d min/);
    await screenshot(page, 'running-alone', { fullPage: false });
    // The press stands beside what is told, in three lines at most.
    expect(await strip(page).locator('.running-test').evaluate((element) => element.getBoundingClientRect().height / Number.parseFloat(getComputedStyle(element.querySelector('.at-a-glance') ?? element).lineHeight))).toBeLessThan(3.3);

    // Back on the next evening; in the meantime the clock of the device was set back by an hour and right again.
    await onStrip('I am back');
    expect(await isFocused(strip(page).getByLabel('Counter', { exact: true }))).toBe(true);
    await counted('60480');
    await expect.poll(() => said(page)).toMatch(/6.048.000 cycles by counter/);
    const right = await page.evaluate(() => Date.now());
    await page.clock.setSystemTime(right - 3_600_000);
    await page.clock.runFor(2000);
    await expect.poll(() => said(page)).toContain('was set back by');
    await page.clock.setSystemTime(right + 2000);
    await page.clock.runFor(2000);
    await expect.poll(() => said(page)).not.toContain('was set back by');

    await hours(24);
    await page.reload();
    await expect.poll(() => said(page)).toMatch(/2 d 12 h 0\d min/);
    await onStrip('End the test');
    const outcome = record(page).getByLabel('Outcome');
    await expect.poll(() => isFocused(outcome)).toBe(true);
    await outcome.selectOption('runout');
    taps += 1;
    const end = record(page).getByLabel('Counter at the end', { exact: true });
    await end.fill('100800');
    await end.blur();
    taps += 1;
    await expect.poll(() => textOf(record(page))).toMatch(/Running time without pauses2 d 12 h 0\d min.*Cycles by the counter10.080.000 cycles/);
    expect(await textOf(record(page))).toContain('Counter and clock agree within their uncertainty');
    await expect.poll(() => strip(page).count()).toBe(0);
    process.stdout.write(`three days: ${taps} taps, 6 of them ticks\n`);
    // Start; reading and done; leave, six ticks, go; back and done; end, outcome, counter.
    expect(taps).toBe(16);
  });
}, 300_000);

/** Runs in the page: a browser that keeps the screen on, and how many times over it does. */
function countLocks(): void {
  let on = 0;
  Object.defineProperty(window, 'locks', { get: () => on });
  const request = async (): Promise<EventTarget> => {
    on += 1;
    return Object.assign(new EventTarget(), { release: async () => void (on -= 1) });
  };
  Object.defineProperty(navigator, 'wakeLock', { value: { request } });
}
