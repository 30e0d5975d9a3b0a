/** The layer order of DEVELOPERS.md is a lint rule; here it is shown to refuse what it should and nothing else. */
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, posix } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { layers, projectFiles, read, top } from './tracked.ts';

interface Finding {
  readonly file: string;
  readonly rule: string;
}

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'spanlife-layers-'));
  copyFileSync(join(top, '.oxlintrc.json'), join(folder, '.oxlintrc.json'));
});
afterAll(() => rmSync(folder, { recursive: true }));

function write(path: string, text: string): void {
  mkdirSync(join(folder, dirname(path)), { recursive: true });
  writeFileSync(join(folder, path), text);
}

/** What oxlint says of everything under `name`, laid out as src is. */
function lint(name: string): Finding[] {
  const run = spawnSync(process.execPath, [join(top, 'node_modules/oxlint/bin/oxlint'), '-c', '.oxlintrc.json', '--format', 'json', name], {
    cwd: folder,
    encoding: 'utf8',
  });
  const report = JSON.parse(run.stdout) as { diagnostics: { filename: string; code: string }[]; number_of_files: number };
  expect(report.number_of_files).toBeGreaterThan(0);
  return report.diagnostics.map(({ filename, code }) => ({ file: filename.replaceAll('\\', '/'), rule: code }));
}

/** The import that a file of one layer would write to reach another's index. */
function specifier(from: string, to: string): string {
  return posix.relative(`src/${from}`, `src/${to}/index.ts`);
}

const told = ({ file, rule }: Finding): string => `${file}: ${rule}`;
const rule = 'eslint(no-restricted-imports)';

describe('the layer rule', () => {
  test('is content with imports from earlier layers and from the own folder', () => {
    rmSync(join(folder, 'src'), { recursive: true, force: true });
    layers.forEach((layer, place) => {
      const earlier = layers.slice(0, place).map((other, index) => `export { name as name${index} } from '${specifier(layer, other)}';`);
      write(`src/${layer}/own.ts`, `export const name = '${layer}';\n`);
      write(`src/${layer}/index.ts`, `${earlier.join('\n')}\nexport { name } from './own.ts';\n`);
    });
    expect(lint('src')).toEqual([]);
  });

  test('refuses every import from a later layer, however it is written', () => {
    rmSync(join(folder, 'src'), { recursive: true, force: true });
    const expected: string[] = [];
    for (const layer of layers) write(`src/${layer}/index.ts`, `export type Name = '${layer}';\nexport const name = '${layer}';\n`);
    layers.forEach((layer, place) => {
      for (const later of layers.slice(place + 1)) {
        const to = specifier(layer, later);
        const ways = {
          value: `import { name } from '${to}';\nexport const copy = name;\n`,
          type: `import type { Name } from '${to}';\nexport type Copy = Name;\n`,
          again: `export { name } from '${to}';\n`,
          lazy: `export const copy = () => import('${to}');\n`,
          types: `import type { Name } from '${to.replace('index.ts', 'types.ts')}';\nexport type Copy = Name;\n`,
          worker: `import copy from '${to}?worker&inline';\nexport { copy };\n`,
        };
        for (const [way, text] of Object.entries(ways)) {
          const file = `src/${layer}/${way}-${later.replace('/', '-')}.ts`;
          write(file, text);
          expected.push(told({ file, rule }));
        }
        const nested = `src/${layer}/within/nested-${later.replace('/', '-')}.ts`;
        write(nested, `export { name } from '../${to}';\n`);
        expected.push(told({ file: nested, rule }));
      }
    });
    expect(lint('src').map(told).sort()).toEqual(expected.sort());
  });

  test('keeps the page out of the headless command', () => {
    rmSync(join(folder, 'src'), { recursive: true, force: true });
    for (const layer of layers) write(`src/${layer}/index.ts`, `export const name = '${layer}';\n`);
    write('src/solve.ts', "import { name as a } from './report/index.ts';\nimport { name as b } from './view/index.ts';\nimport { name as c } from './app/index.ts';\nconsole.log(a, b, c);\n");
    write('src/solve/part.ts', "export { name as b } from '../view/index.ts';\nexport { name as c } from '../report/index.ts';\n");
    write('src/app/other.ts', "export * from '../solve.ts';\n");
    write('src/report/other.ts', "export * from '../solve/part.ts';\n");
    expect(lint('src').filter((finding) => finding.rule === rule).map((finding) => finding.file).sort()).toEqual(['src/app/other.ts', 'src/report/other.ts', 'src/solve.ts', 'src/solve.ts', 'src/solve/part.ts']);
  });

  test.each([
    ['by value', "import { two } from './two.ts';\nexport const one = () => two;\n", "import { one } from './one.ts';\nexport const two = () => one;\n"],
    ['by type', "import type { Two } from './two.ts';\nexport type One = readonly Two[];\n", "import type { One } from './one.ts';\nexport type Two = { readonly one: One };\n"],
  ])('finds a loop between files %s', (_way, one, two) => {
    rmSync(join(folder, 'src'), { recursive: true, force: true });
    write('src/sheet/one.ts', one);
    write('src/sheet/two.ts', two);
    expect(new Set(lint('src').map((finding) => finding.rule))).toEqual(new Set(['import(no-cycle)']));
  });

  test('finds text that would become code or markup', () => {
    rmSync(join(folder, 'src'), { recursive: true, force: true });
    const lines = [
      "export const a = (e: Element) => { e.innerHTML = 'x'; };",
      "export const b = (e: Element) => { e.outerHTML = 'x'; };",
      "export const c = (e: Element) => { e.insertAdjacentHTML('afterend', 'x'); };",
      "export const d = () => document.write('x');",
      "export const e = () => eval('1');",
      "export const f = () => new Function('1');",
      "export const g = () => globalThis.eval('1');",
      'export const h = (x: any) => x;',
      "export const i = () => console.log('x');",
    ];
    lines.forEach((line, index) => write(`src/view/line${index}.ts`, `${line}\n`));
    expect(new Set(lint('src').map((finding) => finding.file))).toEqual(new Set(lines.map((_line, index) => `src/view/line${index}.ts`)));
  });
});

