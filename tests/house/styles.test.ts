/** Styles of the head and the side reach nothing of the sheet: a class of the head once hid every sentence that a sheet's findings say, since both were called alike. */
import { expect, test } from 'vitest';
import { projectFiles, read } from './tracked.ts';

/** Classes that a selector begins with and asks for nothing before. */
function bareClasses(css: string): ReadonlySet<string> {
  const bare = new Set<string>();
  const plain = css.replace(/\/\*[\s\S]*?\*\//g, '');
  for (const [, selectors = ''] of plain.matchAll(/([^{}]+)\{/g)) {
    for (const selector of selectors.replace(/\([^()]*\)/g, '').split(',')) {
      const [, name] = /^\.([\w-]+)/.exec(selector.trim()) ?? [];
      if (name !== undefined) bare.add(name);
    }
  }
  return bare;
}

function classesIn(sources: readonly string[]): ReadonlySet<string> {
  return new Set(sources.flatMap((path) => [...read(path).matchAll(/class(?:Name)?\s*=\s*["'`]([^"'`$]*)/g)].flatMap(([, names = '']) => names.split(/\s+/))));
}

/** The first stands in the page around the sheet too; of the second, the side hides on purpose what it says itself. */
const SHARED = new Set(['lifeless', 'attention']);

test('what is found is what it is for', () => {
  expect([...bareClasses('/* .no {} */ .says, .word > .a { x: y } @media (width < 9rem) { .b:is(.c, .d) e { } :is(.f, .g) { } h .i { } }')]).toEqual(['says', 'word', 'b']);
});

test('no class that styles of head and side ask for by itself is one of the sheet', () => {
  const files = projectFiles();
  const ofTheSheet = classesIn(files.filter((path) => /^src\/(report|figures|view)\/.*\.ts$/.test(path) && !path.startsWith('src/view/side/')));
  expect(ofTheSheet.size).toBeGreaterThan(200);
  const shared = files.filter((path) => /^src\/app\/styles\/.*\.css$/.test(path)).flatMap((path) => [...bareClasses(read(path))].filter((name) => ofTheSheet.has(name) && !SHARED.has(name)).map((name) => `${path}: .${name}`));
  expect(shared).toEqual([]);
});
