/** What comes in is data: taken byte for byte, or refused in words. */
import { describe, expect, test } from 'vitest';
import fc from 'fast-check';
import { bringIn, textOfFile } from '../../src/app/bring-in.ts';
import type { Notice } from '../../src/app/notices.ts';
import { fileName } from '../../src/view/save-file.ts';
import { reportPage } from '../../src/report/index.ts';
import { shipped } from '../shipped.ts';

const standard = shipped('rotating-bending');

const file = (content: BlobPart, name = 'sheet.md'): File => new File([content], name);

const page = (documentText: string): string =>
  reportPage({ title: 'x', bodyHtml: '<p>x</p>', css: '', documentText, language: 'en-GB' });

describe('bringing in', () => {
  test('any text with a head comes back byte for byte, plain and inside a report', async () => {
    await fc.assert(fc.asyncProperty(fc.string({ unit: 'grapheme', maxLength: 300 }), async (body) => {
      const text = `---\ntitle: x\n---\n${body}`;
      fc.pre(!text.includes('\0') && !text.includes('\uFFFD'));
      for (const content of [text, page(text)]) expect(await textOfFile(file(content))).toEqual({ ok: true, value: text });
    }), { seed: 20261120 });
  });

  test('a sheet of very many cells is opened only when that is wanted; the others beside it at once', async () => {
    const many = '```given\nsymbol: a\nvalue: 5 mm\n```\n'.repeat(2001);
    const [opened, told]: [string[], Notice[]] = [[], []];
    await bringIn([file(many, 'many.md'), file(standard)], async (text) => void opened.push(text), (text, remedy) => void told.push({ text, ...(remedy && { remedy }) }));
    expect(opened).toEqual([standard]);
    expect(told.map(({ text }) => text)).toEqual([expect.stringMatching(/^many\.md holds 2001 cells/), expect.stringMatching(/^sheet\.md is brought in/)]);
    // Once it is wanted, it is brought in like any other, and told where it was altered since it was taken away.
    told[0]?.remedy?.apply();
    await expect.poll(() => told.at(-1)?.text).toMatch(/^many\.md is brought in as a sheet of its own\.$/);
    expect(opened).toEqual([standard, many]);
    const altered = reportPage({ title: 'x', bodyHtml: '', css: '', documentText: many, language: 'en-GB', fingerprint: '0'.repeat(64) });
    await bringIn([file(altered, 'many.html')], async (text) => void opened.push(text), (text, remedy) => void told.push({ text, ...(remedy && { remedy }) }));
    told.at(-1)?.remedy?.apply();
    await expect.poll(() => told.at(-1)?.text).toMatch(/^many\.html is brought in as a sheet of its own\. .*(altered|not the|differs)/i);
  });

  test('line ends and a byte order mark stay', async () => {
    const text = `\uFEFF${standard.replaceAll('\n', '\r\n')}`;
    expect(await textOfFile(file(text))).toEqual({ ok: true, value: text });
  });

  test('a page that another program saved with a remark before it', async () => {
    expect(await textOfFile(file(`\uFEFF<!-- saved -->\n<!-- twice -->\n${page(standard)}`))).toEqual({ ok: true, value: standard });
  });

  test('a document that begins with a remark is a document', async () => {
    const text = `<!-- ours -->\n\n\`\`\`given\nsymbol: a\nvalue: 5 mm\nunit: mm\n\`\`\`\n`;
    expect(await textOfFile(file(text))).toEqual({ ok: true, value: text });
  });

  test.each<[what: string, content: BlobPart, code: string]>([
    ['bytes', new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 255]), 'not-text'],
    ['text in another encoding', new Uint8Array([0x2d, 0xe9, 0x2d]), 'not-text'],
    ['nothing', '', 'not-a-sheet'],
    ['another text', 'milk, bread\n', 'not-a-sheet'],
    ['another page', '<!doctype html><title>x</title>', 'not-ours'],
    ['a document that is too long', `---\ntitle: x\n---\n${'0123456789'.repeat(1_600_001)}`, 'document-too-long'],
    ['a file that is too large', new Uint8Array(60_000_001), 'file-too-heavy'],
  ])('%s: refused', async (_what, content, code) => {
    const result = await textOfFile(file(content));
    expect(result.ok ? '' : result.problem.code).toBe(code);
  });
});

test('file names are letters, digits and hyphens of any script', () => {
  expect(fileName(['Rotating bending, two load points', 'T4 / “Größe”', undefined, 'report'], 'html')).toBe('rotating-bending-two-load-points-t4-größe-report.html');
  expect(fileName(['../../etc/passwd'], 'md')).toBe('etc-passwd.md');
  expect(fileName(['***'], 'md')).toBe('sheet.md');
});
