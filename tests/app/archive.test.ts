/** Archives are read by a program of others. */
import { describe, expect, test } from 'vitest';
import { archived } from '../../src/app/archive.ts';
import { unzipped } from '../unzipped.ts';

const AT = new Date(2026, 10, 30, 9, 41, 12);

async function written(files: Parameters<typeof archived>[0]) {
  return unzipped(await (await archived(files, AT)).arrayBuffer());
}

describe('an archive', () => {
  test('is read as it was written: names of any alphabet, folders, empty files, texts that gain nothing by deflating', async () => {
    const files = [
      { name: 'one.html', content: `<p>${'shaft '.repeat(5000)}</p>` },
      { name: 'teams/Équipe 航.md', content: 'σ_a = 371.8 MPa\r\n' },
      { name: 'empty.txt', content: '' },
      { name: 'short.csv', content: 'a' },
    ];
    const read = await written(files);
    expect(read.map(({ name, text }) => ({ name, content: text }))).toEqual(files);
    expect(read.map(({ isDeflated }) => isDeflated)).toEqual([true, false, false, false]);
    expect(read.map(({ at }) => at)).toEqual(files.map(() => AT));
  });

  // The check value of CRC-32 that catalogues of such sums give for these nine digits; from memory, and borne out by zlib.
  test('the checksum is the one that the format asks for', async () => {
    const [digits, none] = await written([{ name: 'digits', content: '123456789' }, { name: 'none', content: '' }]);
    expect([digits?.checksum, none?.checksum]).toEqual([0xcbf43926, 0]);
  });

  test('two files of one name both stay, also where only capitals differ', async () => {
    const read = await written(['A.md', 'a.md', 'a.md', 'x/.md', 'x/.md'].map((name, i) => ({ name, content: String(i) })));
    expect(read.map(({ name }) => name)).toEqual(['A.md', 'a-2.md', 'a-3.md', 'x/.md', 'x/.md-2']);
    expect(read.map(({ text }) => text)).toEqual(['0', '1', '2', '3', '4']);
  });

  test('files may be made while it is written, and be none at all', async () => {
    async function* made() {
      for (const i of [1, 2, 3]) yield Promise.resolve({ name: `${i}.md`, content: `team ${i}` });
    }
    expect((await written(made())).map(({ text }) => text)).toEqual(['team 1', 'team 2', 'team 3']);
    expect(await written([])).toEqual([]);
  });
});
