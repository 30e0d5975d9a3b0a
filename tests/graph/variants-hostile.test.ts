/** Ranges and conditions with anything in them: numbers for teams, or words, and never an exception or a number that is none. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { drawVariant, planVariants } from '../../src/graph/variants/index.ts';
import { parseSheet, variantText } from '../../src/sheet/index.ts';
import { FORMULAS, mutate, SHEETS, VALUES } from '../report/mutants.ts';
import { cases } from '../sizes.ts';

const value = fc.constantFrom(...VALUES, '1 mm', '2 mm', '9 mm', '0.5 mm', '100', '1e-7');
const formula = fc.constantFrom(...FORMULAS, 'd', '2*d', 'q + 1', 'd > 1');
const range = fc.oneof(
  fc.tuple(value, value, value).map(([low, high, step]) => `${low} .. ${high} step ${step}`),
  fc.tuple(formula, value, value).map(([text, spread, step]) => `${text} ± ${spread} step ${step}`),
  fc.tuple(value, value).map(([one, other]) => `${one} or ${other}`),
  fc.tuple(formula, value).map(([text, step]) => `${text} step ${step}`),
  value, fc.string({ maxLength: 12 }),
);
const bounds = fc.oneof(fc.tuple(value, value).map(([low, high]) => `${low} .. ${high}`), value.map((one) => `> ${one}`), fc.constantFrom('any', 'small', ''));

/** What is wrong with what became of a sheet: it is to give words, or numbers that can be read again. */
function faultsOf(text: string): readonly string[] {
  const plan = planVariants(parseSheet(text));
  if (!plan.ok) return plan.problem.what === '' ? ['a problem without words'] : [];
  const { variant, misfit } = drawVariant(plan.value, 7);
  if (misfit !== undefined) return misfit.failed.length > 0 && misfit.failed.every(({ times }) => times > 0) ? [] : ['no numbers, and no reason'];
  const unread = variant.entries.filter(({ symbol }) => {
    const state = variant.reckoned.states.symbol(symbol);
    return state?.status !== 'value' || !Number.isFinite(state.estimate.value);
  });
  return [...unread.map(({ symbol, text: number }) => `${symbol} = ${number}`), ...(/^0000-0007-[0-9A-F]{4}$/.test(variantText(7, variant.entries)) ? [] : ['a variant of another form'])];
}

test('small sheets with anything as ranges, formulas and bounds', () => {
  fc.assert(fc.property(range, range, formula, bounds, fc.boolean(), (d, other, step, wanted, isAsked) => {
    const keys = (symbol: string, more: Readonly<Record<string, string>>): string => Object.entries({ symbol, unit: 'mm', ...more }).map(([key, text]) => `${key}: ${JSON.stringify(text)}\n`).join('');
    expect(faultsOf(`---\nown_working: ${String(isAsked)}\n---\n\`\`\`given\n${keys('d', { varies: d })}\`\`\`\n\`\`\`given\n${keys('F', { varies: other, possible: 'any' })}\`\`\`\n\`\`\`step\n${keys('S', { formula: step, unit: '', wanted })}\`\`\`\n\`\`\`step\n${keys('T', { formula: 'S*1', unit: '' })}\`\`\`\n`)).toEqual([]);
  }), { numRuns: cases(600) });
});

test('the worksheets with up to three of their texts changed', () => {
  const change = fc.record({ cell: fc.nat({ max: 999 }), place: fc.nat({ max: 999 }), text: fc.oneof(value, range), formula });
  fc.assert(fc.property(fc.constantFrom(...SHEETS.filter((sheet) => sheet.includes('varies: '))), fc.array(change, { minLength: 1, maxLength: 3 }), (sheet, changes) => {
    expect(faultsOf(mutate(sheet.replace('own_working: false', 'own_working: true'), changes))).toEqual([]);
  }), { numRuns: cases(24) });
});
