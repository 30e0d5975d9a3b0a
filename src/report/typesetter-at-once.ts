/** Imported for its effect where equations are set without waiting: by the build, tests and whatever makes reports in Node. */
import katex from 'katex';
import { typesetter } from './typesetter.ts';

typesetter.give(katex);
