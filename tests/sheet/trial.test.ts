/** A trial value stands in a key of its own: put there and taken away, all else stays byte for byte. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  applyEdit, enterText, goBackTo, heldInputsOf, inputsOf, parseSheet, putBack, serialiseSheet, setTrial, trialText, withInputs, type EditCommand, type SheetDocument,
} from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';

const TEXT = shipped('rotating-bending');

function edited(document: SheetDocument, command: EditCommand): SheetDocument {
  const result = applyEdit(document, command);
  if (!result.ok) throw new Error(result.problem.what);
  return result.value;
}

function entered(document: SheetDocument, target: string, text: string): SheetDocument {
  const result = enterText(document, target, text);
  if (!result.ok) throw new Error(result.problem.what);
  return result.value;
}

const givensOf = (document: SheetDocument) => document.blocks.flatMap((block) => (block.kind === 'cell' && block.cell.kind === 'given' ? [block.cell] : []));
const given = (document: SheetDocument, symbol: string) => {
  const cell = givensOf(document).find((one) => one.symbol === symbol);
  if (cell === undefined) throw new Error(`no given ${symbol}`);
  return cell;
};

describe('a trial value in the document', () => {
  test('comes and goes, and the text is what it was', () => {
    const document = parseSheet(TEXT);
    fc.assert(fc.property(fc.constantFrom(...givensOf(document)), fc.string({ unit: 'grapheme', maxLength: 20 }), (cell, text) => {
      const tried = edited(document, setTrial(cell.id, text));
      expect(trialText(given(tried, cell.symbol))).toBe(text.trim() === '' ? undefined : text.trim());
      expect(given(tried, cell.symbol)).toMatchObject({ ...(cell.readings === undefined ? {} : { readings: cell.readings }), ...(cell.value === undefined ? {} : { value: cell.value }) });
      expect(serialiseSheet(edited(tried, putBack([cell])))).toBe(TEXT);
    }), { numRuns: 30 });
  });

  test('goes when something is entered in the blank, and can be entered itself', () => {
    const tried = entered(parseSheet(TEXT), 'trial s_1', '105 mm');
    expect(given(tried, 's_1').trial).toBe('105 mm');
    expect(given(entered(tried, 's_1', '99 mm'), 's_1')).not.toHaveProperty('trial');
    expect(serialiseSheet(entered(tried, 'trial s_1', ''))).toBe(TEXT);
  });

  test('is held with a state, and a state held without one puts the readings back', () => {
    const [plain, tried] = [parseSheet(TEXT), entered(parseSheet(TEXT), 'trial s_1', '105 mm')];
    expect(inputsOf(tried).get('trial s_1')).toBe('105 mm');
    expect(inputsOf(plain).has('trial s_1')).toBe(false);
    const [without, with105] = [plain, tried].map(heldInputsOf);
    if (without === undefined || with105 === undefined) throw new Error('nothing held');
    expect(serialiseSheet(edited(tried, goBackTo(tried, without)))).toBe(TEXT);
    expect(given(edited(plain, goBackTo(plain, with105)), 's_1')).toMatchObject({ readings: given(plain, 's_1').readings, trial: '105 mm' });
    // With other readings too, which take the trial value away when they are entered.
    const other = withInputs(entered(tried, 's_1', '[90, 91 mm]'), with105);
    expect(other.problems).toEqual([]);
    expect(given(other.document, 's_1').trial).toBe('105 mm');
  });
});
