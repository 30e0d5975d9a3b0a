/** What pages of November 2026 wrote is opened by every later page: their files, the records they kept, the words they set aside. */
import { describe, expect, test } from 'vitest';
import { readKeptSheet } from '../../src/app/kept-sheet.ts';
import { createShelfStore } from '../../src/app/shelf-store.ts';
import { extractDocument } from '../../src/report/index.ts';
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
const WORKING = REPORT.replace('<html lang="en-GB">', '<html lang="en-GB" data-sheet="0123456789abcdef01234567">').replace('</body>', '<script type="text/plain" id="spanlife-script">7Vpb</script>\n</body>');
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
