/** What the slips of a sheet look like wherever they are said: marked in every form, and giving nothing away. */
import { describe, expect, it } from 'vitest';
import {
  isTouchedBySlips, liveText, presentGiven, presentSlipEffects, presentStep, recordCsv, renderSheet, sheetTex, SLIP_MARK, slipSentence, stepTex,
  type WholeContext,
} from '../../src/report/index.ts';
import { cellOf, contextOf, fenced, given, step } from './sheet-at.ts';

const SLIPS = ['slips:', '  radius:', '    label: the radius put in', '    formula: pi*(d/2)^4/64', '    note: one letter of each', '    source: common practice, no published source'];

function sheet({ slips = '', own = false, answer = '' } = {}): string {
  return `---\ntitle: Bar\nown_working: ${own}\nchief_results: sigma_a\n${slips === '' ? '' : `slips: ${slips}\n`}---\n`
    + given('M', '10.0 N·m', 'N·m', 'label: Moment')
    + given('d', '8.00 ± 0.01 mm', 'mm', 'label: Diameter', 'slips:', '  doubled:', '    label: read twice', '    formula: 2*d')
    + step('I', 'pi*d^4/64', 'mm^4', 'label: Second moment', ...SLIPS)
    + step('c', 'd/2', 'mm', 'label: Half the height')
    + step('sigma_a', 'M*c/I', 'MPa', 'label: Stress amplitude', ...(answer === '' ? [] : [`answer: ${answer}`]))
    + step('twice', '2*M', 'N·m', 'label: Twice the moment')
    + '\nThe stress is {=sigma_a}, twice the moment {=twice}.\n\n'
    + fenced('check', 'id: below', 'label: Below yield?', 'condition: sigma_a < 530*unit(MPa)', 'holds: "{=sigma_a} is below."', 'otherwise: "{=sigma_a} is too much."')
    + fenced('figure', 'id: drawn', 'label: Drawn', 'drawing: section', 'values:', '  diameter: d');
}

const stepOf = (context: WholeContext, symbol: string) => presentStep(cellOf(context, 'step', symbol), context);

describe('where a slip acts and further down', () => {
  it('says the right formula and result, and how many times that is', async () => {
    const context = await contextOf(sheet({ slips: 'I.radius' }));
    const here = stepOf(context, 'I');
    expect(here.symbolsTex).toContain('\\frac{d}{2}');
    expect(here.slipMark?.rightTex).toBe('I = \\frac{\\pi\\,d^{4}}{64}');
    // πd⁴/64 of 8 mm is 201.06 mm⁴, a sixteenth of that 12.57 mm⁴.
    expect(here.slipMark?.right).toMatch(/^201\.1 ± 1\.0 mm⁴$/);
    expect(here.slipMark?.effect).toBe('0.0625 times what is right');
    const after = stepOf(context, 'sigma_a');
    // 32·10 N·m/(π·8³ mm³) = 198.9 MPa.
    expect(after.slipMark?.right).toMatch(/^198\.94 ± 0\.75 MPa$/);
    expect(after.slipMark?.effect).toBe('16 times what is right');
    expect(after.slipMark?.slip).toBeUndefined();
    expect(stepOf(context, 'c').slipMark).toBeUndefined();
    expect(stepOf(context, 'twice').slipMark).toBeUndefined();
  });

  it('keeps the readings of a given and says what goes on in their place', async () => {
    const context = await contextOf(sheet({ slips: 'd.doubled' }));
    const shown = presentGiven(cellOf(context, 'given', 'd'), context);
    expect(shown.result).toMatchObject({ text: '8.000 ± 0.010 mm' });
    expect(shown.slipMark).toMatchObject({ slippedTex: '2\\,d', effect: '2 times what is right', used: { text: '16.000 ± 0.020 mm' } });
    expect(isTouchedBySlips('drawn', context)).toBe(true);
    expect(isTouchedBySlips('drawn', await contextOf(sheet({ slips: 'I.radius' })))).toBe(false);
  });

  it('marks live values in sentences, those that moved and no others', async () => {
    const context = await contextOf(sheet({ slips: 'I.radius' }));
    expect(liveText('{=sigma_a} and {=twice}', context)).toBe(`3183\u00a0MPa\u00a0${SLIP_MARK} and 20.00\u00a0N·m`.replace('20.00', '20'));
    expect(liveText('{=sigma_a}', await contextOf(sheet()))).not.toContain(SLIP_MARK);
  });
});

