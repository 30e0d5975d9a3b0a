import { rememberedTexts } from '../core/remembered/index.ts';
import { breaksBeforeSigns, withoutBreaks } from './line-ends.ts';
import { plainEquations } from './plain-equations.ts';
import { typesetter } from './typesetter.ts';

const SETTINGS = { throwOnError: false, trust: false, strict: 'ignore', maxSize: 50, maxExpand: 1000 } as const;

/**
 * TeX as HTML with MathML for those who listen to it. Never throws: what KaTeX can't read it shows as written, in red.
 * The last few thousand are remembered, since an edit leaves most equations as they were. What sets them has to be there (`typesetter`).
 */
export const equation = rememberedTexts(2000, (tex) =>
  withoutBreaks(typesetter.use().renderToString(equationSource(breaksBeforeSigns(tex)), { ...SETTINGS, output: 'htmlAndMathml' })));

/** TeX as MathML alone, which takes a quarter of the time, and of the page a fifth of the room. */
export const plainEquation = rememberedTexts(2000, (tex) =>
  plainEquations(typesetter.use().renderToString(equationSource(tex), { ...SETTINGS, output: 'mathml' })));

/** What KaTeX is given, and what it notes in its MathML as the source. */
function equationSource(tex: string): string {
  return `\\displaystyle ${tex}`;
}
