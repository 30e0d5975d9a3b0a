/** Questions that no number of the sheet answers: options, an expression, words, by keyboard alone. */
import { expect, test } from 'vitest';
import { asItOpens, checkAccess, download, screenshot } from './harness.ts';
import { bringIn, chooseTakeaway, textOf, words } from './sheet-page.ts';

const cell = (kind: string, ...lines: readonly string[]): string => `\`\`\`${kind}\n${lines.join('\n')}\n\`\`\`\n\n`;
const SHEET = cell('given', 'symbol: F', 'value: 300 N', 'unit: N') + cell('given', 'symbol: l', 'value: 100 mm', 'unit: mm') + cell('given', 'symbol: d', 'value: 7.5 mm', 'unit: mm')
  + cell('step', 'symbol: M', 'formula: F*l/2', 'unit: N*m') + cell('step', 'symbol: c', 'formula: d/2', 'unit: mm') + cell('step', 'symbol: I', 'formula: pi*d^4/64', 'unit: mm^4')
  + cell('question', 'id: where', 'label: Where is the stress largest?', 'options:', '  middle: at the thinnest section', '  end: at the bearing', 'right: middle', 'why: The moment is constant there.')
  + cell('question', 'id: formula', 'label: Write the stress in the outer fibre', 'formula: M*c/I', 'in: M, c, I, d')
  + cell('question', 'id: words', 'label: What does the surface say?');

test('a question is answered, tried again, told and kept by the keyboard', async () => {
  await asItOpens({}, async ({ page }) => {
    await bringIn(page, { name: 'question.md', mimeType: 'text/markdown', buffer: Buffer.from(`---\ntitle: Questions\n---\n\n${SHEET}`) });
    const at = (id: string) => page.locator(`[data-cell="${id}"]`);
    const said = (id: string) => textOf(at(id));
    // Going through the options is no answer yet.
    await at('where').getByRole('radio').first().focus();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('ArrowDown');
    expect(await said('where')).toContain('3 tries, then the right answer shows.');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await expect.poll(() => said('where')).toContain('Not right. 2 tries are left.');
    expect(await words(page)).not.toContain('The moment is constant there.');
    await at('where').getByRole('radio', { name: 'at the bearing' }).focus();
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await expect.poll(() => said('where')).toContain('Right. The moment is constant there.');

    const blank = page.getByRole('textbox', { name: 'Write the stress in the outer fibre' });
    await blank.fill('32*M/(pi*d^4)');
    await blank.press('Enter');
    await expect.poll(() => said('formula')).toContain('Not right: it has another dimension than what is asked for. 2 tries are left.');
    await blank.fill('32*M/(pi*d^3');
    await blank.press('Enter');
    await expect.poll(() => at('formula').locator('.problem').count()).toBe(1);
    expect(await blank.inputValue()).toBe('32*M/(pi*d^3');
    await screenshot(page, 'question-problem', { fullPage: false });
    await checkAccess(page);
    await blank.fill('32*M/(pi*d^3)');
    await blank.press('Enter');
    await expect.poll(() => said('formula')).toContain('Right.');

    const place = page.getByRole('textbox', { name: 'What does the surface say?' });
    await place.fill('Beach marks from two sides,\nfinal zone in the middle.');
    await place.press('Tab');
    await expect.poll(() => said('words')).toContain('Kept for whoever marks it.');
    const report = await download(page, () => chooseTakeaway(page, 'Report'));
    expect(report.text).toContain('Beach marks from two sides,\nfinal zone in the middle.');
    await page.keyboard.press('Tab');
    expect(await place.inputValue()).toBe('Beach marks from two sides,\nfinal zone in the middle.');
  });
});
