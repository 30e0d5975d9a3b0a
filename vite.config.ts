import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { deflateRawSync } from 'node:zlib';
import { defineConfig, transformWithOxc, type Plugin } from 'vite';
import { viteSingleFile } from 'vite-plugin-singlefile';
import { prerender } from './src/report/prerender.ts';
import { parseSheet, serialiseSheet, withExample } from './src/sheet/index.ts';

const top = dirname(fileURLToPath(import.meta.url));
const largestPage = 2_000_000;

/** The faces that formulas of this trade use. The others (script, fraktur, blackboard …) would add 120 kB. */
const keptFaces = /^KaTeX_(Main-(Regular|Bold|Italic)|Math-Italic|Size[1-4]-Regular)$/;

/** KaTeX's style sheet with the kept faces put in as woff2 and the others left out. */
function katexFonts(): Plugin {
  return {
    name: 'katex-fonts',
    enforce: 'pre',
    transform(code, id) {
      const file = id.split('?')[0] ?? id;
      if (!/\/katex\/dist\/katex(\.min)?\.css$/.test(file)) return null;
      return code.replace(/@font-face\s*\{[^}]*\}\s*/g, (rule) => {
        const face = /url\(fonts\/([\w-]+)\.woff2\)/.exec(rule)?.[1];
        if (face === undefined) throw new Error(`${file}: a font face without woff2:\n${rule}`);
        if (!keptFaces.test(face)) return '';
        const data = readFileSync(join(dirname(file), 'fonts', `${face}.woff2`)).toString('base64');
        return rule.replace(/src:[^;}]*/, `src: url(data:font/woff2;base64,${data}) format("woff2")`);
      });
    },
  };
}

/** The sheet with the entries of its example. */
function exampleOf(sheet: string, entries: string): string {
  const laid = withExample(parseSheet(sheet), entries);
  if (!laid.ok) throw new Error(`the example does not fit its sheet: ${laid.problem.what} ${laid.problem.mend}`);
  return serialiseSheet(laid.value);
}

/** Puts the start sheet into the page, so that it can be read before the script has started, or without it. */
function prerenderedSheet(): Plugin {
  const place = '<!--prerendered sheet-->';
  const [file, example] = [join(top, 'worksheets/rotating-bending.md'), join(top, 'worksheets/examples/rotating-bending.yaml')];
  return {
    name: 'prerendered-sheet',
    apply: 'build',
    transformIndexHtml: {
      // After Vite has read the page: the sheet's text is none of its business.
      order: 'post',
      async handler(html) {
        if (!html.includes(place)) throw new Error(`src/index.html has no ${place}`);
        const sheet = await prerender(exampleOf(readFileSync(file, 'utf8'), readFileSync(example, 'utf8')));
        // Replacement by function: the sheet's text may hold `$&`.
        return html
          .replace('<!--lifeless-->', () => sheet.lifeless)
          .replace(place, () => sheet.bodyHtml)
          .replace('</main>', () => `</main>\n${sheet.template}`)
          .replace(/<title>.*?<\/title>/, () => `<title>${sheet.title.replace(/&/g, '&amp;').replace(/</g, '&lt;')}</title>`);
      },
    },
  };
}

/**
 * Parts of arquero that are never called here and would make up half of it: the parser of expressions given as text, which
 * the policy forbids to use anyway, and a binary file format. Without them nothing can turn text into code.
 */
