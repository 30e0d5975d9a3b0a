/**
 * What sets equations, when it is there: in the page it is a part by itself, brought once the sheet is in the page, whose equations stand as MathML until then; in Node it
 * is imported at once (`typesetter-at-once.ts`). Only types of the library are imported here.
 */
import type katex from 'katex';
import { atHand } from '../core/remembered/index.ts';

export const typesetter = atHand<Pick<typeof katex, 'renderToString'>>('equations', async () => (await import('katex')).default);
