/** What is said of sweeps and of working back; what they hold back, and what they say to mistakes. */
import { describe, expect, it } from 'vitest';
import { presentFigure, presentWorkBack, sweepView } from '../../src/report/index.ts';
import type { StepCell } from '../../src/sheet/index.ts';
import { cellOf, contextOf, fenced, given, step } from './sheet-at.ts';

const GIVENS = given('F', '100 N', 'N', 'label: Load') + fenced('given', 'symbol: a', 'value: 2 mm', 'unit: mm', 'label: Arm');
const MOMENT = step('M', 'F*a', 'N*mm', 'label: Moment', 'ranges:', '  beyond data: F > 250*unit(N)');
const CHECK = fenced('check', 'id: small', 'label: Is it small?', 'condition: M <= 300*unit(N*mm)', 'holds: yes', 'otherwise: no');

const figure = (...body: readonly string[]): string => fenced('figure', 'id: drawn', 'drawing: sweep', ...body);

async function said(text: string, width = 700): Promise<string> {
  const context = await contextOf(text);
  const { chart, instead } = presentFigure(cellOf(context, 'figure', 'drawn'), context);
  return chart?.({ width, idPrefix: 'x' }).sentence ?? instead ?? '';
}

describe('a sweep in a document', () => {
  it('says course, gap, the present state and the checks that turn', async () => {
    const words = await said(GIVENS + MOMENT + CHECK + figure('of: M', 'against: F', 'from: 0 N', 'to: 300 N'));
    expect(words).toBe('Against “Load” from 0 N to 300 N: Moment rises from 0 N·mm to 500 N·mm. From 250 N on “Moment” has no value: beyond the tested lives. '
      + 'The dot marks the sheet as it is, at 100 N. The check “Is it small?” no longer holds from 150 N on.');
  });

  it('takes a fifth to either side where no ends are named', async () => {
    expect(await said(GIVENS + MOMENT + figure('of: M', 'against: F'))).toMatch(/^Against “Load” from 80 N to 120 N: Moment rises from 160 N·mm to 240 N·mm\./);
  });

  it('draws lines of equal value against two givens, ends in the same order', async () => {
    expect(await said(GIVENS + MOMENT + figure('of: M', 'against: F, a', 'from: 50 N, 1 mm', 'to: 300 N, 4 mm')))
      .toBe('Over “Load” from 50 N to 300 N and “Arm” from 1 mm to 4 mm, Moment lies between 50 N·mm and 1000 N·mm. The dot marks the sheet as it is. '
        + 'Shaded, it has no value: beyond the tested lives.');
  });

  it('gives nothing away that the reader is still asked for, nor where a check on it turns', async () => {
    const asked = step('M', 'F*a', 'N*mm', 'label: Moment', 'asked: true');
    expect(await said(GIVENS + asked + figure('of: M', 'against: F'))).toBe('This drawing appears once you have worked its results out.');
    const beside = step('W', '2*F', 'N', 'label: Double');
    const words = await said(GIVENS + asked + CHECK + beside + figure('of: W', 'against: F', 'from: 100 N', 'to: 200 N'));
    expect(words).not.toMatch(/small/);
  });

  it.each([
    ['against: F', /needs a line such as of: N_f/],
    ['of: M', /needs a line such as against: d/],
    ['of: M|against: M', /needs a line such as against: d/],
    ['of: M|against: F|from: 5 mm', /needs two different values of F/],
    ['of: M|against: F|from: 100 N|to: 100 N', /needs two different values of F/],
    ['of: M|against: F, a, F', /needs a line such as against: d/],
    ['of: F|against: a', /a has no part in F/],
    ['of: M, q|against: F', /once all that it names is there/],
  ])('says what is missing: %s', async (body, words) => {
    expect(await said(GIVENS + MOMENT + figure(...body.split('|')))).toMatch(words);
  });

  it('is kept in the document as it is asked for in the page', async () => {
    const context = await contextOf(GIVENS + MOMENT);
    const view = sweepView(['M'], [{ given: cellOf(context, 'given', 'F'), from: '', to: '200 N' }], context);
    expect(view.ends).toEqual([{ from: '80 N', to: '200 N' }]);
    const source = view.problem === undefined ? view.figureSource : '';
    expect(await said((GIVENS + MOMENT + source).replace('```figure', '```figure\nid: drawn'))).toMatch(/^Against “Load” from 80 N to 200 N/);
  });
});

describe('working back in words', () => {
  const asked = async (text: string, wanted: string, input: string, from = '', to = '') => {
    const context = await contextOf(text);
    return presentWorkBack({ result: cellOf(context, 'step', 'M') as StepCell, wanted, input: cellOf(context, 'given', input), from, to }, context);
  };

  it('tells the answer, what it gives, which way it goes and which checks would fail', async () => {
    const found = await asked(GIVENS + MOMENT + CHECK, '400 N*mm', 'F', '0 N', '300 N');
    expect(found).toEqual({
      ok: true,
      value: {
        summary: 'One answer between 0 N and 300 N.',
        answers: [{
          value: '200 N', typed: '200 N', sentences: ['The result is then 400 N·mm.', 'A larger “Load” gives more there.'],
          warnings: ['The check “Is it small?” would no longer hold.'],
        }],
        notes: [expect.stringMatching(/^About 250\.\d+ N to 300 N it has no value: beyond the tested lives\.$/)],
      },
    });
  });

  it('tells that there is none, and between what the result lies', async () => {
    const found = await asked(GIVENS + MOMENT, '800 N*mm', 'F', '0 N', '200 N');
    expect(found.ok && found.value.summary).toBe('No answer between 0 N and 200 N gives 800 N·mm.');
    expect(found.ok && found.value.notes).toEqual(['Where it has a value here, the result lies between 0 N·mm (at 0 N) and 400 N·mm (at 200 N).']);
  });

  it('tells two answers, a touch, and a stretch', async () => {
    const square = GIVENS + step('M', '(F - 100*unit(N))^2/unit(N)*a', 'N*mm');
    expect(await asked(square, '200 N*mm', 'F', '50 N', '150 N')).toMatchObject({ ok: true, value: { summary: 'Two answers between 50 N and 150 N.', answers: [{ value: '90 N' }, { value: '110 N' }] } });
    const capped = GIVENS + step('M', 'min(F, 120*unit(N))*a', 'N*mm');
    expect(await asked(capped, '240 N*mm', 'F', '50 N', '200 N')).toMatchObject({ ok: true, value: { summary: 'Every value from 120 N to 200 N gives 240 N·mm.', answers: [] } });
  });

  it.each([['', 'There is no wanted result yet.'], ['5 kg', undefined], ['abc', undefined]])('says what it wants instead of “%s”', async (wanted, what) => {
    const found = await asked(GIVENS + MOMENT, wanted, 'F');
    expect(found.ok).toBe(false);
    expect(found.ok ? '' : found.problem.what).toMatch(what ?? /./);
  });
});
