import fc from 'fast-check';
import katex from 'katex';
import { describe, expect, it } from 'vitest';
import { answerRule, presentStep, type PresentedStep } from '../../src/report/index.ts';
import { cellOf, contextOf, fenced, given, step } from './sheet-at.ts';

const inputs = given('F_1', '154.2 ± 0.4 N', 'N') + given('l_1', '101.25 ± 0.21 mm', 'mm') + given('l_L', '401.25 ± 0.32 mm', 'mm');

async function presented(text: string, id: string, system: 'SI' | 'US customary' = 'SI'): Promise<PresentedStep> {
  const context = await contextOf(inputs + text, system);
  return presentStep(cellOf(context, 'step', id), context);
}

describe('presentStep', () => {
  it('shows the case that applies with its reason, the whole for who asks, and no bracket that is zero', async () => {
    const beam = given('x', '200 mm', 'mm') + given('a', '100 mm', 'mm') + given('b', '300 mm', 'mm');
    const shear = await presented(beam + step('V', 'if(x >= a, F_1, 0) - if(x >= b, F_1, 0)', 'N'), 'V');
    expect(shear).toMatchObject({ symbolsTex: 'V = F_1', sinceTex: ['x \\ge a', 'x < b'] });
    expect(shear.wholeTex).toContain('cases');
    const moment = await presented(beam + step('M', 'F_1*macaulay(x - a) - F_1*macaulay(x - b)', 'N*m'), 'M');
    expect(moment.symbolsTex).toContain('\\langle');
    expect(moment.numbersTex).toBe('= 154.20\\,\\mathrm{N}\\,\\left(200\\,\\mathrm{mm} - 100\\,\\mathrm{mm}\\right)');
    expect(moment.wholeTex).toBeUndefined();
  });

  it('writes symbols, numbers with units, and the result', async () => {
    const shown = await presented(step('R_A', 'F_1*l_1/l_L', 'N', 'label: Left reaction'), 'R_A');
    expect(shown).toMatchObject({ number: '1', label: 'Left reaction', symbolTex: 'R_A', hidden: false, asked: false });
    expect(shown.symbolsTex).toMatch(/^R_A = \\frac\{F_1\\,l_1\}\{l_L\}$/);
    expect(shown.numbersTex).toBe('= \\frac{154.20\\,\\mathrm{N} \\cdot 101.25\\,\\mathrm{mm}}{401.25\\,\\mathrm{mm}}');
    expect(shown.result).toMatchObject({ kind: 'value', number: '38.91', unit: 'N', uncertainty: '0.13' });
    for (const tex of [shown.symbolsTex, shown.numbersTex ?? '', `${shown.resultPrefixTex} 1`]) {
      expect(() => katex.renderToString(tex, { throwOnError: true, strict: 'error' })).not.toThrow();
    }
  });

  it('puts numbers in in the reader\'s system', async () => {
    const shown = await presented(step('R_A', 'F_1*l_1/l_L', 'N'), 'R_A', 'US customary');
    expect(shown.numbersTex).toContain('\\mathrm{lbf}');
    expect(shown.numbersTex).toContain('\\mathrm{in}');
  });

  it('leaves out lines that would only repeat', async () => {
    const constant = await presented(step('k_c', '1', '1'), 'k_c');
    expect(constant).toMatchObject({ symbolsTex: '', resultPrefixTex: expect.stringMatching(/^k_.*=$/) });
    expect(constant.numbersTex).toBeUndefined();
    const renamed = await presented(step('l', 'l_1', 'mm'), 'l');
    expect(renamed.symbolsTex).toBe('l = l_1');
    expect(renamed.numbersTex).toBeUndefined();
    expect((await presented(step('w', 'u(l_1)', 'mm'), 'w')).numbersTex).toBeUndefined();
  });

  it('counts equations over the whole document, whatever stands between', async () => {
    const text = step('p', '2', '1') + '\n## Section\n\n' + given('z', '1', '1') + step('q', '3*p', '1');
    const context = await contextOf(text);
    expect(['p', 'q'].map((id) => presentStep(cellOf(context, 'step', id), context).number)).toEqual(['1', '2']);
  });

  it('says what it waits for, without a line of numbers', async () => {
    const shown = await presented(fenced('given', 'symbol: x', 'unit: N') + step('y', '2*x', 'N'), 'y');
    expect(shown.symbolsTex).toBe('y = 2\\,x');
    expect(shown.numbersTex).toBeUndefined();
    expect(shown.result).toMatchObject({ kind: 'range', text: 'waits for x' });
    expect(shown.problems).toEqual([]);
  });

  it('keeps a formula that cannot be read as it was typed', async () => {
    const shown = await presented(step('y', '2 l_1', 'mm'), 'y');
    expect(shown).toMatchObject({ symbolsTex: '', formulaText: '2 l_1', result: { kind: 'problem' } });
    expect(shown.problems.length).toBeGreaterThan(0);
  });

  it('names the option that sets its formula', async () => {
    const choice = fenced('choice', 'id: spans', 'label: Spans', 'chosen: measured', 'options:',
      '  - key: measured', '    label: as measured', '    sets:', '      l: l_1');
    const shown = await presented(choice + fenced('step', 'symbol: l', 'by: spans', 'unit: mm'), 'l');
    expect(shown.setBy).toBe('as measured');
    expect(shown.symbolsTex).toBe('l = l_1');
  });
});

