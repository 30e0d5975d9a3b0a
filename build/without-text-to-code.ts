import type { Plugin } from 'vite';

/**
 * Parts of arquero that are never called here and would make up half of it: the parser of expressions given as text, which
 * the policy forbids to use anyway, and a binary file format. Without them nothing can turn text into code.
 */
export function withoutTextToCode(): Plugin {
  const unused: Readonly<Record<string, readonly string[]>> = {
    acorn: ['parse'],
    '@uwdata/flechette': ['columnFromArray', 'columnFromValues', 'tableFromColumns', 'tableFromIPC', 'tableToIPC'],
  };
  return {
    name: 'without-text-to-code',
    apply: 'build',
    enforce: 'pre',
    resolveId: (id) => (id in unused ? `\0unused:${id}` : null),
    load(id) {
      const names = unused[id.replace('\0unused:', '')];
      if (!id.startsWith('\0unused:') || names === undefined) return null;
      return names.map((name) => `export function ${name}() { throw new Error('${name} is not part of this page'); }`).join('\n');
    },
  };
}