describe('what leaves the page', () => {
  it('the report bears a band, the slip with what is right, and a mark at every value, verdict and drawing that it reaches', async () => {
    const report = renderSheet(await contextOf(sheet({ slips: 'I.radius' })));
    expect(report).toContain('class="slip-band"');
    expect(report).toContain('A slip is switched on: values marked [slip] are wrong on purpose, not results');
    expect(report).toContain('Second moment: the radius put in');
    const cell = (id: string): string => new RegExp(`<section class="[^"]*" id="cell-${id}">[\\s\\S]*?</section>`).exec(report)?.[0] ?? '';
    expect(cell('I')).toContain('class="slip-here"');
    expect(cell('I')).toContain('Wrong by a slip; right: 201.1 ± 1.0 mm⁴. Here it is 0.0625 times what is right.');
    expect(cell('sigma_a')).toContain(`<span class="slip-sign">${SLIP_MARK}</span>`);
    expect(cell('twice')).not.toContain('slip');
    expect(report).toMatch(/\[slip\] What follows rests on a slip that is switched on\.<\/p>\s*<section class="cell cell-check/);
    expect(renderSheet(await contextOf(sheet()))).not.toContain('slip');
  });

  it('the LaTeX of the sheet and of one step say so in words that LaTeX prints', async () => {
    const context = await contextOf(sheet({ slips: 'I.radius' }));
    const tex = sheetTex(context);
    expect(tex).toContain('A slip is switched on, to show what a common mistake does (Second moment: the radius put in)');
    expect(stepTex(cellOf(context, 'step', 'sigma_a'), context)).toMatch(/\\quad \\textbf\{\[slip\]\}[\s\S]*\\textbf\{\[slip\] Moved by a slip; right: 198\.94 \$\\pm\$ 0\.75 MPa\.\}/);
    expect(stepTex(cellOf(context, 'step', 'twice'), context)).not.toContain('slip');
    expect(sheetTex(await contextOf(sheet()))).not.toContain('slip');
    expect(recordCsv(new Map([['S', { text: '300', unit: 'MPa' }]]))).not.toContain('slip');
  });

  it('says nothing where no slip is on', async () => {
    expect(slipSentence(await contextOf(sheet()))).toBeUndefined();
  });
});

describe('the list of what each slip would do alone', () => {
  it('reckons with the right sheet, also while another one is on', async () => {
    for (const slips of ['', 'd.doubled']) {
      const groups = presentSlipEffects(await contextOf(sheet({ slips })));
      expect(groups.map(({ where, slips: inside }) => [where, inside.map(({ effects }) => effects)])).toEqual([
        ['Diameter', [['Stress amplitude ×\u00a00.125']]],
        ['Second moment', [['Stress amplitude ×\u00a016']]],
      ]);
    }
  });

  it('tells no effect on a result that is still asked', async () => {
    const groups = presentSlipEffects(await contextOf(sheet({ own: true })));
    expect(JSON.stringify(groups)).toContain('Stress amplitude: told after your own working');
    expect(JSON.stringify(groups)).not.toMatch(/×\s\d/);
  });
});

describe('own working', () => {
  it('is not given away by a slip: neither the right result nor the ratio, also where the slip reads less', async () => {
    const context = await contextOf(sheet({ own: true, slips: 'I.radius' }));
    const marks = [stepOf(context, 'I'), stepOf(context, 'sigma_a')].map(({ slipMark, hidden }) => ({ hidden, right: slipMark?.right, effect: slipMark?.effect }));
    expect(marks).toEqual([{ hidden: true }, { hidden: true }].map((one) => ({ ...one, right: undefined, effect: undefined })));
    const report = renderSheet(context);
    for (const number of ['201.1', '198.94', '12.57', '3183']) expect(report).not.toContain(number);
    // b = a*d is asked nobody, hangs on the asked a, and would no longer do so with the slip: it stays hidden.
    const less = (slips: string): string => `---\nown_working: false\n${slips}---\n` + given('d', '8 mm', 'mm') + step('a', '3*d', 'mm', 'asked: true')
      + step('b', '2*a', 'mm', 'slips:', '  other:', '    label: something else', '    formula: 5*d');
    const shown = await contextOf(less('slips: b.other\n'));
    expect(stepOf(shown, 'b').hidden).toBe(true);
  });

  it('judges by what is right, and tells by its name the slip that an answer comes of', async () => {
    const right = await contextOf(sheet({ own: true, slips: 'I.radius', answer: '199 MPa' }));
    expect(stepOf(right, 'sigma_a').answer).toMatchObject({ verdict: 'agrees' });
    // 16 times 198.9 MPa.
    const wrong = stepOf(await contextOf(sheet({ own: true, answer: '3180 MPa' })), 'sigma_a').answer;
    expect(wrong).toMatchObject({ verdict: 'differs', comesOf: ['the radius put in (at Second moment)'] });
    const other = stepOf(await contextOf(sheet({ own: true, answer: '500 MPa' })), 'sigma_a').answer;
    expect(other?.verdict).toBe('differs');
    expect(other?.comesOf).toBeUndefined();
  });
});
