/** What pages of November 2026 wrote is opened by every later page: their files, the records they kept, the words they set aside. */
import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { createEarlierStates } from '../../src/app/earlier-store.ts';
import type { Stretch } from '../../src/app/earlier-stretch.ts';
import { alteredWords } from '../../src/app/fingerprint.ts';
import { readKeptSheet } from '../../src/app/kept-sheet.ts';
import { createShelfStore } from '../../src/app/shelf-store.ts';
import { extractDocument, statedFingerprint } from '../../src/report/index.ts';
import { parseSheet, serialiseSheet } from '../../src/sheet/index.ts';
import { memoryDatabase } from './memory-database.ts';

const SHEET = '---\ntitle: Kept\nunits: SI\n---\nWords & <signs>.\n\n```given\nsymbol: d\nvalue: 7.1 ± 0.02 mm\n```\n';

/** Lines of a report and of a working file as they stood there, without what stands around the sheet. */
const REPORT = `<!doctype html>
<html lang="en-GB">
<head><meta charset="utf-8"><title>Kept</title></head>
<body>
<main id="sheet"><p>template id="spanlife-document"</p></main>
<footer class="print-footer">Kept, taken away 20 November 2026 at 09:12</footer>
<template id="spanlife-document" data-format="1">[
"---\\n",
"title: Kept\\n",
"units: SI\\n",
"---\\n",
"Words \\u0026 \\u003csigns\\u003e.\\n",
"\\n",
"\`\`\`given\\n",
"symbol: d\\n",
"value: 7.1 ± 0.02 mm\\n",
"\`\`\`\\n"
]</template>
</body>
</html>
`;
const WORKING = REPORT.replace('<html lang="en-GB">', '<html lang="en-GB" data-sheet="0123456789abcdef01234567">').replace('</body>', '<script type="text/plain" data-part="main">7Vpb</script>\n</body>');
const RECORD = { id: '0123456789abcdef01234567', title: 'Kept', detail: 'T4', text: SHEET, changed: '2026-11-20T09:12:00.000Z', revision: 7, isCopy: false };

describe('files and records of before', () => {
  test.each([['report', REPORT], ['working file', WORKING]])('a %s gives its sheet back byte for byte', (_, file) => {
    const read = extractDocument(file);
    expect(read).toEqual({ ok: true, value: SHEET });
    expect(serialiseSheet(parseSheet(SHEET))).toBe(SHEET);
  });

  test('a record without order, origin and draft is listed, opened and saved on', async () => {
    const { database, records } = memoryDatabase();
    records.set(RECORD.id, RECORD);
    const store = createShelfStore(async () => database);
    expect(await store.list()).toEqual([RECORD]);
    expect(await store.read(RECORD.id)).toEqual(RECORD);
    expect(await store.save({ ...RECORD, text: 'more' }, 7)).toEqual({ done: true, revision: 8 });
  });

  test('what a record of now holds more is no hindrance for what a page of before reads of it', () => {
    const now = { ...RECORD, order: 3, origin: 'fedcba9876543210fedcba98', draft: { cell: 'test', field: 0, name: 'Counter', text: '12' } };
    expect(readKeptSheet(now)).toEqual(now);
    expect(now).toMatchObject(RECORD);
  });
});

/** Whole, as the page of 29 November 2026 made them from the example with d = 7.1 mm and F = 301 N; of the working file's packed script the beginning. */
const fixture = (name: string): string => gunzipSync(readFileSync(new URL(`../fixtures/november-2026/${name}.gz`, import.meta.url))).toString('utf8');

describe('whole files and stores of a page of November 2026', () => {
  const { sheets, stretches } = JSON.parse(fixture('records.json')) as { readonly sheets: readonly { readonly id: string; readonly text: string }[]; readonly stretches: readonly Stretch[] };
  const kept = sheets[0]?.text ?? '';

  test.each(['report.html', 'working-file.html'])('the %s gives back the sheet that was kept beside it, with the fingerprint that it states', async (name) => {
    const file = fixture(name);
    const read = extractDocument(file);
    expect(read).toEqual({ ok: true, value: kept });
    expect(kept).toMatch(/value: 7\.1 mm/);
    expect(statedFingerprint(file)).toMatch(/^[0-9a-f]{64}$/);
    expect(alteredWords(kept, statedFingerprint(file))).toBeUndefined();
  });

  test('the sheet is listed and saved on, and its text is read and written without a change', async () => {
    const { database, records } = memoryDatabase();
    for (const sheet of sheets) records.set(sheet.id, sheet);
    const store = createShelfStore(async () => database);
    expect(await store.list()).toEqual(sheets);
    expect(await store.damaged()).toEqual([]);
    const document = parseSheet(kept);
    expect(document.problems).toEqual([]);
    expect(serialiseSheet(document)).toBe(kept);
  });

  test('its earlier states come back, the oldest as the sheet was opened', async () => {
    const { database, records } = memoryDatabase<Stretch>();
    for (const stretch of stretches) records.set(stretch.id, stretch);
    const states = await createEarlierStates(() => Date.parse('2026-12-15T08:00:00Z'), async () => database).list(sheets[0]?.id ?? '');
    expect(states[0]?.text).toBe(kept);
    expect(states.length).toBeGreaterThan(1);
    expect(states.at(-1)?.text).toMatch(/value: 310 N/);
  });
});
