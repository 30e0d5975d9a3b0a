/** Going about the page with the keys alone. */
import type { Page } from 'playwright';

export interface Focus {
  readonly name: string;
  readonly symbol: string;
  readonly cell: string;
  readonly tag: string;
}

/** What has the focus, as a screen reader would call it, and where it stands. */
export function focus(page: Page): Promise<Focus> {
  return page.evaluate(() => {
    const element = document.activeElement;
    const isField = element instanceof HTMLInputElement || element instanceof HTMLTextAreaElement || element instanceof HTMLSelectElement;
    const around = isField ? element.labels?.[0] : undefined;
    const label = (around?.querySelector('span') ?? around)?.textContent;
    const cell = element?.closest<HTMLElement>('[data-cell]');
    return {
      name: (element?.getAttribute('aria-label') ?? label ?? element?.textContent ?? '').replace(/\s+/g, ' ').trim(),
      symbol: cell?.dataset['symbol'] ?? '',
      cell: cell?.dataset['cell'] ?? '',
      tag: element?.tagName ?? '',
    };
  });
}

/** Tab until something is reached; fails where the focus stops going on. */
export async function tabTo(page: Page, reached: (focus: Focus) => boolean, key = 'Tab'): Promise<Focus> {
  for (let i = 0; i < 400; i += 1) {
    await page.keyboard.press(key);
    const now = await focus(page);
    if (reached(now)) return now;
  }
  throw new Error(`not reached with ${key}; the focus is at ${JSON.stringify(await focus(page))}`);
}
