import { existsSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { transformWithOxc, type Plugin } from 'vite';
import { changingExports } from './changing-exports.ts';
import { licences } from './licences.ts';
import { inOneScript, inOrder, partOf, type Part } from './parts.ts';
import { servedFiles, wholePage } from './pages.ts';
import { top } from './top.ts';

const largestPage = 1_800_000;

/** The few lines that unpack parts, and the licences of all that is bundled, as they stand in the page. */
async function firstScript(modules: readonly string[]): Promise<string> {
  const file = join(top, 'src/app/first-script.ts');
  const { code } = await transformWithOxc(readFileSync(file, 'utf8'), file);
  return `${licences(modules)}\n${code}`;
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
        const made = { page: String(page.source), style: styles.join('\n').trim(), parts: inOneScript(inOrder(parts), 'main'), first: await firstScript(modules) };
        page.source = wholePage(made);
        const size = Buffer.byteLength(page.source);
        // One that is not minified is looked into, and leaves this computer never.
        if (size > largestPage && this.environment.config.build.minify !== false) return this.error(`the page has ${size} bytes, more than the ${largestPage} allowed`);
        for (const [fileName, source] of [...servedFiles(made), ['spanlife.html', page.source] as const]) this.emitFile({ type: 'asset', fileName: `served/${fileName}`, source });
      },
    },
    closeBundle() {
      const built = join(top, 'dist/index.html');
      if (existsSync(built)) console.log(`dist/index.html: ${(statSync(built).size / 1000).toFixed(0)} kB of ${largestPage / 1000} kB`);
    },
  };
}
