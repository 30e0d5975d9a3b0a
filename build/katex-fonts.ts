import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Plugin } from 'vite';

/** The faces that formulas of this trade use. The others (script, fraktur, blackboard …) would add 120 kB. */
const keptFaces = /^KaTeX_(Main-(Regular|Bold|Italic)|Math-Italic|Size[1-4]-Regular)$/;

/** KaTeX's style sheet with the kept faces put in as woff2 and the others left out. */
export function katexFonts(): Plugin {
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

/** KaTeX's widths and heights of letters in the faces that are not kept: its formulas name none of them. An empty table says of a letter what an unknown one has. */
export function katexMetrics(): Plugin {
  return {
    name: 'katex-metrics',
    apply: 'build',
    enforce: 'pre',
    transform(code, id) {
      if (!id.endsWith('katex/dist/katex.mjs')) return null;
      let left = 0;
      const kept = code.replace(/^( {2}"([A-Z][A-Za-z0-9]+-[A-Z][A-Za-z]+)": )\{\n[\s\S]*?\n {2}\}/gm, (table, head: string, face: string) => {
        if (keptFaces.test(`KaTeX_${face}`)) return table;
        left += 1;
        return `${head}{}`;
      });
      if (left < 5) throw new Error(`${id}: its tables of letters are not where they were`);
      return kept;
    },
  };
}
