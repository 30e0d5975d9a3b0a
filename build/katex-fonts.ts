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
