import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inflateRawSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { PART_WORDS } from '../../src/view/part-words.ts';
import { builtPage, checkAccess, colours, screenshot, sizes, withPage } from './harness.ts';

const html = readFileSync(builtPage, 'utf8');
const parts = [...html.matchAll(/<script type="text\/plain" data-part="([\w-]+)">([^<]*)<\/script>/g)].map(([, name = '', packed = '']) => ({ name, packed, unpacked: inflateRawSync(bytesOf(packed)).toString('utf8') }));
const main = parts.find(({ name }) => name === 'main')?.packed ?? '';
const first = /<script type="module">([\s\S]*?)<\/script>/.exec(html)?.[1] ?? '';

/** Five digits to the base of 85 are four bytes, by whole numbers of any size. */
function bytesOf(digits: string): Buffer {
  const groups = (digits.match(/.{1,5}/gs) ?? []).map((group) => {
    const value = [...group.padEnd(5, '|')].reduce((sum, sign) => sum * 85n + BigInt(sign === '!' ? 20 : sign.charCodeAt(0) - 40), 0n);
    return Buffer.from(value.toString(16).padStart(8, '0'), 'hex').subarray(0, group.length - 1);
  });
  return Buffer.concat(groups);
}

const withoutText = html.replace(/<(script|style|template)\b([^>]*)>[\s\S]*?<\/\1>/g, '<$1$2></$1>');

describe('the built page is one file', () => {
  test('it is smaller than 1.8 MB and refers to nothing outside itself', () => {
    expect(Buffer.byteLength(html)).toBeLessThanOrEqual(1_800_000);
    const references = [...withoutText.matchAll(/\s(?:src|href|srcset|action|data)="([^"]*)"/g)].map((match) => match[1] ?? '');
    expect(references.filter((target) => !/^(data:|#)/.test(target))).toEqual([]);
    const styles = [...html.matchAll(/<style\b[^>]*>([\s\S]*?)<\/style>/g)].map((match) => match[1] ?? '').join('\n');
    expect([...styles.matchAll(/url\(\s*["']?([^)"']{0,40})|@import/g)].filter((match) => !/^(data:|#)/.test(match[1] ?? ''))).toEqual([]);
  });

  test('its policy allows its own scripts, packed and unpacked, and nothing else', () => {
    const policies = [...withoutText.matchAll(/<meta http-equiv="Content-Security-Policy" content="([^"]*)">/g)].map((match) => match[1] ?? '');
    expect(policies).toHaveLength(1);
    const directives = Object.fromEntries((policies[0] ?? '').split('; ').map((directive) => directive.split(/ (.*)/s).slice(0, 2)));
    expect(directives).toEqual({
      'default-src': "'none'",
      'script-src': [first, ...parts.map(({ unpacked }) => unpacked)].map((text) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`).join(' '),
      'worker-src': 'blob:',
      'style-src': "'unsafe-inline'",
      'font-src': 'data:',
      'img-src': 'data: blob:',
      'connect-src': "'none'",
      'base-uri': "'none'",
      'form-action': "'none'",
      'object-src': "'none'",
    });
    expect(html.indexOf('Content-Security-Policy')).toBeLessThan(html.search(/<(script|style|link)\b/));
  });

  test('its script stands last, in parts, packed and with what unpacks them, so that the sheet can be read before it', () => {
    expect(parts.map(({ name }) => name).toSorted()).toEqual(['main', ...Object.keys(PART_WORDS)].toSorted());
    expect(withoutText.match(/<script\b/g)).toHaveLength(parts.length + 1);
    expect(withoutText.trimEnd()).toMatch(/(<script type="text\/plain" data-part="[\w-]+"><\/script>\s*)+<script type="module"><\/script>\s*<\/body>\s*<\/html>$/);
  });

  test('a damaged file can be read and says what is wrong with it', async () => {
    const path = join(mkdtempSync(join(tmpdir(), 'spanlife-damaged-')), 'damaged.html');
    writeFileSync(path, html.replace(main, main.slice(0, -4000)));
    await withPage({ file: path, size: 'phone' }, async ({ page }) => {
      await page.getByRole('alert').filter({ hasText: 'this file is damaged' }).waitFor();
      expect(await page.locator('main').innerText()).toContain('Predicted against observed');
    });
  });

  test.each(['DecompressionStream', 'structuredClone'] as const)('a browser that has no %s is told which do, and the sheet can be read', async (name) => {
    const before = { DecompressionStream: () => void Reflect.deleteProperty(window, 'DecompressionStream'), structuredClone: () => void Reflect.deleteProperty(window, 'structuredClone') }[name];
    await withPage({ before }, async ({ page }) => {
      await page.getByRole('alert').filter({ hasText: 'this browser is older than the page needs. It works in Chrome or Edge 110, Firefox 115, Safari 16.4' }).waitFor();
      expect(await page.locator('main').innerText()).toContain('Predicted against observed');
    });
  });

  test('fonts come as woff2, and only the faces that formulas use', () => {
    const faces = [...html.matchAll(/@font-face\s*\{([^}]*)\}/g)].map((match) => match[1] ?? '');
    const families = new Set(faces.map((face) => /font-family:\s*["']?([\w ]+)/.exec(face)?.[1]));
    expect([...families].filter((family) => !/^KaTeX_(Main|Math|Size[1-4])$/.test(family ?? ''))).toEqual([]);
    for (const face of faces) expect(face.match(/url\([^,)]*/g)).toEqual([expect.stringMatching(/^url\(["']?data:font\/woff2;base64$/)]);
  });

  test('it carries the licence of everything in it', () => {
    const { dependencies } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as { dependencies: Record<string, string> };
    const head = /\/\*!([\s\S]*?)\*\//.exec(first)?.[1] ?? '';
    expect(head).toContain('Spanlife contributors');
    expect(Object.entries(dependencies).filter(([name, version]) => !head.includes(`\n${name} ${version}, `))).toEqual([]);
  });

  for (const size of Object.keys(sizes) as (keyof typeof sizes)[]) {
    for (const colorScheme of colours) {
      test(`it opens by double click without a complaint: ${size}, ${colorScheme}`, async () => {
        await withPage({ size, colorScheme }, async ({ page }) => {
          expect(await page.title()).not.toBe('');
          await screenshot(page, `start-${size}-${colorScheme}`);
          await checkAccess(page);
        });
      });
    }
  }
});
