/** Rules of the house that the linter has no rule for. */
import { describe, expect, test } from 'vitest';
import { findLines, projectFiles, read } from './tracked.ts';

const files = projectFiles();
const sources = files.filter((path) => /^src\/.*\.(ts|html)$/.test(path));
const isPure = (path: string): boolean => /^src\/(core|sheet|graph|figures|report)\//.test(path);

/** The page as one file: what is taken away from a page that is served in several is made of it. */
const WHOLE_PAGE = /^src\/app\/page-parts\.ts:\d+: const answer = await fetch\(address\)/;

/** Each pattern is shown to find what it is for before it is trusted to find nothing. */
const forbidden: readonly (readonly [what: string, pattern: RegExp, examples: readonly string[]])[] = [
  [
    'text never becomes markup',
    /\b(innerHTML|outerHTML|insertAdjacentHTML|createContextualFragment|setHTMLUnsafe|parseHTMLUnsafe|srcdoc|unsafeHTML|unsafeSVG|unsafeMathML|unsafeStatic)\b|\bdocument\s*\.\s*write(ln)?\b/,
    ["e.innerHTML = x", "e['outerHTML'] = x", 'e.insertAdjacentHTML(a, b)', 'document.write(x)', "import { unsafeHTML } from 'lit-html'"],
  ],
  [
    'text never becomes code',
    /\beval\s*\(|\b(?:new\s+)?(?<!\w)Function\s*\(|\bset(?:Timeout|Interval)\s*\(\s*['"`]|javascript:|\.constructor\s*\(|\bimportScripts\b/,
    ["eval('1')", "new Function('1')", "Function('1')", "setTimeout('x', 1)", 'href="javascript:x"', "f.constructor('1')"],
  ],
  [
    'no check is silenced',
    /@ts-ignore|@ts-nocheck|(?:eslint|oxlint)-disable/,
    ['// @ts-ignore', '/* eslint-disable no-eval */', '// oxlint-disable-next-line'],
  ],
  [
    'nothing comes from the network but the page as one file, which a served page has beside it',
    /\bfetch\s*\(|XMLHttpRequest|WebSocket|EventSource|sendBeacon|RTCPeerConnection/,
    ["fetch('x')", 'new WebSocket(x)', 'navigator.sendBeacon(x)'],
  ],
];

/** What is exported and used in no other file; a type of what a folder gives may be named by the folder's index alone. */
function unusedExports(texts: ReadonlyMap<string, string>): readonly string[] {
  const named = /export (?:type )?\{[^}]*\} from '[^']*';/g;
  const uses = new Map<string, Set<string>>();
  const given = new Set<string>();
  for (const [path, text] of texts) {
    for (const [statement] of text.matchAll(named)) for (const [word] of statement.matchAll(/\w+/g)) given.add(word);
    for (const [word] of text.replaceAll(named, '').matchAll(/\w+/g)) uses.set(word, (uses.get(word) ?? new Set()).add(path));
  }
  return [...texts].filter(([path]) => path.startsWith('src/')).flatMap(([path, text]) =>
    [...text.matchAll(/^export (?:async )?(function|const|class|interface|type) (\w+)/gm)].flatMap(([, form = '', name = '']) => {
      const isUsed = (uses.get(name)?.size ?? 0) > 1 || ((form === 'interface' || form === 'type') && given.has(name));
      return isUsed ? [] : [`${path} ${name}`];
    }));
}

describe('the sources', () => {
  test.each(forbidden)('%s', (_what, pattern, examples) => {
    expect(examples.filter((line) => !pattern.test(line))).toEqual([]);
    expect(findLines(sources, pattern).filter((line) => !WHOLE_PAGE.test(line))).toEqual([]);
  });

  test('clock and chance reach the core, sheet, graph, figures and report as arguments', () => {
    const pattern = /\bDate\.now\b|\bnew Date\(\s*\)|\bMath\.random\b|\bperformance\.now\b/;
    expect(pattern.test('const t = new Date();') && pattern.test('Math.random()')).toBe(true);
    expect(findLines(sources.filter(isPure), pattern)).toEqual([]);
  });

  test('no file is longer than 300 lines', () => {
    const long = sources.map((path) => [path, read(path).split('\n').length - 1] as const).filter(([, lines]) => lines > 300);
    expect(long).toEqual([]);
  });

  test('every problem says how to mend it', () => {
    const pattern = /\bmend: ''/;
    expect(pattern.test("{ code: 'x', what: 'y', mend: '' }")).toBe(true);
    expect(findLines(sources, pattern)).toEqual([]);
  });

  test('a code of a problem is made in one function, so that it says one thing', () => {
    const pattern = /^(?:export )?(?:async )?(?:function|const) (\w+)|\bcode: '([a-z0-9-]+)'|\b(?:keyProblem|heldProblem|tell)\(\s*'([a-z0-9-]+)'|\bproblemAt\([^']*'([a-z0-9-]+)'/gm;
    /** `code: place` of every code that a text makes, each once for each of its functions. */
    const made = (path: string, text: string): readonly string[] => {
      let place = '';
      const found = [...text.matchAll(pattern)].flatMap(([, within, ...codes]) => {
        if (within !== undefined) place = within;
        return codes.flatMap((code) => (code === undefined ? [] : [`${code} in ${path} ${place}`]));
      });
      return [...new Set(found)];
    };
    expect(made('a.ts', "function f() { return { code: 'one' }; }\nexport const g = () => keyProblem('two', 1) ?? fields.tell(\n 'three', key) ?? problemAt(text, span, 'two', what);\nif (code === 'five');"))
      .toEqual(['one in a.ts f', 'two in a.ts g', 'three in a.ts g']);
    const places = sources.flatMap((path) => made(path, read(path)));
    expect(places.length).toBeGreaterThan(250);
    const codes = places.map((place) => place.split(' ')[0]);
    expect(places.filter((_place, i) => codes.indexOf(codes[i]) !== i || codes.lastIndexOf(codes[i]) !== i)).toEqual([]);
  });

  test('what a file exports is used elsewhere', () => {
    const readers = files.filter((path) => /^(?:src|tests|\.scripts)\/.*\.(?:ts|mjs)$|^vite\.config\.ts$/.test(path));
    const unused = unusedExports(new Map(readers.map((path) => [path, read(path)])));
    expect(unusedExports(new Map([
      ['src/a.ts', 'export const one = 1;\nexport function two() {}\nexport interface Three {}\nexport type Four = 4;'],
      ['src/index.ts', "export { one, two, type Three } from './a.ts';"], ['src/b.ts', "import { two } from './index.ts';"],
    ]))).toEqual(['src/a.ts one', 'src/a.ts Four']);
    expect(unused).toEqual([]);
  });

  test('every layer says at its head what it is for', () => {
    const indexes = files.filter((path) => /^src\/(core\/)?\w+\/index\.ts$/.test(path));
    expect(indexes.filter((path) => !read(path).startsWith('/**'))).toEqual([]);
  });
});
