import fc from 'fast-check';
import { applyEdit, parseSheet, serialiseSheet } from '../../src/sheet/index.ts';
import type { CellBlock, EditCommand, SheetDocument } from '../../src/sheet/index.ts';

/** Lines that mean something to the format, beside any text at all. */
const tellingLine = fc.constantFrom(
  '```given', '```', '````', '````step', '~~~check', '~~~', '   ```remark', '    ```given', '```fit', '```two words', '``` ', '```given`x',
  '---', '...', 'symbol: d', 'symbol: s_1', 'id: a', 'value: 6.35 mm', 'unit:mm', 'label: "open', 'options: [', 'items:', '- a', '  - text: b',
  '\tvalue: 1', 'text: |', '  indented', '# comment', '', '   ', 'Prose.', 'chosen: a', 'formula: a + b', 'a: *b', 'a: &b', 'x: !y z', '%YAML', '{a: 1}', '<<: x',
);
const anyLine = fc.oneof({ weight: 6, arbitrary: tellingLine }, { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 12 }) });
const lineEnd = fc.constantFrom('\n', '\n', '\n', '\r\n', '\r');

/** A text made of lines that the format looks at, mixed with junk, with mixed line ends and perhaps none at the end. */
export const sheetLikeText: fc.Arbitrary<string> = fc
  .tuple(fc.constantFrom('', '', '\uFEFF'), fc.array(fc.tuple(anyLine, lineEnd), { maxLength: 40 }), fc.boolean())
  .map(([mark, lines, isOpen]) => {
    const text = mark + lines.map(([line, end]) => line + end).join('');
    return isOpen ? text.replace(/[\r\n]+$/, '') : text;
  });

/** Any text a reader could type or paste into a field: signs of YAML, quotes, blanks at the ends, several lines, halves of pairs. */
export const fieldText: fc.Arbitrary<string> = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 30 }),
  fc.string({ maxLength: 30 }),
  fc
    .array(fc.constantFrom(': ', '#', ' #', '"', "'", ' ', '\n', '\n\n', '\r\n', '\t', '- ', '? ', '[', ']', '{', '}', ',', '|', '>', '%', '@', '`', '```', '\n```\n', '~~~', '!', '&', '*', '\\', 'a', '6,35 mm', '007', '---', '...', '\uFEFF', '\u2028', '\u0085', '\0', '\ud800', 'µ'), { maxLength: 8 })
    .map((parts) => parts.join('')),
);

export function cellOf(document: SheetDocument, id: string): CellBlock {
  const block = document.blocks.find((candidate) => candidate.id === id);
  if (block?.kind !== 'cell') throw new Error(`no cell ${id} among ${document.blocks.map((other) => other.id).join(', ')}`);
  return block;
}

/** The document's text after a command on a text. */
export function edited(text: string, ...commands: readonly EditCommand[]): string {
  let document = parseSheet(text);
  for (const command of commands) {
    const result = applyEdit(document, command);
    if (!result.ok) throw new Error(`${result.problem.code}: ${result.problem.what}`);
    document = result.value;
  }
  return serialiseSheet(document);
}

/** Rows of the earlier text that a later text lacks, and of the later one that the earlier lacks, by longest common rows. */
export function changedRows(before: string, after: string): { gone: readonly string[]; added: readonly string[] } {
  const a = before.split('\n');
  const b = after.split('\n');
  const common = Array.from({ length: a.length + 1 }, () => Array.from({ length: b.length + 1 }, () => 0));
  const at = (i: number, j: number): number => common[i]?.[j] ?? 0;
  for (let i = a.length - 1; i >= 0; i--) {
    for (let j = b.length - 1; j >= 0; j--) {
      const row = common[i];
      if (row !== undefined) row[j] = a[i] === b[j] ? at(i + 1, j + 1) + 1 : Math.max(at(i + 1, j), at(i, j + 1));
    }
  }
  const gone: string[] = [];
  const added: string[] = [];
  let i = 0;
  let j = 0;
  while (i < a.length || j < b.length) {
    if (i < a.length && j < b.length && a[i] === b[j]) {
      i++;
      j++;
    } else if (j >= b.length || (i < a.length && at(i + 1, j) >= at(i, j + 1))) gone.push(a[i++] ?? '');
    else added.push(b[j++] ?? '');
  }
  return { gone, added };
}
