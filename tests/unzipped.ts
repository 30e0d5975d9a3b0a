/** An archive as a reader of others' making has it: yauzl, which comes with Playwright. */
import { createRequire } from 'node:module';

interface UnzippedFile {
  readonly name: string;
  readonly text: string;
  readonly size: number;
  readonly checksum: number;
  readonly isDeflated: boolean;
  readonly at: Date;
}

interface Entry {
  readonly fileName: string;
  readonly crc32: number;
  readonly uncompressedSize: number;
  readonly compressionMethod: number;
  getLastModDate(): Date;
}

interface Archive extends AsyncIterable<never> {
  eachEntry(): AsyncIterable<Entry>;
  openReadStreamPromise(entry: Entry): Promise<AsyncIterable<Uint8Array>>;
}

const { yauzl } = createRequire(import.meta.url)('playwright-core/lib/utilsBundle') as { readonly yauzl: { fromBufferPromise(bytes: Buffer): Promise<Archive> } };

/** The files of an archive in their order; throws where the archive is none, names are unsafe or a size is not the one stated. */
export async function unzipped(bytes: ArrayBuffer | Uint8Array): Promise<readonly UnzippedFile[]> {
  const archive = await yauzl.fromBufferPromise(Buffer.from(bytes as Uint8Array));
  const files: UnzippedFile[] = [];
  for await (const entry of archive.eachEntry()) {
    const parts: Uint8Array[] = [];
    for await (const part of await archive.openReadStreamPromise(entry)) parts.push(part);
    files.push({
      name: entry.fileName, text: Buffer.concat(parts).toString('utf8'), size: entry.uncompressedSize,
      checksum: entry.crc32, isDeflated: entry.compressionMethod === 8, at: entry.getLastModDate(),
    });
  }
  return files;
}
