import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Plugin } from 'vite';
import { prerender } from '../src/report/prerender.ts';
import { parseSheet, serialiseSheet, withExample } from '../src/sheet/index.ts';
import { top } from './top.ts';

/** The sheet with the entries of its example. */
function exampleOf(sheet: string, entries: string): string {
  const laid = withExample(parseSheet(sheet), entries);
  if (!laid.ok) throw new Error(`the example does not fit its sheet: ${laid.problem.what} ${laid.problem.mend}`);
  return serialiseSheet(laid.value);
}

/** Puts the start sheet into the page, so that it can be read before the script has started, or without it. */
export function prerenderedSheet(): Plugin {
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
