/** A page that is worked on for long holds no more than before: counted after some hundred edits; ten thousand are made by `npm run bench -- long-use`. */
import { expect, test } from 'vitest';
import { size } from '../sizes.ts';
import { SHORT, withPage } from './harness.ts';
import { leftIn, manyEdits } from './many-edits.ts';
import { blanks } from './sheet-page.ts';

test('three hundred edits leave no nodes and no listeners behind', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    await blanks(page, 'd').first().waitFor({ state: 'attached' });
    const client = await page.context().newCDPSession(page);
    // What is made once and kept for use again is there after the first ones: a hundred and fifty nodes or so.
    await manyEdits(page, 'd', 300);
    const before = await leftIn(client);
    await manyEdits(page, 'd', size(300, 3000));
    const after = await leftIn(client);
    expect(after.nodes - before.nodes, `nodes, ${JSON.stringify([before, after])}`).toBeLessThan(120);
    expect(after.listeners - before.listeners, `listeners, ${JSON.stringify([before, after])}`).toBeLessThan(60);
    // Each edit is a step to undo, of which five hundred are kept, and holds little more than its own cell.
    expect(after.kilobytes - before.kilobytes, `kB, ${JSON.stringify([before, after])}`).toBeLessThan(3000);
  });
}, 120_000);
