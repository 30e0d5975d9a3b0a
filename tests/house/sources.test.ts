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

  test('every layer says at its head what it is for', () => {
    const indexes = files.filter((path) => /^src\/(core\/)?\w+\/index\.ts$/.test(path));
    expect(indexes.filter((path) => !read(path).startsWith('/**'))).toEqual([]);
  });
});