function withoutTextToCode(): Plugin {
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

/** Name of an installed package with its owners, and the words of its licence without them. */
function licence(folder: string): { readonly owner: string; readonly words: string } {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as Record<string, string>;
  const file = readdirSync(folder).find((entry) => /^licen[cs]e/i.test(entry));
  if (file === undefined) throw new Error(`${folder} has no licence file`);
  const lines = readFileSync(join(folder, file), 'utf8').trim().replaceAll('*/', '* /').split(/\r?\n/);
  const isOwner = (line: string): boolean => /^\s*copyright\b.*\d{4}/i.test(line);
  const owner = [`${name} ${version}, ${license}`, ...lines.filter(isOwner).map((line) => line.trim())].join('\n');
  return { owner, words: lines.filter((line) => !isOwner(line)).join('\n').replace(/\n{3,}/g, '\n\n').trim() };
}

/** The licences of what is bundled ask to go with every copy: they stand in a comment at the head of the script, equal ones once. */
function licences(): Plugin {
  return {
    name: 'licences',
    apply: 'build',
    generateBundle: {
      order: 'pre',
      handler(_options, bundle) {
        for (const chunk of Object.values(bundle)) {
          if (chunk.type !== 'chunk') continue;
          const packages = chunk.moduleIds.flatMap((id) => /^\0?(.*\/node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(id.replaceAll('\\', '/'))?.[1] ?? []);
          const own = readFileSync(join(top, 'LICENSE'), 'utf8').trim();
          const groups = new Map<string, string[]>();
          for (const { owner, words } of [...new Set(packages)].sort().map(licence)) groups.set(words, [...(groups.get(words) ?? []), owner]);
          const texts = [`Spanlife\n\n${own}`, ...[...groups].map(([words, owners]) => `${owners.join('\n')}\n\n${words}`)];
          chunk.code = `/*!\n${texts.join(`\n\n${'-'.repeat(72)}\n\n`)}\n*/\n${chunk.code}`;
        }
      },
    },
  };
}

/** The policy of the page: nothing but its own scripts, known by hash; nothing from anywhere; no text becomes code. */
function policy(scripts: readonly string[]): string {
  const hashes = scripts.map((text) => `'sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}'`);
  return [
    "default-src 'none'",
    `script-src ${hashes.join(' ')}`,
    'worker-src blob:',
    // KaTeX sets heights and widths in style attributes, which no hash can name.
    "style-src 'unsafe-inline'",
    'font-src data:',
    'img-src data: blob:',
    "connect-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
    "object-src 'none'",
  ].join('; ');
}

/** Bytes as digits to the base of 85, as `first-script.ts` reads them. */
function inDigits(bytes: Uint8Array): string {
  const padded = Buffer.concat([bytes, Buffer.alloc(3)]);
  const groups: string[] = [];
  for (let at = 0; at < bytes.length; at += 4) {
    const value = padded.readUInt32BE(at);
    const digits = [85 ** 4, 85 ** 3, 85 ** 2, 85, 1].map((place) => Math.floor(value / place) % 85);
    groups.push(String.fromCharCode(...digits.map((digit) => (digit === 20 ? 33 : digit + 40))));
  }
  return groups.join('').slice(0, Math.ceil(bytes.length * 5 / 4));
}

/** The script as the page carries it: its licences and the few lines that unpack it as they are, itself deflated and written in digits. */
async function packedScript(script: string): Promise<{ readonly elements: string; readonly texts: readonly string[] }> {
  const file = join(top, 'src/app/first-script.ts');
  const { code } = await transformWithOxc(readFileSync(file, 'utf8'), file);
  const head = /^\/\*![\s\S]*?\*\//.exec(script)?.[0];
  if (head === undefined) throw new Error('the script does not begin with its licences');
  const first = `${head}\n${code}`;
  const unpacked = script.slice(head.length);
  const packed = inDigits(deflateRawSync(unpacked, { level: 9 }));
  return { texts: [first, unpacked], elements: `<script type="text/plain" id="spanlife-script">${packed}</script>\n<script type="module">${first}</script>\n` };
}

/** Moves the inlined script to the end of the body and packs it, writes the policy and holds the page to its size. */
function finishedPage(): Plugin {
  return {
    name: 'finished-page',
    apply: 'build',
    enforce: 'post',
    generateBundle: {
      order: 'post',
      async handler(_options, bundle) {
        const strays = Object.keys(bundle).filter((name) => name !== 'index.html');
        if (strays.length > 0) this.error(`not inlined into the one file: ${strays.join(', ')}`);
        const page = bundle['index.html'];
        if (page?.type !== 'asset') return this.error('the build gave no index.html');
        const scripts: string[] = [];
        const withoutScripts = String(page.source).replace(
          /[ \t]*<script type="module"[^>]*>([\s\S]*?)<\/script>\s*/g,
          (_element, text: string) => {
            // The browser hashes what its parser made of the text, and the parser knows no carriage returns.
            scripts.push(text.replace(/\r\n?/g, '\n'));
            return '';
          },
        );
        const [script = '', ...more] = scripts;
        if (script === '' || more.length > 0) return this.error(`expected one script in the page, found ${scripts.length}`);
        const { elements, texts } = await packedScript(script);
        const meta = `<meta http-equiv="Content-Security-Policy" content="${policy(texts)}">`;
        const end = withoutScripts.lastIndexOf('</body>');
        if (end < 0) return this.error('the page has no </body>');
        page.source = (withoutScripts.slice(0, end) + elements + withoutScripts.slice(end))
          .replace(/<meta charset="?utf-8"?\s*\/?>/i, (charset) => `${charset}\n${meta}`)
          .replace('<style rel="stylesheet" crossorigin>', '<style>');
        if (!page.source.includes(meta)) return this.error('src/index.html has no <meta charset="utf-8"> to put the policy after');
        const size = Buffer.byteLength(page.source);
        // One that is not minified is looked into, and leaves this computer never.
        if (size > largestPage && this.environment.config.build.minify !== false) {
          return this.error(`the page has ${size} bytes, more than the ${largestPage} allowed`);
        }
      },
    },
    closeBundle() {
      const built = join(top, 'dist/index.html');
      if (existsSync(built)) console.log(`dist/index.html: ${(statSync(built).size / 1000).toFixed(0)} kB of ${largestPage / 1000} kB`);
    },
  };
}

export default defineConfig({
  root: join(top, 'src'),
  base: './',
  publicDir: false,
  build: {
    outDir: join(top, 'dist'),
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 100_000_000,
    cssCodeSplit: false,
    modulePreload: false,
    reportCompressedSize: false,
  },
  // A module worker does not start from a page opened by double click; a classic one does.
  worker: { format: 'iife' },
  plugins: [katexFonts(), withoutTextToCode(), prerenderedSheet(), licences(), viteSingleFile({ removeViteModuleLoader: true }), finishedPage()],
});
