/** Rules of the house that the linter has no rule for. */
import { describe, expect, test } from 'vitest';
import { findLines, projectFiles, read } from './tracked.ts';

const files = projectFiles();
const sources = files.filter((path) => /^src\/.*\.(ts|html)$/.test(path));
const isPure = (path: string): boolean => /^src\/(core|sheet|graph|figures|report)\//.test(path);

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
  ['nothing comes from the network', /\bfetch\s*\(|XMLHttpRequest|WebSocket|EventSource|sendBeacon|RTCPeerConnection/, ["fetch('x')", 'new WebSocket(x)', 'navigator.sendBeacon(x)']],
];

describe('the sources', () => {
  test.each(forbidden)('%s', (_what, pattern, examples) => {
    expect(examples.filter((line) => !pattern.test(line))).toEqual([]);
    expect(findLines(sources, pattern)).toEqual([]);
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
    // A column whose trouble is told at another one says nothing itself.
    expect(findLines(sources.filter((path) => path !== 'src/graph/table/derived.ts'), pattern)).toEqual([]);
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

  test('every layer says at its head what it is for', () => {
    const indexes = files.filter((path) => /^src\/(core\/)?\w+\/index\.ts$/.test(path));
    expect(indexes.filter((path) => !read(path).startsWith('/**'))).toEqual([]);
  });
});
