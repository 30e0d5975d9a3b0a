/** Archives that come in: as others write them (yazl, which comes with Playwright), and as nobody should. */
import { createRequire } from 'node:module';
import { deflateRawSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { archived } from '../../src/app/archive.ts';
import { archiveFiles, isArchive } from '../../src/app/archive-files.ts';

interface Writer {
  addBuffer(bytes: Buffer, name: string, options?: { readonly compress: boolean }): void;
  addEmptyDirectory(name: string): void;
  end(): void;
  readonly outputStream: AsyncIterable<Uint8Array>;
}

const { yazl } = createRequire(import.meta.url)('playwright-core/lib/utilsBundle') as { readonly yazl: { readonly ZipFile: new () => Writer } };

async function writtenByOthers(files: Readonly<Record<string, string>>, compress = true): Promise<Uint8Array<ArrayBuffer>> {
  const writer = new yazl.ZipFile();
  for (const [name, text] of Object.entries(files)) writer.addBuffer(Buffer.from(text), name, { compress });
  writer.addEmptyDirectory('folder');
  writer.end();
  const parts: Uint8Array[] = [];
  for await (const part of writer.outputStream) parts.push(part);
  return new Uint8Array(Buffer.concat(parts));
}

/** Texts by name, or the code of what is wrong. */
async function filesIn(bytes: Uint8Array<ArrayBuffer>): Promise<Readonly<Record<string, string>> | string> {
  const found = await archiveFiles(new Blob([bytes]));
  if (!found.ok) return found.problem.code;
  const texts: Record<string, string> = {};
  for (const { name, open } of found.value) {
    const file = await open();
    texts[name] = file.ok ? await file.value.text() : file.problem.code;
  }
  return texts;
}

const FILES = { 'T01/sheet.md': 'span 101.3 mm\n'.repeat(500), 'Équipe 航.html': '<p>σ</p>', 'empty.md': '' };

describe('an archive', () => {
  test.each([true, false])('that another program wrote is read file by file (deflated: %s)', async (compress) => {
    const bytes = await writtenByOthers({ ...FILES, '__MACOSX/._sheet.md': 'x', '.DS_Store': 'x' }, compress);
    expect(await isArchive(new Blob([bytes]))).toBe(true);
    expect(await filesIn(bytes)).toEqual(FILES);
  });

  test('of our own comes back, behind a remark too', async () => {
    const own = await archived(Object.entries(FILES).map(([name, content]) => ({ name, content })), new Date(2026, 10, 30));
    const bytes = new Uint8Array(await own.arrayBuffer());
    expect(await filesIn(bytes)).toEqual(FILES);
    const remark = new Uint8Array([...bytes, ...new TextEncoder().encode('handed in')]);
    expect(await filesIn(remark)).toEqual(FILES);
  });

  test('is no other file', async () => {
    for (const text of ['', 'PK', '---\ntitle: x\n---\n', '<!doctype html>']) expect(await isArchive(new Blob([text]))).toBe(false);
  });
});

describe('a damaged or hostile archive', () => {
  test('cut or changed anywhere gives files, or says that it can not be read; nothing throws', async () => {
    const bytes = await writtenByOthers(FILES);
    const said = new Set<string>();
    // What is given is what was put in, or nothing.
    const strange: string[] = [];
    for (let at = 0; at < bytes.length; at += 3) {
      const changed = bytes.slice();
      changed[at] = (changed[at] ?? 0) ^ 0xff;
      for (const one of [changed, bytes.slice(0, at)]) {
        const found = await filesIn(one);
        for (const text of typeof found === 'string' ? [found] : Object.values(found)) {
          if (text.startsWith('archive-')) said.add(text);
          else if (!Object.values(FILES).includes(text)) strange.push(text);
        }
      }
    }
    expect(strange).toEqual([]);
    expect([...said].toSorted()).toEqual(['archive-damaged', 'archive-locked', 'archive-too-many']);
  });

  test('a file that would be huge is not unpacked, whatever size the archive states', async () => {
    const huge = deflateRawSync(Buffer.alloc(70_000_000));
    const small = await writtenByOthers({ 'a.md': 'x'.repeat(huge.length) }, false);
    // The stored file becomes a deflated one of as many bytes: method 8 in both heads.
    const bytes = new Uint8Array(small);
    const place = Buffer.from(bytes).indexOf('x'.repeat(100));
    bytes.set(huge, place);
    bytes[8] = 8;
    const list = Buffer.from(bytes).indexOf(Buffer.from([0x50, 0x4b, 1, 2]));
    bytes[list + 10] = 8;
    expect(await filesIn(bytes)).toEqual({ 'a.md': 'archive-damaged' });
  });
});
