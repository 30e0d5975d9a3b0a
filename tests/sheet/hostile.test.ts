import { describe, expect, it } from 'vitest';
import { applyEdit, parseSheet, serialiseSheet } from '../../src/sheet/index.ts';
import type { CellBlock, SheetDocument } from '../../src/sheet/index.ts';
import { size } from '../sizes.ts';

function parsed(text: string): SheetDocument {
  const document = parseSheet(text);
  expect(serialiseSheet(document)).toBe(text);
  return document;
}

function one(body: string, kind = 'given'): CellBlock {
  const [block] = parsed(`\`\`\`${kind}\n${body}\n\`\`\`\n`).blocks;
  if (block?.kind !== 'cell') throw new Error('no cell');
  return block;
}

const codes = (block: CellBlock) => block.cell.problems.map(({ code }) => code);

describe('texts that mean harm', () => {
  it('does not unfold aliases: nine levels of nine would be 387 million words', () => {
    const bomb = ['a: &a [lol, lol, lol, lol, lol, lol, lol, lol, lol]'];
    for (let i = 1; i < 9; i++) {
      const [name, inner] = ['abcdefghi'[i], 'abcdefghi'[i - 1]];
      bomb.push(`${name}: &${name} [${Array(9).fill(`*${inner}`).join(', ')}]`);
    }
    const block = one(`symbol: d\n${bomb.join('\n')}`);
    expect(new Set(codes(block))).toEqual(new Set(['anchor', 'alias']));
    expect(codes(block).length).toBeLessThanOrEqual(20);
    expect(block.cell).toMatchObject({ kind: 'given', symbol: 'd' });
  });

  it('does not follow an alias to itself, nor merge keys', () => {
    expect(codes(one('symbol: d\nx: &x [*x]'))).toEqual(['anchor', 'alias']);
    const merged = one('symbol: d\nbase: {value: 1 mm}\n<<: {value: 2 mm}');
    expect(merged.cell).not.toHaveProperty('value');
    expect(merged.cell.unknownKeys.map(({ key }) => key)).toEqual(['base', '<<']);
  });

  it('refuses what nests too deeply, in whatever signs', () => {
    const deep = ['['.repeat(190_000), '{a: '.repeat(40_000), '- '.repeat(90_000), '? '.repeat(90_000), '['.repeat(150) + ']'.repeat(150)];
    for (const value of deep) expect(codes(one(`symbol: d\nnote: ${value}`))).toContain('too-deep');
    const rows = Array.from({ length: 500 }, (_, i) => `${' '.repeat(i)}a:`).join('\n');
    expect(codes(one(rows))).toContain('too-deep');
  });

  it('keeps a body beyond 200 000 characters unread', () => {
    const block = one(`symbol: d\nnote: ${'x'.repeat(200_000)}`);
    expect(block.cell).toMatchObject({ kind: 'unknown', problems: [{ code: 'body-too-long' }] });
    expect(parsed(`---\ntitle: ${'x'.repeat(200_000)}\n---\n`).frontMatter).toMatchObject({ problems: [{ code: 'head-too-long' }] });
  });

  it('keeps a body of too many entries unread, since each could be a slip of its own', () => {
    for (const body of ['x: 1\n'.repeat(30_000), `x: [${','.repeat(190_000)}`, '&a '.repeat(60_000), '"'.repeat(190_000)]) {
      expect(one(body).cell).toMatchObject({ kind: 'unknown', problems: [{ code: 'too-many-entries' }] });
    }
  });

  it('reads the first 10 000 cells and keeps the rest as prose', () => {
    const document = parsed('```remark\n```\n'.repeat(10_001) + 'End.\n');
    expect(document.blocks.length).toBe(10_001);
    expect(document.blocks.at(-1)).toMatchObject({ kind: 'prose', source: '```remark\n```\nEnd.\n' });
    expect(document.problems).toMatchObject([{ code: 'too-many-cells', line: 20_001 }]);
  });

  it('stays with keys that JavaScript knows', () => {
    const block = one('symbol: constructor\n__proto__: x\ncorrelated:\n  __proto__: 0.5\n  toString: 1\nhasOwnProperty: y');
    expect(block.id).toBe('constructor');
    expect(block.cell).toMatchObject({ correlated: new Map([['__proto__', '0.5'], ['toString', '1']]), unknownKeys: [{ key: '__proto__' }, { key: 'hasOwnProperty' }] });
    expect(one('x: y', 'constructor').cell.kind).toBe('unknown');
    expect(parsed('---\n__proto__: x\nconstructor: y\n---\n').frontMatter.problems).toEqual([]);
  });

  it('takes binary junk for prose and says that it is no text', () => {
    let state = 12345;
    const bytes = Array.from({ length: 100_000 }, () => {
      state = (state * 1103515245 + 12345) % 2147483648;
      return String.fromCharCode((state >> 8) & 255);
    });
    expect(parsed(bytes.join('')).problems.map(({ code }) => code)).toContain('document-not-text');
    expect(codes(one(bytes.join('').replaceAll('`', '').slice(0, 50_000))).length).toBeLessThanOrEqual(40);
  });

  it('tells at most some twenty problems of a cell however broken', () => {
    const problems = codes(one('x\n'.repeat(5_000)));
    expect(problems.length).toBeLessThanOrEqual(20);
    expect(codes(one('"\n'.repeat(5_000))).length).toBeLessThanOrEqual(20);
  });
});

describe('large documents', () => {
  const cell = (i: number) => `\`\`\`given\nsymbol: x_${i}\nlabel: Left support to left load point, number ${i}\nreadings: 101.2, 101.4 mm\ninstrument: steel rule, 0.5 mm\n\`\`\`\n\n`;
  const text = Array.from({ length: 7_500 }, (_, i) => cell(i)).join('');

  it('parses a megabyte of cells, and an edit reads only the cell it changes', () => {
    expect(text.length).toBeGreaterThan(1e6);
    const start = performance.now();
    const document = parsed(text);
    // No measurement: a quadratic slip would take minutes.
    expect(performance.now() - start).toBeLessThan(15_000);
    const result = applyEdit(document, { do: 'set key', cellId: 'x_3500', key: 'readings', value: '1 mm' });
    if (!result.ok) throw new Error(result.problem.what);
    const fresh = result.value.blocks.filter((block, i) => block !== document.blocks[i]);
    expect(fresh.map(({ id }) => id)).toEqual(['x_3500']);
  });

  it('takes long lines, many fences and many line ends in its stride', () => {
    const many = size(200_000, 1_000_000);
    const start = performance.now();
    for (const line of ['`'.repeat(many), '``` ' + ' '.repeat(many) + '`', '~~~a\n'.repeat(many / 5), '```\n'.repeat(many / 5), '\r'.repeat(many), '--- '.repeat(many / 5), `---\n${'a: b\n'.repeat(1e4)}---\n`]) parsed(line);
    for (const body of ['x\n'.repeat(90_000), ' '.repeat(190_000) + 'x', 'a:' + ' '.repeat(190_000), '# '.repeat(90_000), '!'.repeat(190_000)]) one(body);
    expect(performance.now() - start).toBeLessThan(60_000);
  }, 90_000);
});
