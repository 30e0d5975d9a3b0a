import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { solveCommand } from '../../src/solve/command.ts';
import { shipped, solving } from '../shipped.ts';

const folder = mkdtempSync(join(tmpdir(), 'spanlife-told-'));
afterAll(() => rmSync(folder, { recursive: true }));

function fileOf(name: string, text: string): string {
  const file = join(folder, name);
  writeFileSync(file, text);
  return file;
}

interface Told {
  readonly errors: readonly { readonly cell: string; readonly message: string }[];
  readonly warnings: readonly { readonly cell: string; readonly key?: string; readonly row?: number; readonly message: string }[];
  readonly leftOut: readonly { readonly cell: string; readonly row: number; readonly specimen?: string; readonly reasons: readonly { readonly column: string; readonly message: string }[] }[];
  readonly findings?: Readonly<Record<string, { readonly finds: string; readonly sentences: readonly string[]; readonly tables: readonly { readonly rows: readonly (readonly string[])[] }[] }>>;
  readonly values: Readonly<Record<string, { readonly interval?: { readonly k: number; readonly lo: number; readonly hi: number; readonly spread?: string }; readonly value: number; readonly u: number }>>;
}

async function both(...args: readonly string[]): Promise<{ readonly code: number; readonly text: string; readonly json: Told }> {
  const plain = await solveCommand(args);
  const asJson = await solveCommand([...args, '--json']);
  expect(asJson.code).toBe(plain.code);
  return { code: plain.code, text: plain.stdout, json: JSON.parse(asJson.stdout) as Told };
}

const ROWS = [
  'specimen,group,S [MPa],N,outcome', 'a,K,400,1e5,fracture', 'b,K,abc,2e5,fracture', 'c,K,350,-3,fracture', 'd,K,340,4e5,fracture',
  'e,K,330,9e5,fracture', 'f,K,320,1e6,exploded', '',
].join('\n');

describe('rows that are left out', () => {
  it('are told with what is wrong with them, in text and JSON', async () => {
    const { code, text, json } = await both(...solving('sn-line'), '--rows', `specimens=${fileOf('rows.csv', ROWS)}`);
    expect(code).toBe(0);
    expect(json.leftOut.map(({ cell, row, specimen, reasons }) => [cell, row, specimen, reasons.map(({ column }) => column).join()])).toEqual([
      ['specimens', 2, 'b', 'S'], ['specimens', 3, 'c', 'N'], ['specimens', 6, 'f', 'outcome'],
    ]);
    expect(text).toMatch(/^Rows left out \(3\)$/m);
    expect(text).toMatch(/^ {2}specimens, row 2 \(b\): S: “abc” does not begin with a number\./m);
    expect(text).toMatch(/^ {2}specimens, line \d+: 3 of 6 rows are left out/m);
    expect(json.warnings).toContainEqual(expect.objectContaining({ cell: 'specimens', message: expect.stringMatching(/^3 of 6 rows are left out/) as string }));
  });

  it('are none where every row is used, and nothing is said of them', async () => {
    const { text, json } = await both(...solving('sn-line'));
    expect(json.leftOut).toEqual([]);
    expect(text).not.toMatch(/Rows left out/);
  });
});

describe('errors', () => {
  it('name a drawing that is none once, with those that there are, and one that is not there yet by its key alone', async () => {
    const file = fileOf('drawing.md', '```figure\nid: wrong\ndrawing: cantilever\n```\n\n```figure\nid: none\n```\n');
    const { code, json } = await both(file);
    expect(code).toBe(1);
    expect(json.errors).toEqual([
      expect.objectContaining({ cell: 'none', message: expect.stringMatching(/^This figure has no `drawing` yet\./) as string }),
      expect.objectContaining({ cell: 'wrong', line: 3, message: expect.stringMatching(/^“cantilever” is no drawing .* free-body, /) as string }),
    ]);
  });
});

