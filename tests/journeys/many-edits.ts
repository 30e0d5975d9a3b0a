import type { CDPSession, Page } from 'playwright';

/** What a page holds after its memory was collected. */
export interface Left {
  readonly kilobytes: number;
  /** Of the document, and taken out of it but still held. */
  readonly nodes: number;
  readonly listeners: number;
}

/** Edits of a given's first blank one after the other, each awaited to its last result; the time that each took, ms. */
export function manyEdits(page: Page, symbol: string, count: number): Promise<readonly number[]> {
  return page.evaluate(
    async ({ selector, many }) => {
      const times: number[] = [];
      for (let i = 0; i < many; i++) {
        const input = document.querySelector<HTMLInputElement>(selector);
        if (input === null) throw new Error(`no ${selector} on the page`);
        const settled = new Promise<void>((done) => window.addEventListener('spanlife:settled', () => done(), { once: true }));
        const begun = performance.now();
        input.value = `6.${300 + (i % 97)} mm`;
        input.dispatchEvent(new Event('input', { bubbles: true }));
        input.dispatchEvent(new Event('change', { bubbles: true }));
        // A blank that is left is kept at once; nobody leaves one a hundred times a second.
        if (i % 20 === 0) input.dispatchEvent(new FocusEvent('focusout', { bubbles: true }));
        await settled;
        times.push(performance.now() - begun);
        // A frame now and then, as a reader would see it; what is done after the results gets its turn.
        await new Promise((done) => (i % 8 === 0 ? requestAnimationFrame(() => setTimeout(done)) : setTimeout(done)));
      }
      return times;
    },
    { selector: `[data-symbol="${symbol}"] input`, many: count },
  );
}

export async function leftIn(client: CDPSession): Promise<Left> {
  await client.send('Performance.enable');
  // The last savings, which hold the texts of earlier states meanwhile, come to their end.
  await new Promise((done) => setTimeout(done, 2500));
  // What waits for a quiet moment or is let go by a finaliser goes only after the first collecting.
  for (let i = 0; i < 3; i++) {
    await client.send('HeapProfiler.collectGarbage');
    await new Promise((done) => setTimeout(done, 300));
  }
  const { metrics } = await client.send('Performance.getMetrics');
  const of = (wanted: string): number => metrics.find(({ name }) => name === wanted)?.value ?? Number.NaN;
  return { kilobytes: Math.round(of('JSHeapUsedSize') / 1000), nodes: of('Nodes'), listeners: of('JSEventListeners') };
}
