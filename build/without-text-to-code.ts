import { readFileSync } from 'node:fs';
import { parseAst, type Plugin } from 'vite';
import { nameOf, type Node } from './syntax-tree.ts';

/** Packages inside arquero that are never called here: the parser of expressions given as text, which the policy forbids to use anyway, and a binary file format. */
const packages: Readonly<Record<string, readonly string[]>> = {
  acorn: ['parse'],
  '@uwdata/flechette': ['columnFromArray', 'columnFromValues', 'tableFromColumns', 'tableFromIPC', 'tableToIPC'],
};

/** Its own files of which `src/core/rows/rows.ts` calls nothing: expressions, formats, operations, and all that is done to a table but to reduce it. */
const files = /\/arquero\/src\/(expression|format|op|helpers|verbs)\//;
const called = /\/verbs\/(index|reduce|reduce\/(reducer|util))\.js$/;

/** Finds addresses in texts of prose, which is switched off there: `linkify` is false. */
const LINKS = 'linkify-it';

/**
 * Files of packages that are never called here and would make up most of them; each name that they export is there, and throws where it is called after all.
 * Without them nothing can turn text into code.
 */
export function withoutTextToCode(): Plugin {
  return {
    name: 'without-text-to-code',
    apply: 'build',
    enforce: 'pre',
    resolveId: (id) => (id in packages || id === LINKS ? `\0unused:${id}` : null),
    load(id) {
      // Made with each reader of prose, and asked nothing there.
      if (id === `\0unused:${LINKS}`) return 'export class LinkifyIt {}';
      const names = packages[id.replace('\0unused:', '')];
      if (id.startsWith('\0unused:') && names !== undefined) return withNames(names);
      return files.test(id) && !called.test(id) ? withNames(exportedBy(readFileSync(id, 'utf8'))) : null;
    },
  };
}

/** One function under all these names. */
function withNames(names: readonly string[]): string {
  return `function unused() { throw new Error('a part of a package that is not in this page'); }\nexport { ${names.map((name) => `unused as ${name}`).join(', ')} };`;
}

function exportedBy(code: string): readonly string[] {
  const { body } = parseAst(code) as unknown as { readonly body: readonly Node[] };
  return body.flatMap((node) => {
    if (node.type === 'ExportDefaultDeclaration') return ['default'];
    if (node.type !== 'ExportNamedDeclaration') return [];
    const declared = node['declaration'] as Node | null;
    const specified = (node['specifiers'] as readonly Node[]).map((each) => nameOf(each['exported']));
    if (declared === null) return specified;
    return declared['id'] === undefined ? (declared['declarations'] as readonly Node[]).map((each) => nameOf(each['id'])) : [nameOf(declared['id'])];
  });
}