describe('warnings', () => {
  it('name the parts that a drawing has where none is near the one that is written', async () => {
    const file = fileOf('part.md', '```given\nsymbol: d\nvalue: 6.31 mm\nunit: mm\n```\n\n```figure\nid: f\ndrawing: plane-bending\nvalues:\n  zebra: d\n```\n');
    const { json } = await both(file);
    expect(json.warnings.map(({ message }) => message)).toEqual([
      expect.stringMatching(/^“values: zebra” is not understood here and has no effect\. There are: length, height, .*moment.*\. It is kept in the file as it is\.$/) as string,
    ]);
  });

  it('name what the lecture entry speaks of and the sheet does not have, cells and sections', async () => {
    const file = fileOf('lecture.md', '---\nlecture: d left out; Safty left out; nosuch at once; e predicts d 2 %; Safety left out\n---\n## Safety\n\n```given\nsymbol: d\nvalue: 6.31 mm\nunit: mm\n```\n');
    const { code, text, json } = await both(file);
    expect(code).toBe(0);
    expect(json.warnings.map(({ message }) => /“(.*?)”/u.exec(message)?.[1])).toEqual(['Safty', 'nosuch', 'e']);
    expect(text).toContain('“Safty”, which is neither the id of a cell nor the heading of a section. Did you mean Safety?');
  });

  it('name a key that has no effect, with the one that is near', async () => {
    const file = fileOf('key.md', '```given\nsymbol: d\nvalue: 6.31 mm\nunit: mm\ninstrumnt: micrometer\n```\n\n```choice\nid: c\nchosen: a\noptions:\n  - key: a\n    sorce: a book\n```\n');
    const { code, text, json } = await both(file);
    expect(code).toBe(0);
    expect(json.warnings).toEqual([
      { cell: 'd', key: 'instrumnt', line: 5, message: '“instrumnt” is not understood here and has no effect. Did you mean `instrument`? It is kept in the file as it is.' },
      { cell: 'c', key: 'option 1: sorce', line: 13, message: '“option 1: sorce” is not understood here and has no effect. Did you mean `source`? It is kept in the file as it is.' },
    ]);
    expect(text).toMatch(/^Warnings\n {2}d, line 5: “instrumnt” is not understood/m);
  });

  it('are all there, of cells and of fields of rows', async () => {
    const rows = 'specimen,group,S [MPa],N,outcome\na,K,400,1e5,fracture\nb,K,39000,2e5,fracture\nc,K,350,3e5,fracture\n';
    const { json } = await both(...solving('sn-line'), '--rows', `specimens=${fileOf('far.csv', rows)}`);
    expect(json.warnings.filter(({ row }) => row !== undefined)).toEqual([expect.objectContaining({ cell: 'specimens', row: 2 })]);
  });
});

describe('findings', () => {
  it('are printed: limits, comparison and plan', async () => {
    const { text, json } = await both(...solving('sn-line'));
    expect(Object.values(json.findings ?? {}).map(({ finds }) => finds).toSorted()).toEqual(['comparison', 'limits', 'plan']);
    for (const { sentences } of Object.values(json.findings ?? {})) {
      expect(sentences.length).toBeGreaterThan(0);
      for (const sentence of sentences) expect(text).toContain(`  ${sentence}`);
    }
    expect(json.findings?.['limits']?.tables[0]?.rows.length).toBeGreaterThan(3);
    expect(text).not.toMatch(/\\|\$/);
  });

  it('are printed: a staircase, with the next level', async () => {
    const { text, json } = await both(...solving('staircase'));
    expect(Object.values(json.findings ?? {}).map(({ finds }) => finds)).toEqual(['staircase']);
    expect(text).toContain(Object.values(json.findings ?? {})[0]?.sentences[0] ?? 'a sentence');
  });
});

/** A life of which the logarithm is normal: its quantiles are 10^(5 ± 1.96·0.9). */
const LIFE = '```given\nsymbol: x\nvalue: "5 ± 0.9"\nunit: "1"\npossible: any\n```\n\n```step\nsymbol: N_f\nformula: 10^x\nunit: cycles\nspread: factor\n```\n\n```step\nsymbol: y\nformula: 10^x\nunit: "1"\n```\n';

describe('the interval of a life', () => {
  it('is a factor in JSON, too, and holds no negative lives', async () => {
    const { json } = await both(fileOf('life.md', LIFE));
    const life = json.values['N_f'];
    const { k = 0, lo = 0, hi = 0, spread } = life?.interval ?? {};
    const { value = 0, u = 0 } = life ?? {};
    // As ± the lower end would be below zero: first order in the logarithm, u(ln N) = u(N)/N.
    expect(value - k * u).toBeLessThan(0);
    expect(spread).toBe('factor');
    expect(lo / (value / Math.exp((k * u) / value))).toBeCloseTo(1, 12);
    expect(hi / (value * Math.exp((k * u) / value))).toBeCloseTo(1, 12);
    expect(json.values['y']?.interval).not.toHaveProperty('spread');
  });

  it.each(['rotating-bending', 'alternating-bending', 'specimen', 'span-errors', 'sn-line'])('of %s has no end below zero', async (sheet) => {
    const { values } = (await both(...solving(sheet))).json;
    expect(Object.values(values).filter(({ interval }) => interval?.spread === 'factor' && !(interval.lo > 0))).toEqual([]);
  }, 60_000);

  it('has each end of the draws with digits of its own', async () => {
    const { stdout } = await solveCommand([fileOf('life.md', LIFE), '--draws', '20000']);
    const [, low = '', high = ''] = /^ {2}N_f: Drawn: 95 % interval (\S+) to (\S+) cycles/m.exec(stdout.replace(/\u202f/g, '')) ?? [];
    // 1722 and 5.8·10⁶, with what chance leaves of them.
    expect(low).toMatch(/^1[5-9]\d0$/);
    expect(high).toMatch(/^(?:5\.[0-9]|6\.[0-5])\d*·10⁶$/);
  });
});

describe('the exit status', () => {
  it('is told in --help', async () => {
    expect((await solveCommand(['--help'])).stdout).toMatch(/Exit status: 0 .*; 1 .*;\s+2 /);
  });

  it('is 1 with errors, which warnings and left-out rows are not', async () => {
    const broken = shipped('sn-line').replace(/formula: .*/, 'formula: nothing_such + 1');
    expect((await solveCommand([fileOf('broken.md', broken)])).code).toBe(1);
  });
});
