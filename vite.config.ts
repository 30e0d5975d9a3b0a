import { readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { defineConfig } from 'vite';
import { finishedPage } from './build/finished-page.ts';
import { katexFonts, katexMetrics } from './build/katex-fonts.ts';
import { namedSigns } from './build/named-signs.ts';
import { prerenderedSheet } from './build/prerendered-sheet.ts';
import { top } from './build/top.ts';
import { withoutPreloading } from './build/without-preloading.ts';
import { withoutTextToCode } from './build/without-text-to-code.ts';

/** A part of the page is named by the file that is asked for, or by its folder where that is the folder's index. */
function partName({ facadeModuleId, name }: { readonly facadeModuleId?: string | null; readonly name: string }): string {
  const own = facadeModuleId?.endsWith('/index.ts') === true ? basename(dirname(facadeModuleId)) : name;
  return `${own}.js`;
}

/** Importing a file of ours does nothing but where it brings styles. */
function bringsStyles(id: string): boolean {
  return /^import '.*\.css'/m.test(readFileSync(id, 'utf8'));
}

export default defineConfig({
  root: join(top, 'src'),
  // Nothing is fetched: what refers to another file is put into the page. A base that is no relative one spares asking for `import.meta`, which a part does not have.
  base: '/',
  publicDir: false,
  build: {
    outDir: join(top, 'dist'),
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 100_000_000,
    cssCodeSplit: false,
    modulePreload: false,
    reportCompressedSize: false,
    rolldownOptions: {
      // Of our own files each is asked for by what it exports: what only a late part calls goes with that part, whichever index it is named in.
      treeshake: { moduleSideEffects: (id) => !/\/src\/.*\.ts$/.test(id) || bringsStyles(id) },
      output: {
        entryFileNames: 'main.js',
        chunkFileNames: partName,
        codeSplitting: true,
      },
    },
  },
  // A module worker does not start from a page opened by double click; a classic one does.
  worker: { format: 'iife' },
  plugins: [katexFonts(), katexMetrics(), withoutTextToCode(), namedSigns(), withoutPreloading(), prerenderedSheet(), finishedPage()],
});
