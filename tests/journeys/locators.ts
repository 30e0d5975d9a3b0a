/**
 * Where the driver looks for what a selector names, it goes through every element of the page for one with a shadow tree. Ours has none, and of a sheet's
 * twenty thousand elements that took up to a tenth of what a page does in a journey: a selector that is CSS is asked of the document alone.
 */
import type { Locator, Page } from 'playwright';

type Locate = (this: unknown, selector: string | Locator, options?: unknown) => Locator;

/** A selector that names its way of looking (`internal:role=…`, as the driver's own do) and not CSS. */
const NAMED_WAY = /^(?:[\w-]+:)*[\w-]+=|^internal:/;

const light = (selector: string): string => (NAMED_WAY.test(selector) ? selector : `css:light=${selector}`);

let isDone = false;

/** From the first page on, for all of this process. */
export function lookInDocumentAlone(page: Page): void {
  if (isDone) return;
  isDone = true;
  for (const part of [page, page.locator('html')]) {
    const prototype = Object.getPrototypeOf(part) as { locator: Locate };
    const { locator } = prototype;
    prototype.locator = function inDocument(selector, options) {
      return locator.call(this, typeof selector === 'string' ? light(selector) : selector, options);
    };
  }
}