describe('the reader\'s own result', () => {
  const answered = (answer: string, formula = '2*F_1', unit = 'N', ...rules: readonly string[]) =>
    presented(step('y', formula, unit, 'asked: true', `answer: "${answer}"`, ...(rules.length === 0 ? ['tolerance: 1 %', 'tries: 1'] : rules)), 'y').then(({ answer: own }) => own);

  // The sheet's own: 2 · 154.2 N = 308.4 N.
  it.each<[typed: string, verdict: string, sentence: string, formula?: string, unit?: string, comesOf?: readonly string[]]>([
    ['308.4 N', 'agrees', 'Yours agrees with the sheet’s.'],
    ['0.3084 kN', 'agrees', 'Yours agrees with the sheet’s.'],
    ['311.4', 'agrees', 'Yours agrees with the sheet’s.'],
    ['310 N', 'agrees', 'Yours agrees with the sheet’s.'],
    // 0.9 % off: few digits are enough where they are near enough.
    ['3.1e2 N', 'agrees', 'Yours agrees with the sheet’s.'],
    ['0.3 kN', 'too few digits', 'More digits, please: what is typed could be the sheet’s, rounded too far.'],
    ['3e2 N', 'too few digits', 'More digits, please: what is typed could be the sheet’s, rounded too far.'],
    ['0 kN', 'differs', 'Yours is zero, and the sheet’s is not.'],
    ['0e9 N', 'differs', 'Yours is zero, and the sheet’s is not.'],
    ['0 %', 'differs', 'Yours is zero, and the sheet’s is not.', '2*F_1/unit(N)*0.0005', '%'],
    ['2e1 %', 'too few digits', 'More digits, please: what is typed could be the sheet’s, rounded too far.', '2*F_1/unit(N)*0.0005', '%'],
    ['300 N', 'differs', 'Yours is 0.973 times the sheet’s.'],
    ['616.8 N', 'differs', 'Yours is 2.00 times the sheet’s.', '2*F_1', 'N', ['a factor of 2 put in once too often']],
    ['-308.4 N', 'differs', 'Yours is \u22121.00 times the sheet’s.', '2*F_1', 'N', ['the other sign']],
    ['308.4 kN', 'differs', 'Yours is 1000 times the sheet’s.', '2*F_1', 'N', ['a power of ten: 1000 times too large, so look at the units put in']],
    ['0.3084 N', 'differs', 'Yours is 0.001\u202f00 times the sheet’s.', '2*F_1', 'N', ['a power of ten: 1000 times too small, so look at the units put in']],
    ['15.42', 'differs', 'Yours is 100 times the sheet’s.', '2*F_1/unit(N)*0.0005', '1', ['a power of ten: 100 times too large, so look at the units put in']],
    // 1 lbf = 4.4482216152605 N (BIPM, The International System of Units; NIST SP 811, appendix B).
    ['69.33 N', 'differs', 'Yours is 0.225 times the sheet’s.', '2*F_1', 'N', ['a number in lbf given as N']],
    ['1371.8 N', 'differs', 'Yours is 4.45 times the sheet’s.', '2*F_1', 'N', ['F_1 put in as if it were in lbf', 'a number in N given as lbf']],
  ])('%s %s', async (typed, verdict, sentence, formula, unit, comesOf) => {
    expect(await answered(typed, formula, unit)).toEqual({ typed, verdict, sentence, ...(comesOf && { comesOf }) });
  });

  it('never agrees farther off than the sheet allows, with however few digits', async () => {
    await fc.assert(fc.asyncProperty(fc.integer({ min: 1, max: 4 }), fc.integer({ min: -2, max: 5 }), fc.integer({ min: 0, max: 9999 }), async (digits, power, mantissa) => {
      const typed = `${Number((mantissa / 1000).toPrecision(digits))}e${power} N`;
      const off = Math.abs(parseFloat(typed) - 308.4) / 308.4;
      // Away from the limit itself, where the last bit decides.
      fc.pre(Math.abs(off - 0.01) > 1e-6);
      expect((await answered(typed))?.verdict === 'agrees', typed).toBe(off < 0.01);
    }), { numRuns: 60 });
  });

  it('is refused in words where it is no such quantity', async () => {
    const own = await answered('308 mm');
    expect(own?.verdict).toBeUndefined();
    expect(own?.problem).toMatchObject({ code: 'unit-dimension', cell: 'y', key: 'answer' });
  });

  it('is told as a difference where the sheet\'s is zero', async () => {
    expect(await answered('0.5 N', 'F_1 - F_1')).toMatchObject({ verdict: 'differs', sentence: 'Yours is 0.500 N away from the sheet’s.' });
    expect(await answered('0 N', 'F_1 - F_1')).toMatchObject({ verdict: 'agrees' });
  });

  it.each<[rules: readonly string[], said: string]>([
    [['tolerance: 1 %', 'tries: 1'], 'Right within 1 %. One try, then the sheet’s shows.'],
    [['tolerance: 3 figures'], 'Right to 3 significant figures. 3 tries, then the sheet’s shows.'],
    [['tolerance: within 2 u'], 'Right within 2 u of the sheet’s. 3 tries, then the sheet’s shows.'],
    [['tolerance: factor 1,2', 'answer_unit: required'], 'Right within a factor of 1.2. With its unit. 3 tries, then the sheet’s shows.'],
    // 0.2 N of 154.2 N, and of 308.4 N as many: less than half a percent, which is the least.
    [[], 'Right within 0.5 %. 3 tries, then the sheet’s shows.'],
  ])('is asked for with what counts as right, and with what shows when: %j', async (rules, said) => {
    const context = await contextOf(inputs + step('y', '2*F_1', 'N', 'asked: true', ...rules));
    expect(answerRule(cellOf(context, 'step', 'y'), context)).toBe(said);
  });

  it('brings the sheet’s result to light when it is right or the tries are used up, and does not tell by how much it is off before', async () => {
    const asked = (...more: readonly string[]) => presented(step('y', '2*F_1', 'N', 'asked: true', 'tolerance: 1 %', ...more), 'y').then(({ hidden, answer }) => ({ hidden, sentence: answer?.sentence }));
    expect(await asked('answer: 400 N')).toEqual({ hidden: true, sentence: 'This is not the sheet’s. 2 tries are left.' });
    expect(await asked('answer: 300 N', 'tried: 400 N')).toEqual({ hidden: true, sentence: 'This is not the sheet’s. One try is left.' });
    expect(await asked('answer: 300 N', 'tried: 400 N; 200 N')).toEqual({ hidden: false, sentence: 'Yours is 0.973 times the sheet’s.' });
    expect(await asked('answer: 308.4 N', 'tried: 400 N')).toEqual({ hidden: false, sentence: 'Yours agrees with the sheet’s.' });
    // No tries: too short, not readable, no unit where one is asked for.
    expect(await asked('answer: 0.3 kN', 'tries: 1')).toMatchObject({ hidden: true });
    expect(await asked('answer: 308', 'tries: 1', 'answer_unit: required')).toEqual({ hidden: true, sentence: undefined });
    expect((await answered('308.4', '2*F_1', 'N', 'answer_unit: required'))?.problem?.what).toBe('“308.4” has no unit, and this sheet asks for one.');
    // Told once, it stays told, whatever the inputs become.
    expect(await asked('answer: 400 N', 'told: true')).toMatchObject({ hidden: false });
  });

  it('is told at the end where the sheet says so', async () => {
    const asked = async (head: string) => {
      const context = await contextOf(`---\nfeedback: at the end\n${head}---\n${inputs}${step('y', '2*F_1', 'N', 'asked: true', 'answer: 400 N')}`);
      return presentStep(cellOf(context, 'step', 'y'), context);
    };
    expect(await asked('')).toMatchObject({ hidden: true, answer: { typed: '400 N', sentence: 'Kept. You are told once you hand in.' } });
    expect((await asked('')).answer?.verdict).toBeUndefined();
    expect(await asked('handed_in: 2026-11-20T10:00:00Z\n')).toMatchObject({ hidden: false, answer: { verdict: 'differs', sentence: 'Yours is 1.30 times the sheet’s.' } });
  });

  it('is explained as far as the sheet allows', async () => {
    expect((await answered('616.8 N', '2*F_1', 'N', 'tries: 1', 'hints: none'))?.comesOf).toBeUndefined();
    expect((await answered('616.8 N', '2*F_1', 'N', 'tries: 1', 'hints: listed'))?.comesOf).toBeUndefined();
    expect((await answered('616.8 N', '2*F_1', 'N', 'tries: 1', 'hints: all'))?.comesOf).toHaveLength(1);
  });

  it('is right for earlier results of the reader’s own that are not, and says so', async () => {
    // 2 · 160 N = 320 N where the sheet has 308.4 N; half of that is 160 N again.
    const asked = step('y', '2*F_1', 'N', 'asked: true', 'answer: 320 N') + step('z', 'y/2', 'N', 'asked: true', 'answer: 160 N');
    const z = (await presented(asked, 'z')).answer;
    expect(z).toEqual({ typed: '160 N', verdict: 'carried', sentence: 'Right for what you had before, though that is not the sheet’s: y.' });
    // Through a step that nobody is asked for, too.
    const between = step('y', '2*F_1', 'N', 'asked: true', 'answer: 320 N') + step('w', 'y/4', 'N') + step('z', '3*w', 'N', 'asked: true', 'answer: 240 N');
    expect((await presented(between, 'z')).answer?.verdict).toBe('carried');
    // One’s own way on from the sheet’s result stays what it is.
    expect((await presented(asked.replace('160 N', '154.2 N'), 'z')).answer?.verdict).toBe('agrees');
    expect((await presented(asked.replace('160 N', '140 N'), 'z')).answer?.verdict).toBe('differs');
  });

  it('is explained by a slip that was made with earlier results of the reader’s own', async () => {
    // Theirs was 320 N where the sheet has 308.4 N; 320 N · 101.25 mm = 32 400 N mm, and half of that where a factor is forgotten.
    const asked = (typed: string) => presented(step('y', '2*F_1', 'N', 'asked: true', 'answer: 320 N') + step('z', '2*y*l_1', 'N*mm', 'asked: true', `answer: ${typed}`), 'z').then(({ answer }) => answer);
    expect(await asked('64800 N*mm')).toMatchObject({ verdict: 'carried' });
    expect(await asked('32400 N*mm')).toMatchObject({ verdict: 'differs', comesOf: ['a factor of 2 forgotten, going on with your own earlier results'] });
    // 2 · 308.4 N · 101.25 mm, halved: the sheet's own numbers.
    expect((await asked('31225 N*mm'))?.comesOf).toEqual(['a factor of 2 forgotten']);
    // 101.25 copied as 110.25: 2 · 320 · 110.25.
    expect((await asked('70560 N*mm'))?.comesOf).toEqual(['l_1 put in with two digits that changed places, going on with your own earlier results']);
  });

  it('goes the whole way back to an earlier result, however long', async () => {
    const links = Array.from({ length: 5000 }, (_, i) => step(`k_${i + 1}`, `k_${i}*1`, 'N')).join('');
    const chain = step('k_0', '2*F_1', 'N', 'asked: true', 'answer: 320 N') + links + step('z', 'k_5000/2', 'N', 'asked: true', 'answer: 160 N');
    expect((await presented(chain, 'z')).answer?.verdict).toBe('carried');
  });

  it('judges thousands of results that rest on one another, in whatever order they stand', async () => {
    // k_0 is 308.4 N, theirs 320 N with the tries used up; all that follows is right for it.
    const links = Array.from({ length: 1000 }, (_, i) => step(`k_${i + 1}`, `k_${i}*1`, 'N', 'asked: true', 'answer: 320 N')).toReversed().join('');
    const text = links + step('k_0', '2*F_1', 'N', 'asked: true', 'answer: 320 N', 'tries: 1');
    expect((await presented(text, 'k_1')).answer?.verdict).toBe('carried');
    expect((await presented(text, 'k_1000')).hidden).toBe(false);
  });

  it('is absent until something is typed', async () => {
    expect(await answered(' ')).toBeUndefined();
  });
});