describe('the layers as they are', () => {
  test('every folder of src has its place in the order', () => {
    const known = new Set<string>([...layers, 'core', 'ambient', 'solve']);
    const folders = ['', 'core/'].flatMap((parent) =>
      readdirSync(join(top, 'src', parent), { withFileTypes: true })
        .filter((entry) => entry.isDirectory())
        .map((entry) => `${parent}${entry.name}`),
    );
    expect(folders.filter((name) => !known.has(name))).toEqual([]);
    const config = JSON.parse(read('.oxlintrc.json')) as { overrides: { files: string[] }[] };
    const ruled = config.overrides.flatMap((override) => override.files);
    expect(layers.filter((layer) => !ruled.includes(`src/${layer}/**`))).toEqual([]);
  });

  test('all but view and app compiles without the DOM', () => {
    const core = JSON.parse(read('src/tsconfig.core.json')) as { compilerOptions: { lib: string[]; types: string[] }; include: string[]; exclude?: string[] };
    expect(core.compilerOptions).toMatchObject({ lib: ['ES2023'], types: [] });
    expect(core.exclude).toBeUndefined();
    const compiled = layers.filter((layer) => core.include.includes(layer.split('/')[0] ?? ''));
    expect(layers.filter((layer) => !compiled.includes(layer))).toEqual(['view', 'app']);
  });

  test('a folder is imported through its index.ts or a types.ts', () => {
    const layerOf = (path: string) => layers.find((layer) => path.startsWith(`src/${layer}/`));
    const strays: string[] = [];
    for (const path of projectFiles().filter((file) => /^src\/.*\.ts$/.test(file))) {
      for (const [, target = ''] of read(path).matchAll(/\b(?:from|import)\s*\(?\s*'(\.[^']*)'/g)) {
        const reached = posix.join(posix.dirname(path), target.replace(/\?.*$/, ''));
        const layer = layerOf(reached);
        const isPublic = /\/(index|types)\.ts$/.test(reached) || reached.endsWith('.css');
        if (layer !== undefined && layer !== layerOf(path) && !isPublic) strays.push(`${path}: ${target}`);
      }
    }
    expect(strays).toEqual([]);
  });
});
