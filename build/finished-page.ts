import { existsSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { transformWithOxc, type Plugin } from 'vite';
import { changingExports } from './changing-exports.ts';
import { licences } from './licences.ts';
import { packed } from './packing.ts';
import { partOf, type Part } from './parts.ts';
import { policy } from './policy.ts';
import { top } from './top.ts';

const largestPage = 2_000_000;

/** The few lines that unpack parts, and the licences of all that is bundled, as they stand in the page. */
async function firstScript(modules: readonly string[]): Promise<string> {
  const file = join(top, 'src/app/first-script.ts');
  const { code } = await transformWithOxc(readFileSync(file, 'utf8'), file);
  return `${licences(modules)}\n${code}`;
}

/** Needs first; parts that need one another in a circle would wait for ever. */
function inOrder(parts: readonly Part[]): readonly Part[] {
  const done = new Map<string, Part>();
  const put = (part: Part, above: readonly string[]): void => {
    if (above.includes(part.name)) throw new Error(`parts need one another in a circle: ${[...above, part.name].join(' -> ')}`);
    for (const name of part.needs) {
      const needed = parts.find((each) => each.name === name);
      if (needed === undefined) throw new Error(`${part.name} needs ${name}, which is no part`);
      put(needed, [...above, part.name]);
    }
    done.set(part.name, part);
  };
  for (const part of parts) put(part, []);
  return [...done.values()];
}

/** Puts styles and parts into the page, each part packed by itself at the end of the body, writes the policy and holds the page to its size. */
export function finishedPage(): Plugin {
  const changing: string[] = [];
  return {
    name: 'finished-page',
    apply: 'build',
    enforce: 'post',
    renderChunk(code, { fileName }) {
      changing.push(...changingExports(fileName, code));
      return null;
    },
    generateBundle: {
      order: 'post',
      async handler(_options, bundle) {
        if (changing.length > 0) this.error(changing.join('\n'));
        const page = bundle['index.html'];
        if (page?.type !== 'asset') return this.error('the build gave no index.html');
        const [parts, modules, styles]: [Part[], string[], string[]] = [[], [], []];
        for (const [name, output] of Object.entries(bundle)) {
          if (output === page) continue;
          if (output.type === 'chunk') {
            parts.push(partOf(output.fileName, output.code));
            modules.push(...output.moduleIds);
          } else if (name.endsWith('.css')) styles.push(String(output.source));
          else this.error(`not inlined into the one file: ${name}`);
          delete bundle[name];
        }
        const first = await firstScript(modules);
        const elements = inOrder(parts).map(({ name, text }) => `<script type="text/plain" data-part="${name}">${packed(text)}</script>\n`).join('');
        page.source = completed(String(page.source), { style: styles.join('\n').trim(), policy: policy([first, ...inOrder(parts).map(({ text }) => text)]), scripts: `${elements}<script type="module">${first}</script>\n` });
        const size = Buffer.byteLength(page.source);
        if (size > largestPage) return this.error(`the page has ${size} bytes, more than the ${largestPage} allowed`);
      },
    },
    closeBundle() {
      const built = join(top, 'dist/index.html');
      if (existsSync(built)) console.log(`dist/index.html: ${(statSync(built).size / 1000).toFixed(0)} kB of ${largestPage / 1000} kB`);
    },
  };
}

/** What the bundler refers to in the page stands in it. */
function completed(page: string, put: { readonly style: string; readonly policy: string; readonly scripts: string }): string {
  const places: readonly (readonly [RegExp, string])[] = [
    [/[ \t]*<script type="module"[^>]* src="[^"]*"[^>]*><\/script>\s*/, ''],
    [/<link rel="stylesheet"[^>]*>/, `<style>${put.style}</style>`],
    [/<meta charset="?utf-8"?\s*\/?>/i, `<meta charset="utf-8">\n<meta http-equiv="Content-Security-Policy" content="${put.policy}">`],
    [/<\/body>(?![\s\S]*<\/body>)/, `${put.scripts}</body>`],
  ];
  return places.reduce((text, [place, by]) => {
    if (!place.test(text)) throw new Error(`the page has no place ${place.source}`);
    // Replacement by function: what is put there may hold `$&`.
    return text.replace(place, () => by);
  }, page);
}
