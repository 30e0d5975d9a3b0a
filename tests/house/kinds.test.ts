/** A kind of cell is asked about in its form alone, so that a new kind is a new form and no search through the house. */
import { describe, expect, test } from 'vitest';
import { KNOWN_KINDS } from '../../src/sheet/index.ts';
import { findLines, projectFiles, read } from './tracked.ts';

/** Layers that hold to it, each with where its forms are. */
const layers: readonly { readonly sources: RegExp; readonly forms: RegExp }[] = [
  { sources: /^src\/graph\/.*\.ts$/, forms: /^src\/graph\/(?:forms|kinds\/[\w-]+)\.ts$/ },
  { sources: /^src\/report\/.*\.ts$/, forms: /^src\/report\/(?:forms|kinds\/[\w-]+)\.ts$/ },
  { sources: /^src\/view\/.*\.ts$/, forms: /^src\/view\/(?:(?:lecture\/)?forms|kinds\/[\w-]+)\.ts$/ },
];

/** Layers without forms, which look for the cells of a kind by name (`cellsOf`, `cellIn`). */
const others = /^src\/(?:sheet|solve|app)\/.*\.ts$/;

/** What is left, `path: text of the line`. */
const exceptions: readonly string[] = [
  // Where a unit comes from, and not what a cell is.
  "src/report/present/rows-in-words.ts: case 'table': return `No unit is stated: read in ${unitWords(unit)}, as the table does.`;",
  "src/report/present/rows-in-words.ts: case 'unknown': return `“${typed}” is no unit that is known here. Which unit are the numbers in?`;",
  // What was read of a body, of which no cell is made yet.
  "src/sheet/replace-block.ts: if (cell === undefined || draft?.fields.kind !== 'table' || draft.rowsPlace === undefined) return undefined;",
];

const kinds = [...KNOWN_KINDS, 'unknown'].join('|');
/** A kind compared with its word, a case by it, or a choice by what kind a cell is. */
const pattern = new RegExp(
  `\\b(?:kind|cellKind)\\s*[!=]==?\\s*['"\`](?:${kinds})\\b|['"\`](?:${kinds})['"\`]\\s*[!=]==?.*\\b(?:kind|cellKind)\\b|\\bcase ['"\`](?:${kinds})['"\`]`
    + '|\\b(?:switch|includes|has|get)\\s*\\([^)]*\\b(?:cell\\??\\.kind|cellKind)\\b|\\bkind\\??\\.startsWith\\b',
);

describe('the kind of a cell', () => {
  test.each([
    "if (cell.kind === 'given') return;", "block.cell.kind !== 'step'", "'table' === cell.kind", "cellKind === 'fit'", "case 'photo': return;",
    'switch (block.cell.kind) {', "['given', 'step'].includes(cell.kind)", 'READERS.get(cell?.kind)',
  ])('is found in %s', (line) => expect(line).toMatch(pattern));

  test.each(["block.kind === 'cell'", "expression.kind === 'symbol'", "result.kind === 'value'", 'FORMS[cell.kind]', "case 'number':", "cellsOf(document, 'given')"])(
    'is not asked about in %s', (line) => expect(line).not.toMatch(pattern));

  test.each(layers)('is asked about in forms alone: $sources', ({ sources, forms }) => {
    const files = projectFiles().filter((path) => sources.test(path));
    expect(files.filter((path) => forms.test(path)).length).toBeGreaterThan(2);
    const found = findLines(files.filter((path) => !forms.test(path)), pattern).map((line) => line.replace(/:\d+: /, ': '));
    expect(found.toSorted()).toEqual(exceptions.filter((line) => sources.test(line.split(':')[0] ?? '')).toSorted());
  });

  test('is not compared where there are no forms', () => {
    const files = projectFiles().filter((path) => others.test(path));
    expect(files.length).toBeGreaterThan(100);
    expect(findLines(files, pattern).map((line) => line.replace(/:\d+: /, ': ')).toSorted()).toEqual(exceptions.filter((line) => others.test(line.split(':')[0] ?? '')).toSorted());
  });

  test('has every exception in a file that is there', () => {
    expect(exceptions.filter((line) => !read(line.split(':')[0] ?? '').includes(line.slice(line.indexOf(': ') + 2)))).toEqual([]);
  });
});
