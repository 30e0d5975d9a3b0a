/** Questions that no number of the sheet answers. What is one expression and what is another is known from the statics and sections of any textbook. */
import { describe, expect, test } from 'vitest';
import { questionKeys, questionStanding } from '../../src/graph/index.ts';
import { presentQuestion } from '../../src/report/index.ts';
import { applyEdit, cellsOf, parseSheet } from '../../src/sheet/index.ts';
import { cellOf, contextOf, contextOfDocument, fenced, given, step } from '../report/sheet-at.ts';

const BAR = given('F', '300 N', 'N') + given('l', '100 mm', 'mm') + given('d', '7.5 mm', 'mm')
  + step('M', 'F*l/2', 'N*mm') + step('c', 'd/2', 'mm') + step('I', 'pi*d^4/64', 'mm^4');
const EXPRESSION = ['id: q', 'label: The stress in the outer fibre', 'formula: M*c/I', 'in: M, c, I, d, F, l'];
const CHOICE = ['id: q', 'label: Where is it largest?', 'options:', '  middle: at the thinnest section', '  end: at the bearing', 'right: middle', 'why: The moment is constant there, {=M}.'];

async function standing(sheet: string, ...body: readonly string[]) {
  const context = await contextOf(sheet + fenced('question', ...body));
  return questionStanding(cellOf(context, 'question', 'q'), context.document, context.states);
}

async function verdict(typed: string, sheet = BAR, body = EXPRESSION): Promise<string | undefined> {
  const { verdict: said, problem } = await standing(sheet, ...body, `answer: "${typed}"`);
  return problem?.code ?? said;
}

describe('an expression', () => {
  test.each(['M*c/I', 'c*M/I', 'M/(I/c)', '32*M/(pi*d^3)', 'M*d/(2*I)', '16*F*l/(pi*d^3)', '(F*l/2)*(d/2)/(pi*d^4/64)'])('%s says the same', async (typed) => {
    expect(await verdict(typed)).toBe('agrees');
  });

  test.each([
    ['M*c/(2*I)', 'differs'], ['32*M/(pi*d^4)', 'other dimension'], ['M*I/c', 'other dimension'], ['64*M/(pi*d^3)', 'differs'], ['M*c/I + 0.001*unit(MPa)', 'differs'], ['M + c', 'other dimension'],
    // True of this bar alone: d happens to be 7.5 mm.
    ['M*c/I*d/(7.5*unit(mm))', 'differs'],
    ['sigma*2', 'answer-other-symbol'], ['M*', 'operand-missing'],
  ])('%s does not: %s', async (typed, said) => {
    expect(await verdict(typed)).toBe(said);
  });

  test('is judged while its blanks are empty, too', async () => {
    const empty = BAR.replaceAll(/value: "[^"]*"\n/gu, '');
    expect(await verdict('32*M/(pi*d^3)', empty)).toBe('agrees');
    expect(await verdict('64*M/(pi*d^3)', empty)).toBe('differs');
  });

  test('may be written in the symbols of the right one where the question says no others', async () => {
    const plain = EXPRESSION.filter((line) => !line.startsWith('in:'));
    expect(await verdict('c*M/I', BAR, plain)).toBe('agrees');
    expect(await verdict('32*M/(pi*d^3)', BAR, plain)).toBe('answer-other-symbol');
  });
});

describe('tries and what shows', () => {
  async function shown(...more: readonly string[]) {
    const context = await contextOf(BAR + fenced('question', ...CHOICE, ...more));
    const { sentence, right, why, isOpen } = presentQuestion(cellOf(context, 'question', 'q'), context);
    return { sentence, right, why, isOpen };
  }

  test('nothing of the right answer before the tries are used up', async () => {
    expect(await shown('answer: end')).toEqual({ sentence: 'Not right. 2 tries are left.', right: undefined, why: undefined, isOpen: true });
    // 300 N · 100 mm / 2 = 15 000 N·mm.
    expect(await shown('answer: end', 'tries: 1')).toEqual({ sentence: 'Not right.', right: { words: 'at the thinnest section' }, why: expect.stringMatching(/^The moment is constant there, 15.000/u) as string, isOpen: false });
    expect(await shown('answer: middle')).toMatchObject({ sentence: 'Right.', isOpen: false });
    expect((await standing(BAR, ...CHOICE, 'answer: middel')).problem?.code).toBe('answer-no-option');
  });

  test('words are for whoever marks them, and stay open', async () => {
    const context = await contextOf(fenced('question', 'id: q', 'label: What does the surface say?', 'answer: Beach marks from two sides.'));
    expect(presentQuestion(cellOf(context, 'question', 'q'), context)).toMatchObject({ way: 'words', verdict: 'for the marker', isOpen: true, sentence: 'Kept for whoever marks it.' });
  });

  test('all are told on handing in where the sheet says so', async () => {
    const at = async (head: string) => {
      const context = await contextOf(`---\nfeedback: at the end\n${head}---\n${BAR}${fenced('question', ...CHOICE, 'answer: end')}`);
      return presentQuestion(cellOf(context, 'question', 'q'), context);
    };
    expect(await at('')).toMatchObject({ sentence: 'Kept. You are told once you hand in.', isOpen: true });
    expect(await at('handed_in: 2026-11-20T10:00:00Z\n')).toMatchObject({ sentence: 'Not right.', isOpen: false });
  });

  test('wrong answers are kept with the question', async () => {
    let document = parseSheet(BAR + fenced('question', ...EXPRESSION));
    for (const typed of ['M*c', 'M/', 'M/I', 'M*c/I']) {
      const { states } = await contextOfDocument(document);
      const [q] = cellsOf(document, 'question');
      const next = q && applyEdit(document, { do: 'set keys', cellId: 'q', values: questionKeys(q, typed, document, states) });
      if (next?.ok !== true) throw new Error('could not be entered');
      document = next.value;
    }
    expect(cellsOf(document, 'question')[0]).toMatchObject({ answer: 'M*c/I', tried: 'M*c; M/I', isTold: true });
  });

  test('what is wrong in the question itself is told', async () => {
    const problems = async (...body: readonly string[]) => {
      const context = await contextOf(BAR + fenced('question', 'id: q', 'label: What?', ...body));
      return presentQuestion(cellOf(context, 'question', 'q'), context).problems.map(({ code }) => code);
    };
    expect(await problems('formula: M + c')).toHaveLength(1);
    expect(await problems('formula: M*z')).toHaveLength(1);
    expect(await problems('options:', '  a: one', 'right: b')).toEqual(['right-unknown']);
    expect(await problems('options:', '  a: one', 'formula: M')).toEqual(['question-two-ways']);
  });
});
